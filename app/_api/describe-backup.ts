import type { BackupCheck } from '#lib/backup/check'
import type { BackupAsked, BackupJob } from '#lib/db/backup/backup-jobs'
import { findBackupJob, startBackupJob } from '#lib/db/backup/backup-jobs'
import { type BackupListed, findBackup } from '#lib/db/backup/list-backups'
import { describeBackupRefusal, describeFault } from '#words/backup'
import { notFound, Problem } from './problem'

const describeCheck = (check: BackupCheck) =>
  check.isGood
    ? { at: check.at, isGood: true, canRestore: true, faults: [], holds: check.holds }
    : { at: check.at, isGood: false, canRestore: check.canRestore, faults: check.faults.map(describeFault), holds: null }

export const describeBackup = ({ name, madeAt, kind, isBroughtIn, bytes, check }: BackupListed) => ({
  ...{ name, madeAt: madeAt.toISOString(), kind, isBroughtIn, bytes, check: check && describeCheck(check) },
  download: `/settings/backups/${name}/file`,
})

export function describeBackupJob({ id, asked, state, progress }: BackupJob) {
  const about = {
    ...{ jobId: id, verb: asked.verb, step: progress.step, doneBytes: progress.done, ofBytes: progress.of },
    ...{ backupName: asked.verb === 'make' ? null : asked.name, setAside: null, check: null, refusal: null },
  }
  if (state.kind === 'running') return { ...about, state: 'running' as const }
  if (state.kind === 'failed')
    return { ...about, state: 'failed' as const, refusal: `The log has the details: ${state.errorId}.` }
  const { answer } = state
  switch (answer.kind) {
    case 'made':
      return { ...about, state: 'done' as const, backupName: answer.name, check: describeCheck(answer.check) }
    case 'checked':
      return { ...about, state: 'done' as const, check: describeCheck(answer.check) }
    case 'restored':
      return { ...about, state: 'done' as const, setAside: answer.setAside }
    case 'refused':
      return { ...about, state: 'refused' as const, refusal: describeBackupRefusal(answer.refusal) }
    case 'stopped':
      return { ...about, state: 'stopped' as const }
  }
}

/** Begin something with a backup that is there, and say how it stands. */
export async function beginBackupJob(asked: BackupAsked) {
  if (asked.verb !== 'make' && !(await findBackup(asked.name))) return notFound('backup', asked.name)
  const started = await startBackupJob(asked)
  if (!started.ok) return new Problem('refused', 'Something is being made, checked or restored just now.')
  const job = await findBackupJob(started.value.jobId)
  return job ? describeBackupJob(job) : notFound('job', started.value.jobId)
}
