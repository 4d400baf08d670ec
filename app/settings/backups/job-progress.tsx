'use client'

import { say } from '#language/say'
import type { BackupProgress } from '#lib/db/backup/write-backup'
import { Form } from '#ui/form'
import { Progress } from '#ui/progress'
import { usePolling } from '#ui/use-polling'
import { backupStepWords, bytesWords } from '#words/backup'
import { stopBackupAction } from './actions'

type JobProgressProps = { jobId: string; first: BackupProgress }

/** The bar of a backup that is being made, checked or restored; once that has ended, the page says how. */
export function JobProgress({ jobId, first }: JobProgressProps) {
  const answer = usePolling<{ isRunning: boolean; progress: BackupProgress }>(
    `/settings/backups/jobs/${jobId}/progress`,
    ({ isRunning }) => !isRunning,
  )
  const { step, done, of } = answer?.progress ?? first
  return (
    <Progress
      label={backupStepWords[step]}
      done={done}
      of={of > 0 ? of : undefined}
      note={of > 0 ? say('{bytes} of {bytes2}', { bytes: bytesWords(done), bytes2: bytesWords(of) }) : say('One moment')}
      stop={<Form action={stopBackupAction} hidden={{ jobId }} submit={say('Stop')} submitKind="plain" />}
    />
  )
}
