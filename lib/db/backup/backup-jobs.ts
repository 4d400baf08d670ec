import 'server-only'
import type { BackupCheck } from '#lib/backup/check'
import type { BackupKind } from '#lib/backup/manifest'
import { ok, type Result } from '#lib/result'
import { type JobState, Jobs, type TooManyAtOnce } from '#lib/solver/jobs'
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
const jobs = new Jobs<BackupAsked, BackupProgress, BackupAnswer>('backup', { most: 1 })

// Which one runs, for whoever opens the page while it does.
const shared = globalThis as unknown as { larderBackupJob?: string }

/** Begin to make, check or restore a backup in the background. */
export function startBackupJob(asked: BackupAsked): Result<{ jobId: string }, TooManyAtOnce> {
  const started = jobs.start({
    about: asked,
    first: { step: asked.verb === 'make' ? 'copying' : 'checking', done: 0, of: 0 },
    run: (controls) =>
      carryOut(asked, controls).catch((error) => {
        if (error instanceof BackupStopped) return { kind: 'stopped' }
        throw error
      }),
  })
  if (!started.ok) return started
  shared.larderBackupJob = started.value.id
  return ok({ jobId: started.value.id })
}

async function carryOut(
  asked: BackupAsked,
  controls: { signal: AbortSignal; report: (progress: BackupProgress) => void },
): Promise<BackupAnswer> {
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
export function findBackupJob(id: string): BackupJob | null {
  const job = jobs.find(id)
  return job && { id: job.id, asked: job.about, state: job.state, progress: job.progress, startedAt: job.startedAt }
}

/** The one that runs now, if any. */
export function findRunningBackup(): BackupJob | null {
  const job = shared.larderBackupJob === undefined ? null : findBackupJob(shared.larderBackupJob)
  return job?.state.kind === 'running' ? job : null
}

/** Wait until it has ended. */
export const backupEnded = (id: string): Promise<void> => jobs.ended(id)

/** End it at once: what was half made goes, and what was there stays. */
export const stopBackupJob = (id: string): Promise<void> => jobs.stop(id)
