import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { hoursWords } from '#words/hours'
import { amountWords, minutesWords, paceHeads } from '#words/work'
import { DateSum } from '../../_planning/date-sum'
import { timeTaken } from '../time-taken'
import s from './log.module.css'

type PaceSectionProps = { projectId: string; pace: PaceReading; perWeek: number | null; isBegun: boolean }

/** How far it has come, at what pace, and when it will be done at each. */
export function PaceSection({ projectId, pace, perWeek, isBegun }: PaceSectionProps) {
  const { unit, left, outlooks, deadline, perHour } = pace
  return (
    <Section title={say('Pace and finish')} id="pace" note={progressWords(pace)}>
      {left === null ? (
        <p>
          {say(
            'Nobody knows how many stitches it has: its key counts none, and its size or kind of cover is not on record. Log how far it has come in per cent, and it can be said when it will be done.',
          )}
        </p>
      ) : outlooks.length === 0 ? (
        <p>
          {say('Nothing is logged yet that a pace could be reckoned from. Say how much you will do a week, or log some work.')}
        </p>
      ) : (
        <Ledger
          caption={say('When it is done, at each pace from today')}
          rows={outlooks}
          rowKey={({ kind }) => kind}
          columns={[
            {
              key: 'pace',
              head: say('Pace'),
              cell: ({ kind, pace: mean }) => (
                <>
                  {paceHeads[kind]}
                  <br />
                  <small className="quiet">
                    {say('{amount} a week', { amount: amountWords(mean.amount / mean.weeks, unit) })}
                  </small>
                </>
              ),
              phone: 'lead',
            },
            {
              key: 'weeks',
              head: say('Still takes'),
              cell: ({ weeks, daysAway }) => (
                <>
                  {counted(weeks, 'week')}
                  {daysAway > 0 && say(' and {daysAway, plural, one {# day} other {# days}} away', { daysAway })}
                </>
              ),
              phone: 'labelled',
            },
            {
              key: 'on',
              head: say('Last stitch'),
              cell: ({ stitchedOn }) => <span className="nb">{formatDate(stitchedOn)}</span>,
              phone: 'labelled',
            },
            ...(deadline
              ? [
                  {
                    key: 'start',
                    head: isBegun ? say('Go on from, at the latest') : say('Start by'),
                    cell: ({ due }: Outlook) => due && <span className="nb">{formatDate(due.startBy)}</span>,
                    phone: 'labelled' as const,
                  },
                  {
                    key: 'late',
                    head: say('Finished'),
                    cell: ({ due }: Outlook) => due && <Slip due={due} />,
                    phone: 'labelled' as const,
                  },
                ]
              : []),
          ]}
        />
      )}
      <form className={s.say} action={`/projects/${projectId}#pace`} aria-label={say('If you stitch so much a week')}>
        <label>
          {unit === 'stitches' ? say('If I stitch so many a week') : say('If it comes on by so many per cent a week')}
          <input name="per-week" inputMode="numeric" autoComplete="off" defaultValue={perWeek ?? ''} />
        </label>
        <Button type="submit">{say('Reckon it')}</Button>
      </form>
      {left !== null && outlooks.length > 0 && (
        <Unfold label={say('How this is reckoned')}>
          <Sums>
            {pace.weeks.length > 0 && <WeeksSum pace={pace} />}
            {outlooks.map((outlook) => (
              <DateSum key={outlook.kind} outlook={outlook} of={pace} />
            ))}
            <TotalSum pace={pace} />
          </Sums>
          <p className="quiet">
            {sayParts('{rest}Times away and the first day of the week are set in <link>Settings</link>.', {
              rest:
                perHour !== null &&
                say('{amount} an hour, by what was logged with both. ', { amount: amountWords(perHour, unit) }),
              link: (words) => <Link href="/settings#planning">{words}</Link>,
            })}
          </p>
        </Unfold>
      )}
    </Section>
  )
}

function progressWords({ unit, done, total, left }: PaceReading): string {
  if (unit === 'per-mille') return say('{amount} done', { amount: amountWords(done, unit) })
  if (total === null || left === null) return amountWords(done, unit)
  return say(
    '{done, number} of {isEstimated, select, yes {about } other {}}{stitches, plural, one {# stitch} other {# stitches}}, {floor} %',
    {
      done,
      isEstimated: total.how === 'estimated',
      stitches: total.stitches,
      floor: Math.floor((done * 100) / total.stitches),
    },
  )
}

function Slip({ due }: { due: NonNullable<Outlook['due']> }) {
  const weeks = Math.ceil(due.daysLate / 7)
  return due.daysLate > 0 ? (
    <span className="do">
      {say('{readyOn}, {weeks, plural, one {# week} other {# weeks}} late', { readyOn: formatDate(due.readyOn), weeks })}
    </span>
  ) : (
    say('{readyOn}, in time', { readyOn: formatDate(due.readyOn) })
  )
}

function WeeksSum({ pace }: { pace: PaceReading }) {
  const { weeks, unit, source, isPartial } = pace
  const stitched = weeks.filter(({ amount }) => amount > 0)
  const sum = (of: typeof weeks) => of.reduce((total, { amount }) => total + amount, 0)
  const rows: SumRow[] = [
    ...weeks.map(
      ({ startsOn, amount, isAway }): SumRow => ({
        label: say('from {startsOn}', { startsOn: formatDate(startsOn) }),
        how: isAway ? say('away') : '',
        figure: amountWords(amount, unit),
      }),
    ),
    {
      label: paceHeads['stitched-weeks'],
      how: stitched.length > 0 ? `${amountWords(sum(stitched), unit)} ÷ ${stitched.length}` : '',
      figure: stitched.length > 0 ? amountWords(sum(stitched) / stitched.length, unit) : say('none'),
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
    source === 'owner' ? say('Its own log says nothing yet, so this is of all works of its owner.') : '',
    isPartial ? say('Only the week under way is logged; it may come to more.') : say('The week under way is left out.'),
  ]
  return <Sum title={say('Week by week')} rows={rows} note={notes.filter(Boolean).join(' ')} />
}

function TotalSum({ pace }: { pace: PaceReading }) {
  const { total, done, left, unit } = pace
  if (total === null || left === null) return null
  const pieces = total.pieces > 1 ? say(' × {pieces, plural, one {# piece} other {# pieces}}', { pieces: total.pieces }) : ''
  const how =
    total.how === 'counted'
      ? say('the crosses of its key{pieces}', { pieces })
      : say('{width} × {height} × {coverPerMille} % covered{pieces}', {
          width: total.width,
          height: total.height,
          coverPerMille: total.coverPerMille / 10,
          pieces,
        })
  return (
    <Sum
      title={say('What is left')}
      rows={[
        { label: say('In all'), how, figure: amountWords(total.stitches, unit) },
        { label: say('Done'), figure: `− ${amountWords(done, unit)}` },
        { label: say('Left'), figure: amountWords(left, unit), kind: 'end' },
      ]}
      note={total.how === 'estimated' ? say('Its key counts no stitches, so this is an estimate.') : undefined}
    />
  )
}

/** How long a finished work really took. */
export function TimeTaken({ pace, hoursTenths }: { pace: PaceReading; hoursTenths: number }) {
  const facts = timeTaken(pace, hoursTenths)
  return facts.length === 0 ? null : (
    <Section title={say('How long it took')} id="took">
      <Facts items={facts} />
      {hoursTenths > 0 && pace.done > 0 && pace.unit === 'stitches' && (
        <Unfold label={say('How this is reckoned')}>
          <Sums>
            <Sum
              title={say('An hour')}
              rows={[
                { label: say('Stitches'), figure: amountWords(pace.done, pace.unit) },
                { label: say('Hours at it'), figure: `÷ ${hoursWords(hoursTenths)}` },
                {
                  label: say('An hour'),
                  how: say('to the nearest stitch'),
                  figure: amountWords((pace.done * 10) / hoursTenths, pace.unit),
                  kind: 'end',
                },
              ]}
            />
          </Sums>
        </Unfold>
      )}
      {pace.log.entries > 0 && pace.log.minutes < hoursTenths * 6 - 3 && (
        <p className="quiet">
          {say('{minutes} of the hours are in the log; the rest was set down as a total.', {
            minutes: minutesWords(pace.log.minutes),
          })}
        </p>
      )}
    </Section>
  )
}
