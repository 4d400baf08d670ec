import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { ProjectRow } from '#lib/db/project/queries'
import { allowedFrom, isInRotation } from '#lib/project/life-cycle'
import { HoopWord } from '#trade/hoop'
import { PlaceLabel } from '#trade/place-label'
import { WorkName } from '#trade/work-name'
import { LinkButton } from '#ui/button'
import { Form } from '#ui/form'
import type { Column } from '#ui/ledger'
import { counted, listed } from '#words/amounts'
import { hoursWords } from '#words/hours'
import { tickColumn } from '../_listing/tick-column'
import type { ProjectColumnKey } from './columns'
import s from './projects.module.css'
import { fractionDone, stitchWords } from './stitched'
import { logWorkAction, removeWorkAction } from './work-actions'

/** A project as the list has it: plain data, so that it can be sent. */
export type ProjectListRow = ProjectRow & {
  /** Promises of it that stock no longer supports. */
  brokenCount: number
  /** The last entry that says it was worked on today. */
  today: { id: string; version: number } | null
}

/** What every row of a list shares. */
export type ProjectColumnsAsked = {
  shown: readonly ProjectColumnKey[]
  /** yyyy-mm-dd */
  today: string
  /** Under which what is chosen of the list is kept. */
  list: string
}

const day = (iso: string | null) => iso && <span className="nb">{formatDate(iso)}</span>

/** The columns shown, in their order; drawn by the server and by the window over a long list alike. */
export function projectColumns({ shown, today, list }: ProjectColumnsAsked): Column<ProjectListRow>[] {
  const columns: Record<ProjectColumnKey, Omit<Column<ProjectListRow>, 'key'>> = {
    hoop: {
      head: say('State'),
      width: '7.5rem',
      cell: (row) => <HoopWord status={row.status} fraction={fractionDone(row)} />,
      phone: 'side',
    },
    what: { head: say('What'), width: '15rem', cell: (row) => <What row={row} />, phone: 'lead' },
    done: { head: say('Done'), width: '10rem', cell: (row) => <Done row={row} />, isNumeric: true, phone: 'line' },
    log: {
      head: say('Log'),
      headIsHidden: true,
      width: '19rem',
      cell: (row) => <LogCell row={row} />,
      isOffPaper: true,
      phone: 'line',
    },
    due: { head: say('Due'), width: '11rem', cell: (row) => <Due row={row} today={today} />, phone: 'line' },
    planned: { head: say('To be begun'), width: '8rem', cell: ({ plannedOn }) => day(plannedOn), phone: 'hide' },
    whom: { head: say('For whom'), width: '9rem', cell: ({ forWhom }) => forWhom, phone: 'hide' },
    stars: {
      head: say('Stars'),
      width: '7rem',
      cell: ({ stars }) => stars !== null && counted(stars, 'star'),
      phone: 'hide',
    },
    started: { head: say('Begun on'), width: '8rem', cell: ({ startedOn }) => day(startedOn), phone: 'hide' },
    owner: { head: say('Owner'), width: '9rem', cell: ({ owner }) => owner.name, phone: 'hide' },
    bag: {
      head: say('Bag'),
      width: '8.5rem',
      cell: ({ place }) => place && <PlaceLabel label={place.label} />,
      isAtEnd: true,
      phone: 'side',
    },
  }
  const ticks = tickColumn<ProjectListRow>(
    list,
    ({ id }) => id,
    ({ design }) => design.title,
  )
  return [ticks, ...shown.map((key) => ({ key, ...columns[key] }))]
}

export const projectHref = ({ id }: Pick<ProjectListRow, 'id'>): string => `/projects/${id}`

const What = ({ row }: { row: ProjectListRow }) => (
  <>
    <WorkName
      title={row.design.title}
      quantity={row.quantity}
      note={[listed(row.designers), row.forWhom && say('for {forWhom}', { forWhom: row.forWhom })].filter(Boolean).join(' · ')}
    />
    {row.brokenCount > 0 && (
      <>
        <br />
        <small className="do">
          {row.brokenCount === 1
            ? say('a promise no longer holds')
            : say('{count, plural, one {# promise} other {# promises}} no longer hold', { count: row.brokenCount })}
        </small>
      </>
    )}
  </>
)

/** One press says that it was worked on today, and one takes that back; figures are typed on its own page. */
function LogCell({ row }: { row: ProjectListRow }) {
  if (!isInRotation(row.status)) return <FinishLink row={row} />
  return (
    <span className={s.log}>
      {row.today ? (
        <>
          <span>{say('Worked on today')}</span>
          <Form
            action={removeWorkAction}
            hidden={{ entryId: row.today.id, version: String(row.today.version) }}
            submit={say('Undo')}
            submitKind="quiet"
            isInline
            label={say('Undo what was logged last today on {title}', { title: row.design.title })}
          />
        </>
      ) : (
        <Form
          action={logWorkAction}
          hidden={{ projectId: row.id, isTick: 'on' }}
          submit={say('Worked on it today')}
          submitKind="plain"
          isInline
          label={say('Worked on {title} today', { title: row.design.title })}
        />
      )}
      <LinkButton href={`/projects/${row.id}#log`} kind="quiet" aria-label={say('Log {title}', { title: row.design.title })}>
        {say('Log')}
      </LinkButton>
      <FinishLink row={row} />
    </span>
  )
}

/** What is being stitched is finished from here, without a look at its own page. */
const FinishLink = ({ row }: { row: ProjectRow }) =>
  allowedFrom(row).includes('finished') && (
    <LinkButton href={`/projects/${row.id}/finish`} kind="quiet" aria-label={say('Finish {title}', { title: row.design.title })}>
      {say('Finish')}
    </LinkButton>
  )

const Done = ({ row }: { row: ProjectRow }) => (
  <>
    {row.stitchesDone > 0 && stitchWords(row)}
    {row.hoursTenths > 0 && (
      <>
        {row.stitchesDone > 0 && <br />}
        <small className="quiet">{hoursWords(row.hoursTenths)}</small>
      </>
    )}
  </>
)

const Due = ({ row, today }: { row: ProjectRow; today: string }) => {
  if (!row.dueOn) return null
  if (row.dueOn < today) return <span className="do">{say('was due {dueOn}', { dueOn: formatDate(row.dueOn) })}</span>
  return <span>{say('due {dueOn}', { dueOn: formatDate(row.dueOn) })}</span>
}
