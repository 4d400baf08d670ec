import { formatDate } from '#language/day'
import { numberText } from '#language/figures'
import { say } from '#language/say'
import type { OwnerSchedule, SchedulePart, WorkToStitch } from '#lib/db/planning/pace/read-schedule'
import { daysBetween } from '#lib/quantity/day'
import { Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Section } from '#ui/section'

/** Parts further off than this are not due yet. */
const daysAhead = 60

type Row = { work: WorkToStitch; part: SchedulePart }

/** Parts of stitch-alongs that are overdue, due, or about to come out: the soonest first. */
export function PartsDue({ schedules, today }: { schedules: readonly OwnerSchedule[]; today: string }) {
  const rows = schedules
    .flatMap(({ works }) => works.flatMap((work) => work.parts.map((part): Row => ({ work, part }))))
    .filter(({ part }) => {
      const day = part.dueOn ?? part.comesOn
      return day !== null && daysBetween(today, day) <= daysAhead
    })
    .sort((a, b) => ((a.part.dueOn ?? a.part.comesOn ?? '') < (b.part.dueOn ?? b.part.comesOn ?? '') ? -1 : 1))
  if (rows.length === 0) return null
  return (
    <Section title={say('Stitch-along parts')} id="parts" note={say('overdue, or due within {daysAhead} days', { daysAhead })}>
      <Ledger
        caption={say('Parts of stitch-alongs, the soonest due first')}
        rows={rows}
        rowKey={({ part }) => part.id}
        columns={[
          {
            key: 'part',
            head: say('Part'),
            cell: ({ work, part }) => (
              <>
                {part.name}
                <br />
                <Link href={`/projects/${work.id}#parts`} className="title">
                  {work.title}
                </Link>
              </>
            ),
            phone: 'lead',
          },
          {
            key: 'out',
            head: say('Comes out'),
            cell: ({ part }) => part.comesOn && <span className="nb">{formatDate(part.comesOn)}</span>,
            phone: 'labelled',
          },
          {
            key: 'due',
            head: say('Due'),
            cell: ({ part }) =>
              part.dueOn && (
                <span className={part.dueOn < today ? 'do nb' : 'nb'}>
                  {formatDate(part.dueOn)}
                  {part.dueOn < today && say(', overdue')}
                </span>
              ),
            phone: 'labelled',
          },
          {
            key: 'stitches',
            head: say('Stitches'),
            cell: ({ part }) => (part.stitches === null ? part.stitches : numberText(part.stitches)),
            isNumeric: true,
            phone: 'labelled',
          },
        ]}
      />
    </Section>
  )
}
