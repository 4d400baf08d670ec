import { findBackupJob } from '#lib/db/backup/backup-jobs'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { backupStepWords, checkWords, describeBackupRefusal, describeFault } from '#words/backup'
import { midSentence } from '#words/capital'
import { JobProgress } from './job-progress'

const titles = { make: 'Making a backup', check: 'Checking a backup', restore: 'Restoring' } as const

/** Some work on backups as it stands: its bar while it runs, and how it ended. */
export async function JobAnswer({ jobId }: { jobId: string }) {
  const job = await findBackupJob(jobId)
  if (job === null)
    return (
      <Notice kind="caution" title="Nothing is known of this any more">
        It was begun before the program last started. The list below says what there is.
      </Notice>
    )
  const { asked, state, progress } = job
  if (state.kind === 'running')
    return (
      <Section title={titles[asked.verb]}>
        <JobProgress jobId={jobId} first={progress} />
        <p className="quiet">
          {asked.verb === 'restore'
            ? 'Changes wait until it is over. Stopped, or cut off, it leaves what is there as it is.'
            : 'This page may be left; the work goes on. Stopped, it leaves nothing half made.'}
        </p>
        <noscript>
          <meta httpEquiv="refresh" content="2" />
        </noscript>
      </Section>
    )
  if (state.kind === 'failed')
    return (
      <Notice kind="refusal" title="This did not work">
        It broke off while: {midSentence(backupStepWords[progress.step])}. What is there is whole,
        {asked.verb === 'restore' ? ' all as it was or all as restored' : ' as it was'}. The error’s number in the log is{' '}
        <b>{state.errorId}</b>.
      </Notice>
    )
  const { answer } = state
  switch (answer.kind) {
    case 'made':
      return answer.check.isGood ? (
        <Notice kind="done" title="The backup is made, and good">
          Checked by restoring it to a scratch place: {checkWords(answer.check)}.
          {answer.rotatedOut.length > 0 && ` ${counted(answer.rotatedOut.length, 'older one')} made room for it.`}
        </Notice>
      ) : (
        <Notice kind="refusal" title="The backup was made, but it is not good">
          {answer.check.faults.map(describeFault).join(' ')} The older ones are kept.
        </Notice>
      )
    case 'checked':
      return answer.check.isGood ? (
        <Notice kind="done" title="It is good">
          Restored to a scratch place and looked through: {checkWords(answer.check)}.
        </Notice>
      ) : (
        <Notice kind="refusal" title={answer.check.canRestore ? 'It reads whole, but mind this' : 'It is not good'}>
          {answer.check.faults.map(describeFault).join(' ')}
        </Notice>
      )
    case 'restored':
      return (
        <Notice kind="done" title="Restored">
          What was there before is set aside as <Link href={`/settings/backups/${answer.setAside}`}>a backup of its own</Link>,
          and can be put back the same way. Pages that are open elsewhere show the old until they are loaded again.
        </Notice>
      )
    case 'refused':
      return <Notice kind="refusal" title={describeBackupRefusal(answer.refusal)} />
    case 'stopped':
      return (
        <Notice kind="done" title="Stopped">
          Nothing half made is left, and what was there is as it was.
        </Notice>
      )
  }
}
