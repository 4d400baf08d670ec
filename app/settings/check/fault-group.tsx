import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type Fault, type FaultKind, type Repair, repairsOf, weightOf } from '#lib/checking/fault'
import { mostOfAKind } from '#lib/db/checking/check-collection'
import { isSettled, type Outcome } from '#lib/db/checking/check-jobs'
import { CheckMark } from '#ui/check-mark'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { describeFault, faultHref, faultTitles, ownWayOut } from '#words/fault'
import { outcomeWords, previewRepair, repairWords } from '#words/repair'
import { repairAction } from './actions'
import s from './check.module.css'

/** More than so many of a kind on one page are no help. */
const mostShown = 50
const mostPreviewed = 5

type FaultGroupProps = {
  jobId: string
  kind: FaultKind
  faults: readonly Fault[]
  /** How many there are, beyond those that were kept. */
  count: number
  outcomes: ReadonlyMap<string, Outcome>
}

/** Faults of one kind, each with what can be done about it; and, for several, about all of them at once. */
export function FaultGroup({ jobId, kind, faults, count, outcomes }: FaultGroupProps) {
  const open = faults.filter(({ id }) => !isSettled(outcomes.get(id)))
  const forAll = [...new Set(open.flatMap(repairsOf))]
  const isWrong = weightOf(kind) === 'wrong'
  return (
    <Section
      title={faultTitles[kind]}
      note={
        <span className={s.weight} data-do={(isWrong && open.length > 0) || undefined}>
          <CheckMark state={open.length === 0 ? 'good' : isWrong ? 'bad' : 'unknown'} />
          {open.length === 0
            ? say('set right')
            : say('{count, number} {isWrong, select, yes {that must not be} other {worth a look}}', { count, isWrong })}
        </span>
      }
    >
      <Ledger
        caption={faultTitles[kind]}
        columns={columnsFor(jobId, outcomes)}
        rows={faults.slice(0, mostShown)}
        rowKey={({ id }) => id}
      />
      {count > mostShown && (
        <p className="quiet">
          {sayParts('The first {mostShown} of {count, number}{rest}.', {
            mostShown,
            count,
            rest:
              count > mostOfAKind &&
              say('; what is done about all is done about the first {mostOfAKind}: check again after it', { mostOfAKind }),
          })}
        </p>
      )}
      {open.length > 1 && forAll.length > 0 && (
        <div className={s.acts}>
          {forAll.map((repair) => (
            <ForAll
              key={repair}
              {...{ jobId, kind, repair }}
              faults={open.filter((fault) => repairsOf(fault).includes(repair))}
            />
          ))}
        </div>
      )}
    </Section>
  )
}

type ForAllProps = { jobId: string; kind: FaultKind; repair: Repair; faults: readonly Fault[] }

function ForAll({ jobId, kind, repair, faults }: ForAllProps) {
  const words = repairWords[repair]
  return (
    <ConfirmDialog
      opener={say('All {faults}: {midSentence}', { faults: faults.length, midSentence: midSentence(words) })}
      title={`${words}: ${counted(faults.length, 'time')}?`}
      confirm={say('{words}, all of them', { words })}
      action={repairAction}
      hidden={{ jobId, repair, faultKind: kind }}
    >
      <ul className={s.previews}>
        {faults.slice(0, mostPreviewed).map((fault) => (
          <li key={fault.id}>
            <b>{fault.about.name}.</b> {previewRepair(fault, repair)}
          </li>
        ))}
      </ul>
      {faults.length > mostPreviewed && (
        <p>{say('And so on for {faults, plural, one {# other} other {# others}}.', { faults: faults.length - mostPreviewed })}</p>
      )}
      <p>{say('Each is looked at once more before anything is changed.')}</p>
    </ConfirmDialog>
  )
}

const columnsFor = (jobId: string, outcomes: ReadonlyMap<string, Outcome>): readonly Column<Fault>[] => [
  {
    key: 'what',
    head: say('What'),
    width: '30%',
    phone: 'lead',
    cell: ({ about }) => {
      const href = faultHref(about)
      return <span className={s.name}>{href ? <Link href={href}>{about.name}</Link> : about.name}</span>
    },
  },
  { key: 'wrong', head: say('What is so'), phone: 'line', cell: (fault) => describeFault(fault) },
  {
    key: 'do',
    head: say('What can be done'),
    phone: 'line',
    isAtEnd: true,
    cell: (fault) => <Remedies jobId={jobId} fault={fault} outcome={outcomes.get(fault.id)} />,
  },
]

function Remedies({ jobId, fault, outcome }: { jobId: string; fault: Fault; outcome: Outcome | undefined }) {
  if (outcome && isSettled(outcome))
    return (
      <span className={s.weight}>
        <CheckMark state="good" />
        {outcomeWords(outcome.repair, outcome.answer)}
      </span>
    )
  const offered = repairsOf(fault)
  return (
    <>
      {outcome && <p>{outcomeWords(outcome.repair, outcome.answer)}</p>}
      {offered.length === 0 && (ownWayOut(fault.kind) ?? say('Nothing by itself.'))}
      <span className={s.remedies}>
        {offered.map((repair) => (
          <ConfirmDialog
            key={repair}
            opener={repairWords[repair]}
            title={`${repairWords[repair]}?`}
            confirm={repairWords[repair]}
            action={repairAction}
            hidden={{ jobId, repair, faultId: fault.id }}
          >
            <p>
              <b>{fault.about.name}.</b> {describeFault(fault)}
            </p>
            <p>{previewRepair(fault, repair)}</p>
          </ConfirmDialog>
        ))}
      </span>
    </>
  )
}
