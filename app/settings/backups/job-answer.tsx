import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { findBackupJob } from '#lib/db/backup/backup-jobs'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { Section } from '#ui/section'
import { backupStepWords, checkWords, describeBackupRefusal, describeFault } from '#words/backup'
import { midSentence } from '#words/capital'
import { JobProgress } from './job-progress'

const titles = sayings({ make: 'Making a backup', check: 'Checking a backup', restore: 'Restoring' })

/** Some work on backups as it stands: its bar while it runs, and how it ended. */
export async function JobAnswer({ jobId }: { jobId: string }) {
  const job = await findBackupJob(jobId)
  if (job === null)
    return (
      <Notice kind="caution" title={say('Nothing is known of this any more')}>
        {say('It was begun before the program last started. The list below says what there is.')}
      </Notice>
    )
  const { asked, state, progress } = job
  if (state.kind === 'running')
    return (
      <Section title={titles[asked.verb]}>
        <JobProgress jobId={jobId} first={progress} />
        <p className="quiet">
          {asked.verb === 'restore'
            ? say('Changes wait until it is over. Stopped, or cut off, it leaves what is there as it is.')
            : say('This page may be left; the work goes on. Stopped, it leaves nothing half made.')}
        </p>
        <noscript>
          <meta httpEquiv="refresh" content="2" />
        </noscript>
      </Section>
    )
  if (state.kind === 'failed')
    return (
      <Notice kind="refusal" title={say('This did not work')}>
        {sayParts(
          'It broke off while: {midSentence}. What is there is whole,{isRestore, select, yes { all as it was or all as restored} other { as it was}}. The error’s number in the log is {errorId}.',
          {
            midSentence: midSentence(backupStepWords[progress.step]),
            isRestore: asked.verb === 'restore',
            errorId: <b>{state.errorId}</b>,
          },
        )}
      </Notice>
    )
  const { answer } = state
  switch (answer.kind) {
    case 'made':
      return answer.check.isGood ? (
        <Notice kind="done" title={say('The backup is made, and good')}>
          {sayParts('Checked by restoring it to a scratch place: {check}.{rest}', {
            check: checkWords(answer.check),
            rest:
              answer.rotatedOut.length > 0 &&
              say(' {rotatedOut, plural, one {# older one} other {# older ones}} made room for it.', {
                rotatedOut: answer.rotatedOut.length,
              }),
          })}
        </Notice>
      ) : (
        <Notice kind="refusal" title={say('The backup was made, but it is not good')}>
          {say('{faults} The older ones are kept.', { faults: answer.check.faults.map(describeFault).join(' ') })}
        </Notice>
      )
    case 'checked':
      return answer.check.isGood ? (
        <Notice kind="done" title={say('It is good')}>
          {say('Restored to a scratch place and looked through: {check}.', { check: checkWords(answer.check) })}
        </Notice>
      ) : (
        <Notice kind="refusal" title={answer.check.canRestore ? say('It reads whole, but mind this') : say('It is not good')}>
          {answer.check.faults.map(describeFault).join(' ')}
        </Notice>
      )
    case 'restored':
      return (
        <Notice kind="done" title={say('Restored')}>
          {sayParts(
            'What was there before is set aside as <link>a backup of its own</link>, and can be put back the same way. Pages that are open elsewhere show the old until they are loaded again.',
            { link: (words) => <Link href={`/settings/backups/${answer.setAside}`}>{words}</Link> },
          )}
        </Notice>
      )
    case 'refused':
      return <Notice kind="refusal" title={describeBackupRefusal(answer.refusal)} />
    case 'stopped':
      return (
        <Notice kind="done" title={say('Stopped')}>
          {say('Nothing half made is left, and what was there is as it was.')}
        </Notice>
      )
  }
}
