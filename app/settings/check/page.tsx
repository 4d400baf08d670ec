import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { FaultKind } from '#lib/checking/fault'
import { requireRight } from '#lib/db/access/right'
import { type CheckResult, isSound } from '#lib/db/checking/check-collection'
import { type CheckJob, lastCheck } from '#lib/db/checking/check-jobs'
import { listSetAside, type SetAside } from '#lib/db/checking/set-aside'
import { grouped } from '#lib/grouped'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { type Column, Ledger } from '#ui/ledger'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { bytesWords } from '#words/backup'
import { midSentence } from '#words/capital'
import { checkStepWords, lookedWords, verdictWords } from '#words/checking'
import { momentWords } from '#words/date'
import { byWeight } from '#words/fault'
import { checkAction, removeSetAsideAction } from './actions'
import { CheckProgress } from './check-progress'
import { FaultGroup } from './fault-group'

export const generateMetadata = (): Metadata => ({ title: say('Consistency check') })

export default async function CheckPage() {
  requireRight('keep')
  const job = await lastCheck()
  const isRunning = job?.state.kind === 'running'
  const aside = await listSetAside()
  return (
    <>
      <PageHead
        title={say('Consistency check')}
        crumbs={[{ label: say('Settings'), href: '/settings' }]}
        byline={
          job
            ? say('Last begun {moment}.', { moment: momentWords(job.startedAt) })
            : say('Not checked since the program was started.')
        }
        actions={
          isRunning ? undefined : (
            <Form action={checkAction} submit={job ? say('Check again') : say('Check now')} pending={say('Beginning')} isInline />
          )
        }
      />
      {job ? (
        <Standing job={job} />
      ) : (
        <Empty title={say('Nothing looked at yet')}>
          {say(
            'The whole collection is looked through: whether stock is what its journal adds up to, whether things are in places that stand, promises, loans and logs, photographs and files, and the answers against the database. Nothing is changed by looking. Others can go on working.',
          )}
        </Empty>
      )}
      {aside.length > 0 && <Aside aside={aside} />}
    </>
  )
}

function Standing({ job }: { job: CheckJob }) {
  const { id, state, progress } = job
  switch (state.kind) {
    case 'running':
      return (
        <Section title={say('Looking through')}>
          <CheckProgress jobId={id} first={progress} />
          <p className="quiet">
            {say('This page may be left; the work goes on, and so can everybody else. Nothing is changed by it.')}
          </p>
          <noscript>
            <meta httpEquiv="refresh" content="2" />
          </noscript>
        </Section>
      )
    case 'failed':
      return (
        <Notice kind="refusal" title={say('The check broke off')}>
          {sayParts('While: {midSentence}. Nothing was changed. The error’s number in the log is {errorId}.', {
            midSentence: midSentence(checkStepWords[progress.step]),
            errorId: <b>{state.errorId}</b>,
          })}
        </Notice>
      )
    case 'ended':
      return <Found job={job} result={state.answer} />
  }
}

function Found({ job, result }: { job: CheckJob; result: CheckResult }) {
  const groups = grouped(result.faults, ({ kind }) => kind)
  const kinds = [...groups.keys()].sort(byWeight)
  return (
    <>
      <Notice kind={result.isWhole && isSound(result) ? 'done' : 'caution'} title={verdictWords(result)}>
        {lookedWords(result).join(' ')}
      </Notice>
      {kinds.map((kind: FaultKind) => (
        <FaultGroup
          key={kind}
          jobId={job.id}
          kind={kind}
          faults={groups.get(kind) ?? []}
          count={result.counts[kind] ?? 0}
          outcomes={job.outcomes}
        />
      ))}
    </>
  )
}

const columns = (): readonly Column<SetAside>[] => [
  { key: 'day', head: say('Day'), phone: 'lead', cell: ({ day }) => formatDate(day) },
  { key: 'files', head: say('Files'), phone: 'side', isNumeric: true, cell: ({ files }) => counted(files, 'file') },
  { key: 'bytes', head: say('Size'), phone: 'line', isNumeric: true, cell: ({ bytes }) => bytesWords(bytes) },
  {
    key: 'remove',
    head: say('Remove'),
    headIsHidden: true,
    phone: 'line',
    isAtEnd: true,
    cell: ({ day, files }) => (
      <ConfirmDialog
        opener={say('Remove')}
        title={say('Remove what was set aside on {day}?', { day: formatDate(day) })}
        confirm={say('Remove it')}
        action={removeSetAsideAction}
        hidden={{ day }}
      >
        <p>
          {say(
            '{files, plural, one {# file} other {# files}} that nothing names. They are taken off the disk and cannot be had back.',
            { files },
          )}
        </p>
      </ConfirmDialog>
    ),
  },
]

const Aside = ({ aside }: { aside: readonly SetAside[] }) => (
  <Section title={say('Set aside')} id="set-aside" note={say('Under uploads/set-aside in the data folder, until you remove it.')}>
    <Ledger caption={say('Files set aside, by day')} columns={columns()} rows={aside} rowKey={({ day }) => day} />
  </Section>
)
