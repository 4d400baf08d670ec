import type { ReactNode } from 'react'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import type { WorkAtPace } from '#lib/db/planning/pace/read-schedule'
import type { Deadline } from '#lib/planning/pace/finish-dates'
import type { PaceKind } from '#lib/planning/pace/project-pace'
import { groupByStart, type StartGroup } from '#lib/planning/pace/start-by'
import { type Column, Ledger } from '#ui/ledger'
import { Link } from '#ui/link'
import { Sums } from '#ui/sum'
import { UnfoldButton } from '#ui/unfold'
import { lateWords, monthWords } from '#words/calendar'
import { midSentence } from '#words/capital'
import { paceHeads } from '#words/work'
import { DateSum } from './date-sum'
import s from './planning.module.css'

/** A work to be begun or gone on with, as the list shows it. */
export type StartRow = {
  key: string
  projectId: string
  title: string
  note: string
  due: string
  isBegun: boolean
  left: number | null
  deadline: Deadline | null
  atPaces: readonly Pick<WorkAtPace, 'kind' | 'outlook' | 'latestStart' | 'daysLate' | 'endsOn' | 'beginsOn'>[]
  /** What has to be bought first. */
  cover?: ReactNode
}

type StartListProps = {
  rows: readonly StartRow[]
  kinds: readonly PaceKind[]
  today: string
  caption: string
  hasCover?: boolean
}

/** What must be begun by when, at each pace, with what slips; the arithmetic unfolds under its row. */
export function StartList({ rows, kinds, today, caption, hasCover = false }: StartListProps) {
  const works = rows.map((row) => ({
    row,
    isBegun: row.isBegun,
    startBy: row.atPaces.flatMap(({ outlook }) => outlook?.due?.startBy ?? []),
  }))
  const columns: Column<StartRow>[] = [
    {
      key: 'what',
      head: say('What'),
      cell: ({ projectId, title, note }) => (
        <>
          <Link href={`/projects/${projectId}`} className="title">
            {title}
          </Link>
          {note && (
            <>
              <br />
              <small className="quiet">{note}</small>
            </>
          )}
        </>
      ),
      phone: 'lead',
    },
    { key: 'due', head: say('Due'), cell: ({ due }) => due, phone: 'labelled' },
    ...kinds.map(
      (kind): Column<StartRow> => ({
        key: kind,
        head: say('Start by, {pace}', { pace: midSentence(paceHeads[kind]) }),
        cell: (row) => <AtPace row={row} kind={kind} today={today} />,
        phone: 'labelled',
      }),
    ),
    ...(hasCover ? [{ key: 'cover', head: say('Threads'), cell: ({ cover }: StartRow) => cover, phone: 'line' as const }] : []),
    {
      key: 'how',
      head: say('How it is reckoned'),
      headIsHidden: true,
      cell: ({ title, atPaces }) =>
        atPaces.some(({ outlook }) => outlook?.due) && (
          <UnfoldButton label={say('How {title} is reckoned', { title })}>{say('How')}</UnfoldButton>
        ),
      isOffPaper: true,
      phone: 'side',
    },
  ]
  return (
    <Ledger
      caption={caption}
      groups={groupByStart(works, today).map(({ group, works: of }) => ({
        key: group.kind === 'month' ? group.month : group.kind,
        ...groupWords(group),
        rows: of.map(({ row }) => row),
      }))}
      rowKey={({ key }) => key}
      columns={columns}
      under={(row) => <Reckoning row={row} />}
    />
  )
}

function groupWords(group: StartGroup): { title: ReactNode; note?: string } {
  switch (group.kind) {
    case 'overdue':
      return {
        title: say('Overdue'),
        note: say('the last day to begin, or to go on, has gone by at the slower pace'),
      }
    case 'month':
      return { title: say('Begin in {month}', { month: monthWords(group.month) }) }
    case 'no-day':
      return { title: say('No day to begin'), note: say('how many stitches it has, or your pace, is not known') }
  }
}

/** The last day to begin at a pace, what sharing the weeks makes of it, and whether it slips. */
function AtPace({ row, kind, today }: { row: StartRow; kind: PaceKind; today: string }) {
  const at = row.atPaces.find((one) => one.kind === kind)
  const due = at?.outlook?.due
  if (!at || !due) return <span className="quiet">{row.left === 0 ? say('stitched') : say('not known')}</span>
  const isPast = due.startBy < today
  return (
    <span className={s.at}>
      <span className={isPast ? 'do nb' : 'nb'}>
        {formatDate(due.startBy)}
        {isPast && (row.isBegun ? say(', gone by') : say(', should be begun'))}
      </span>
      {at.latestStart !== null && at.latestStart < due.startBy && (
        <small className="quiet">{say('with the others: {latestStart}', { latestStart: formatDate(at.latestStart) })}</small>
      )}
      {at.daysLate !== null && at.daysLate > 0 && (
        <small className="do">{say('slips: {late}', { late: lateWords(at.daysLate) })}</small>
      )}
      {at.daysLate !== null && at.daysLate <= 0 && at.endsOn !== null && (
        <small className="quiet">{say('in its turn stitched by {endsOn}, in time', { endsOn: formatDate(at.endsOn) })}</small>
      )}
    </span>
  )
}

function Reckoning({ row }: { row: StartRow }) {
  const known = row.atPaces.filter(({ outlook }) => outlook?.due)
  if (known.length === 0) return null
  return (
    <div className={s.under}>
      <Sums>
        {known.map(({ kind, outlook }) => outlook && <DateSum key={kind} outlook={outlook} of={{ ...row, unit: 'stitches' }} />)}
      </Sums>
      {known
        .filter(({ beginsOn }) => beginsOn !== null)
        .map(({ kind, beginsOn, endsOn, latestStart }) => (
          <p key={kind} className="quiet">
            {sayParts('{paceHeads}, in its turn with the others: {rest}{rest2}.', {
              paceHeads: paceHeads[kind],
              rest:
                beginsOn && endsOn
                  ? say('from {beginsOn} until {endsOn}', { beginsOn: formatDate(beginsOn), endsOn: formatDate(endsOn) })
                  : say('no day within a hundred years'),
              rest2:
                latestStart &&
                say('; with all of them begun as late as they can be, this one by {latestStart}', {
                  latestStart: formatDate(latestStart),
                }),
            })}
          </p>
        ))}
      {row.left !== null && (
        <p className="quiet">{say('{left, plural, one {# stitch} other {# stitches}} left.', { left: row.left })}</p>
      )}
    </div>
  )
}
