import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readRotation } from '#lib/db/planning/pace/rotation'
import { readWorksBegun } from '#lib/db/planning/pace/works-begun'
import { listProjectsUnderWay, type ProjectRow } from '#lib/db/project/queries'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { listTimers, listWorkOfDay } from '#lib/db/work/queries'
import { allowedFrom, isInRotation, underWayStatuses } from '#lib/project/life-cycle'
import { HoopWord } from '#trade/hoop'
import { PlaceLabel } from '#trade/place-label'
import { WorkName } from '#trade/work-name'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted, listed } from '#words/amounts'
import { calendarDay } from '#words/date'
import { hoursWords } from '#words/hours'
import { OpenWalks } from '../_walk/open-walks'
import { NextUp } from './next-up'
import s from './projects.module.css'
import { projectsPageSchema } from './schema'
import { TravellingSection } from './travelling-section'
import { UntouchedSection } from './untouched-section'
import { fractionDone, statusHeads, stitchWords } from './words'
import { logWorkAction, removeWorkAction } from './work-actions'

export const generateMetadata = (): Metadata => ({ title: say('Projects') })

const perPage = 100

type ProjectsPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ProjectsPage({ searchParams }: ProjectsPageProps) {
  const [{ ownerIds, ownerName, settings }, { page, within }] = await Promise.all([
    getViewer(),
    searchParams.then((params) => projectsPageSchema.parse(params)),
  ])
  const now = calendarDay(new Date())
  const [{ rows, total, byStatus }, broken, worked, rotation, begun, timers] = await Promise.all([
    listProjectsUnderWay({ ownerIds, page, perPage }),
    listBrokenPromises({ ownerIds }),
    listWorkOfDay(ownerIds, now),
    readRotation(ownerIds, now),
    readWorksBegun(ownerIds, now),
    listTimers(ownerIds),
  ])
  const brokenCounts = new Map<string, number>()
  for (const { projectId } of broken) brokenCounts.set(projectId, (brokenCounts.get(projectId) ?? 0) + 1)
  const groups = underWayStatuses.flatMap((status) => {
    const members = rows.filter((row) => row.status === status)
    return members.length > 0
      ? [{ key: status, title: statusHeads[status], note: counted(byStatus[status] ?? 0, 'project'), rows: members }]
      : []
  })
  return (
    <>
      <PageHead
        title={say('Projects')}
        note={total > 0 && counted(total, 'project')}
        byline={ownerName && say('Under way from the goods of {ownerName}.', { ownerName })}
        actions={
          <>
            <LinkButton href="/walks/new">{say('Pull for several')}</LinkButton>
            <LinkButton href="/walks">{say('Pulls and put-backs')}</LinkButton>
            <LinkButton href="/kits">{say('Kit records')}</LinkButton>
            <LinkButton href="/projects/together">{say('Which together')}</LinkButton>
            <LinkButton href="/projects/rotation">{say('Rotation')}</LinkButton>
            <LinkButton href="/finishes">{say('Finishes')}</LinkButton>
          </>
        }
      />
      <OpenWalks />
      <NextUp rotation={rotation} timers={timers} />
      <PrintLine>{sayParts('Projects of {ownerName}, {now}', { ownerName, now: formatDate(now) })}</PrintLine>
      {total > 0 && <TravellingSection within={within} ownerIds={ownerIds} settings={settings} />}
      {total === 0 ? (
        <Empty
          title={say('Nothing under way')}
          actions={<LinkButton href="/charts?stitchableNow=1">{say('What can be stitched now')}</LinkButton>}
        >
          {say(
            'A project is one working of a design, from these threads, on this cloth. Open a design and press “Start this”: its threads are then promised to it, pulled in walking order, and put back when it is done.',
          )}
        </Empty>
      ) : (
        <div className={s.list}>
          <Ledger
            caption={say('Projects under way, nearest the needle first')}
            groups={groups}
            rowKey={(row) => row.id}
            rowHref={(row) => `/projects/${row.id}`}
            columns={[
              {
                key: 'hoop',
                head: say('State'),
                cell: (row) => <HoopWord status={row.status} fraction={fractionDone(row)} />,
                phone: 'side',
              },
              {
                key: 'what',
                head: say('What'),
                cell: (row) => (
                  <>
                    <WorkName
                      title={row.design.title}
                      quantity={row.quantity}
                      note={[listed(row.designers), row.forWhom && say('for {forWhom}', { forWhom: row.forWhom })]
                        .filter(Boolean)
                        .join(' · ')}
                    />
                    <BrokenNote count={brokenCounts.get(row.id) ?? 0} />
                  </>
                ),
                phone: 'lead',
              },
              { key: 'done', head: say('Done'), cell: (row) => <Done row={row} />, isNumeric: true, phone: 'line' },
              {
                key: 'log',
                head: say('Log'),
                headIsHidden: true,
                cell: (row) => <LogCell row={row} today={worked.get(row.id) ?? []} />,
                isOffPaper: true,
                phone: 'line',
              },
              { key: 'due', head: say('Due'), cell: (row) => <Due row={row} today={now} />, phone: 'line' },
              {
                key: 'bag',
                head: say('Bag'),
                cell: ({ place }) => place && <PlaceLabel label={place.label} />,
                isAtEnd: true,
                phone: 'side',
              },
            ]}
          />
          {total > perPage && (
            <Pager
              page={page}
              pages={Math.ceil(total / perPage)}
              hrefForPage={(other) => `/projects?page=${other}`}
              shown={say('{rows} of {total, plural, one {# project} other {# projects}}', { rows: rows.length, total })}
            />
          )}
        </div>
      )}
      <UntouchedSection begun={begun} />
    </>
  )
}

/** One press says that it was worked on today, and one takes that back; figures are typed on its own page. */
function LogCell({ row, today }: { row: ProjectRow; today: readonly { id: string; version: number }[] }) {
  if (!isInRotation(row.status)) return <FinishLink row={row} />
  const [last] = today
  return (
    <span className={s.log}>
      {last ? (
        <>
          <span>{say('Worked on today')}</span>
          <Form
            action={removeWorkAction}
            hidden={{ entryId: last.id, version: String(last.version) }}
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

const BrokenNote = ({ count }: { count: number }) =>
  count > 0 && (
    <>
      <br />
      <small className="do">
        {count === 1
          ? say('a promise no longer holds')
          : say('{count, plural, one {# promise} other {# promises}} no longer hold', { count })}
      </small>
    </>
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

const Due = ({ row, today: now }: { row: ProjectRow; today: string }) => {
  if (!row.dueOn) return null
  if (row.dueOn < now) return <span className="do nb">{say('was due {dueOn}', { dueOn: formatDate(row.dueOn) })}</span>
  return <span className="nb">{say('due {dueOn}', { dueOn: formatDate(row.dueOn) })}</span>
}
