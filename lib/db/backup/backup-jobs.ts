import 'server-only'
import type { BackupCheck } from '#lib/backup/check'
import type { BackupKind } from '#lib/backup/manifest'
import { ok, type Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import type { Job, JobControls, JobState, TooManyAtOnce } from '../job/job'
import { Jobs } from '../job/jobs'
import type { BackupRefused } from './backup-refused'
import { type BackupMade, checkKept, makeBackup, restoreKept } from './make-backup'
import { BackupStopped } from './run-backup'
import type { BackupProgress } from './write-backup'

export type BackupAsked = { verb: 'make'; kind: BackupKind } | { verb: 'check' | 'restore'; name: string }

export type BackupAnswer =
  | ({ kind: 'made' } & BackupMade)
  | { kind: 'checked'; name: string; check: BackupCheck }
  | { kind: 'restored'; name: string; setAside: string }
  | { kind: 'refused'; refusal: BackupRefused }
  | { kind: 'stopped' }

export type BackupJob = {
  id: string
  asked: BackupAsked
  state: JobState<BackupAnswer>
  progress: BackupProgress
  startedAt: Date
}

// One at a time: each would set the disk and the other back.
const jobs = new Jobs<BackupAsked, BackupProgress, BackupAnswer>('backup', {
  most: 1,
  isTakenUpAgain: false,
  first: ({ verb }) => ({ step: verb === 'make' ? 'copying' : 'checking', done: 0, of: 0 }),
  run: (asked, controls) =>
    carryOut(asked, controls).catch((error) => {
      if (error instanceof BackupStopped) return { kind: 'stopped' }
      throw error
    }),
})

/** Begin to make, check or restore a backup in the background. */
export async function startBackupJob(asked: BackupAsked): Promise<Result<{ jobId: string }, TooManyAtOnce>> {
  requireWhole()
  const started = await jobs.start(asked)
  return started.ok ? ok({ jobId: started.value.id }) : started
}

/** Begin the backup that a clock says is due, once for all processes. @returns null where another has begun it, or one is at work */
export async function startDueBackup(due: string): Promise<{ jobId: string } | null> {
  const job = await jobs.startOnce({ verb: 'make', kind: 'scheduled' }, `due ${due}`)
  return job && { jobId: job.id }
}

async function carryOut(asked: BackupAsked, controls: JobControls<BackupProgress>): Promise<BackupAnswer> {
  switch (asked.verb) {
    case 'make': {
      const made = await makeBackup(asked.kind, controls)
      return made.ok ? { kind: 'made', ...made.value } : { kind: 'refused', refusal: made.error }
    }
    case 'check': {
      const check = await checkKept(asked.name, controls)
      return check ? { kind: 'checked', name: asked.name, check } : { kind: 'refused', refusal: { kind: 'no-such-backup' } }
    }
    case 'restore': {
      const restored = await restoreKept(asked.name, controls)
      return restored.ok
        ? { kind: 'restored', name: asked.name, setAside: restored.value.setAside }
        : { kind: 'refused', refusal: restored.error }
    }
  }
}

/** @returns null for one nobody knows, such as one from before the program was started */
export async function findBackupJob(id: string): Promise<BackupJob | null> {
  const job = await jobs.find(id)
  return job && backupJobOf(job)
}

const backupJobOf = ({ id, about, state, progress, startedAt }: Job<BackupAsked, BackupProgress, BackupAnswer>): BackupJob => ({
  ...{ id, asked: about, state, progress, startedAt },
})

/** The one that runs now, if any. */
export async function findRunningBackup(): Promise<BackupJob | null> {
  const job = await jobs.latest()
  return job?.state.kind === 'running' ? backupJobOf(job) : null
}

/** Wait until it has ended. */
export const backupEnded = (id: string): Promise<void> => jobs.ended(id)

/** End it at once: what was half made goes, and what was there stays. */
export const stopBackupJob = (id: string): Promise<void> => jobs.stop(id)
