import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import type { PaceReading } from '#lib/db/planning/pace/read-pace'
import type { Outlook } from '#lib/planning/pace/project-pace'
import { Button } from '#ui/button'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { counted } from '#words/amounts'
import { amountWords, minutesWords, paceHeads } from '#words/work'
import { DateSum } from '../../_planning/date-sum'
import { timeTaken } from '../time-taken'
import s from './log.module.css'

type PaceSectionProps = { projectId: string; pace: PaceReading; perWeek: number | null; isBegun: boolean }

/** How far it has come, at what pace, and when it will be done at each. */
export function PaceSection({ projectId, pace, perWeek, isBegun }: PaceSectionProps) {
  const { unit, left, outlooks, deadline, perHour } = pace
  return (
    <Section title="Pace and finish" id="pace" note={progressWords(pace)}>
      {left === null ? (
        <p>
          Nobody knows how many stitches it has: its key counts none, and its size or kind of cover is not on record. Log how far
          it has come in per cent, and it can be said when it will be done.
        </p>
      ) : outlooks.length === 0 ? (
        <p>Nothing is logged yet that a pace could be reckoned from. Say how much you will do a week, or log some work.</p>
      ) : (
        <Ledger
          caption="When it is done, at each pace from today"
          rows={outlooks}
          rowKey={({ kind }) => kind}
          columns={[
            {
              key: 'pace',
              head: 'Pace',
              cell: ({ kind, pace: mean }) => (
                <>
                  {paceHeads[kind]}
                  <br />
                  <small className="quiet">{amountWords(mean.amount / mean.weeks, unit)} a week</small>
                </>
              ),
              phone: 'lead',
            },
            {
              key: 'weeks',
              head: 'Still takes',
              cell: ({ weeks, daysAway }) => (
                <>
                  {counted(weeks, 'week')}
                  {daysAway > 0 && ` and ${counted(daysAway, 'day')} away`}
                </>
              ),
              phone: 'labelled',
            },
            {
              key: 'on',
              head: 'Last stitch',
              cell: ({ stitchedOn }) => <span className="nb">{formatDate(stitchedOn)}</span>,
              phone: 'labelled',
            },
            ...(deadline
              ? [
                  {
                    key: 'start',
                    head: isBegun ? 'Go on from, at the latest' : 'Start by',
                    cell: ({ due }: Outlook) => due && <span className="nb">{formatDate(due.startBy)}</span>,
                    phone: 'labelled' as const,
                  },
                  {
                    key: 'late',
                    head: 'Finished',
                    cell: ({ due }: Outlook) => due && <Slip due={due} />,
                    phone: 'labelled' as const,
                  },
                ]
              : []),
          ]}
        />
      )}
      <form className={s.say} action={`/projects/${projectId}#pace`} aria-label="If you stitch so much a week">
        <label>
          {unit === 'stitches' ? 'If I stitch so many a week' : 'If it comes on by so many per cent a week'}
          <input name="per-week" inputMode="numeric" autoComplete="off" defaultValue={perWeek ?? ''} />
        </label>
        <Button type="submit">Reckon it</Button>
      </form>
      {left !== null && outlooks.length > 0 && (
        <Unfold label="How this is reckoned">
          <Sums>
            {pace.weeks.length > 0 && <WeeksSum pace={pace} />}
            {outlooks.map((outlook) => (
              <DateSum key={outlook.kind} outlook={outlook} of={pace} />
            ))}
            <TotalSum pace={pace} />
          </Sums>
          <p className="quiet">
            {perHour !== null && `${amountWords(perHour, unit)} an hour, by what was logged with both. `}
            Times away and the first day of the week are set in <Link href="/settings#planning">Settings</Link>.
          </p>
        </Unfold>
      )}
    </Section>
  )
}

function progressWords({ unit, done, total, left }: PaceReading): string {
  if (unit === 'per-mille') return `${amountWords(done, unit)} done`
  if (total === null || left === null) return amountWords(done, unit)
  const about = total.how === 'estimated' ? 'about ' : ''
  return `${numberText(done)} of ${about}${counted(total.stitches, 'stitch')}, ${Math.floor((done * 100) / total.stitches)} %`
}

function Slip({ due }: { due: NonNullable<Outlook['due']> }) {
  const weeks = Math.ceil(due.daysLate / 7)
  return due.daysLate > 0 ? (
    <span className="do">
      {formatDate(due.readyOn)}, {counted(weeks, 'week')} late
    </span>
  ) : (
    <>{formatDate(due.readyOn)}, in time</>
  )
}

function WeeksSum({ pace }: { pace: PaceReading }) {
  const { weeks, unit, source, isPartial } = pace
  const stitched = weeks.filter(({ amount }) => amount > 0)
  const sum = (of: typeof weeks) => of.reduce((total, { amount }) => total + amount, 0)
  const rows: SumRow[] = [
    ...weeks.map(
      ({ startsOn, amount, isAway }): SumRow => ({
        label: `from ${formatDate(startsOn)}`,
        how: isAway ? 'away' : '',
        figure: amountWords(amount, unit),
      }),
    ),
    {
      label: paceHeads['stitched-weeks'],
      how: stitched.length > 0 ? `${amountWords(sum(stitched), unit)} ÷ ${stitched.length}` : '',
      figure: stitched.length > 0 ? amountWords(sum(stitched) / stitched.length, unit) : 'none',
      kind: 'rule',
    },
    {
      label: paceHeads['all-weeks'],
      how: `${amountWords(sum(weeks), unit)} ÷ ${weeks.length}`,
      figure: amountWords(sum(weeks) / weeks.length, unit),
      kind: 'end',
    },
  ]
  const notes = [
    source === 'owner' ? 'Its own log says nothing yet, so this is of all works of its owner.' : '',
    isPartial ? 'Only the week under way is logged; it may come to more.' : 'The week under way is left out.',
  ]
  return <Sum title="Week by week" rows={rows} note={notes.filter(Boolean).join(' ')} />
}

function TotalSum({ pace }: { pace: PaceReading }) {
  const { total, done, left, unit } = pace
  if (total === null || left === null) return null
  const pieces = total.pieces > 1 ? ` × ${counted(total.pieces, 'piece')}` : ''
  const how =
    total.how === 'counted'
      ? `the crosses of its key${pieces}`
      : `${total.width} × ${total.height} × ${total.coverPerMille / 10} % covered${pieces}`
  return (
    <Sum
      title="What is left"
      rows={[
        { label: 'In all', how, figure: amountWords(total.stitches, unit) },
        { label: 'Done', figure: `− ${amountWords(done, unit)}` },
        { label: 'Left', figure: amountWords(left, unit), kind: 'end' },
      ]}
      note={total.how === 'estimated' ? 'Its key counts no stitches, so this is an estimate.' : undefined}
    />
  )
}

/** How long a finished work really took. */
export function TimeTaken({ pace, hoursTenths }: { pace: PaceReading; hoursTenths: number }) {
  const facts = timeTaken(pace, hoursTenths)
  return facts.length === 0 ? null : (
    <Section title="How long it took" id="took">
      <Facts items={facts} />
      {pace.log.entries > 0 && pace.log.minutes < hoursTenths * 6 - 3 && (
        <p className="quiet">{minutesWords(pace.log.minutes)} of the hours are in the log; the rest was set down as a total.</p>
      )}
    </Section>
  )
}
