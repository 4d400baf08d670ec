// Runs as a process of its own, one errand each: SQLite holds whoever asks it until it is done, and what is stopped is killed.
// Bundled by prisma/bundle-workers.mjs.
import { once } from 'node:events'
import type { BackupCheck } from '#lib/backup/check'
import type { BackupKind } from '#lib/backup/manifest'
import type { Result } from '#lib/result'
import { databaseUrl } from '../data-folder'
import type { BackupRefused } from './backup-refused'
import { checkBackup } from './check-backup'
import { restoreBackup } from './restore-backup'
import { type BackupProgress, writeBackup } from './write-backup'

export type BackupErrand =
  | { verb: 'make'; folder: string; kind: BackupKind }
  | { verb: 'check'; file: string }
  | { verb: 'restore'; file: string; folder: string }

/** What each errand ends with. */
export type BackupEnd = {
  make: Result<{ name: string }, BackupRefused>
  check: BackupCheck
  restore: Result<{ setAside: string }, BackupRefused>
}

export type BackupPosted =
  | { kind: 'progress'; progress: BackupProgress }
  /** Nobody is to write any more; answered with `held`. */
  | { kind: 'hold' }
  | { kind: 'ended'; end: BackupEnd[keyof BackupEnd] }

const post = (posted: BackupPosted): void => {
  process.send?.(posted)
}

/** Told no more often than anybody looks. */
const reportEveryMs = 100
let reportedMs = 0
let reportedStep = ''
const report = (progress: BackupProgress): void => {
  const now = Date.now()
  if (progress.step === reportedStep && now - reportedMs < reportEveryMs) return
  reportedMs = now
  reportedStep = progress.step
  post({ kind: 'progress', progress })
}

async function holdWrites(): Promise<void> {
  post({ kind: 'hold' })
  await once(process, 'message')
}

const [errand] = (await once(process, 'message')) as [BackupErrand]
const url = databaseUrl()
const end =
  errand.verb === 'make'
    ? await writeBackup({ url, folder: errand.folder, kind: errand.kind, report })
    : errand.verb === 'check'
      ? await checkBackup(errand.file, report)
      : await restoreBackup({ url, file: errand.file, folder: errand.folder, report, holdWrites })
process.send?.({ kind: 'ended', end } satisfies BackupPosted, () => process.exit(0))
// Whoever asked is gone: nobody is to be told, and a half-made backup is nobody's.
process.on('disconnect', () => process.exit(1))
