import type { Metadata } from 'next'
import { formatDate } from '#language/day'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { readRotation } from '#lib/db/planning/pace/rotation'
import { readWorksBegun } from '#lib/db/planning/pace/works-begun'
import { readRevision } from '#lib/db/read-revision'
import { listTimers } from '#lib/db/work/queries'
import { dueChoices } from '#lib/project/filter-projects'
import { underWayStatuses } from '#lib/project/life-cycle'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { Ledger } from '#ui/ledger'
import { PageHead } from '#ui/page-head'
import { Pager } from '#ui/pager'
import { PrintLine } from '#ui/print-line'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { midSentence } from '#words/capital'
import { calendarDay } from '#words/date'
import { ChooseBar } from '../_listing/choose-bar'
import { ColumnsForm } from '../_listing/columns-form'
import { columnsOf } from '../_listing/columns-of'
import { groupsOf } from '../_listing/groups-of'
import { filterText } from '../_listing/list-address'
import { ListTools } from '../_listing/list-tools'
import { projectsHref, projectsQuerySchema } from '../_listing/projects-query'
import { rowsAddress } from '../_listing/rows-address'
import { SavedFilters } from '../_listing/saved-filters'
import { OpenWalks } from '../_walk/open-walks'
import { projectColumnsKnown, projectColumnWords } from './columns'
import { NextUp } from './next-up'
import { projectColumns, projectHref } from './project-columns'
import s from './projects.module.css'
import { findProjects } from './projects-found'
import { ProjectsList } from './projects-list'
import { projectsPageSchema } from './schema'
import { TravellingSection } from './travelling-section'
import { UntouchedSection } from './untouched-section'
import { dueWords, statusHeads } from './words'

export const generateMetadata = (): Metadata => ({ title: say('Projects') })

const perPage = 100

type ProjectsPageProps = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function ProjectsPage({ searchParams }: ProjectsPageProps) {
  const params = await searchParams
  const query = projectsQuerySchema.parse(params)
  const { within } = projectsPageSchema.parse(params)
  const { ownerIds, ownerName, settings } = await getViewer()
  const now = calendarDay(new Date())
  const [found, rotation, begun, timers, revision, shown] = await Promise.all([
    findProjects(query, { ownerIds, today: now, page: query.page, perPage }),
    readRotation(ownerIds, now),
    readWorksBegun(ownerIds, now),
    listTimers(ownerIds),
    readRevision(),
    columnsOf('projects', projectColumnsKnown),
  ])
  const { rows, every } = found
  const total = found.ids.length
  const filter = filterText(projectsHref(query, 1).split('?')[1] ?? '')
  const isNarrowed = filter !== ''
  const pages = Math.max(1, Math.ceil(total / perPage))
  const from = (query.page - 1) * perPage
  const columns = { shown, today: now, list: `projects of ${ownerIds.join()}?${filter}` }
  const caption = say('Projects under way, nearest the needle first')
  const sentence = [
    query.status && midSentence(statusHeads[query.status]),
    query.due && dueWords[query.due],
    query.q && `“${query.q}”`,
  ]
    .filter(Boolean)
    .join(', ')
  return (
    <>
      <PageHead
        title={say('Projects')}
        note={every > 0 && (isNarrowed ? say('{shown} of {all}', { shown: total, all: every }) : counted(every, 'project'))}
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
      {every > 0 && <TravellingSection within={within} ownerIds={ownerIds} settings={settings} />}
      {every === 0 ? (
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
          <FormStrip
            action="/projects"
            label={say('Which projects')}
            summary={sentence || say('All under way')}
            clear={isNarrowed ? { href: '/projects', label: say('All projects') } : undefined}
          >
            <StripText name="q" label={say('Words')} value={query.q ?? ''} placeholder={say('title, designer, for whom')} />
            <StripSelect
              name="status"
              label={say('State')}
              value={query.status ?? ''}
              any={say('any')}
              options={underWayStatuses
                .filter((status) => status === query.status || found.everyByStatus[status])
                .map((status) => ({ value: status, label: `${statusHeads[status]} (${found.everyByStatus[status] ?? 0})` }))}
            />
            <StripSelect
              name="due"
              label={say('Due')}
              value={query.due ?? ''}
              any={say('any')}
              options={dueChoices.map((due) => ({ value: due, label: dueWords[due] }))}
            />
          </FormStrip>
          <SavedFilters room="projects" filter={filter} missingFrom={() => null} />
          {rows.length === 0 ? (
            <Empty
              title={say('No project is like that')}
              actions={<LinkButton href="/projects">{say('All projects')}</LinkButton>}
            >
              {say('Take one of the choices off.')}
            </Empty>
          ) : (
            <>
              <ListTools>
                <ChooseBar room="projects" list={columns.list} filter={filter} total={total} noun="project" isLong={pages > 1} />
                <ColumnsForm room="projects" known={projectColumnsKnown} words={projectColumnWords} shown={shown} />
              </ListTools>
              <ProjectsList
                isLong={pages > 1}
                props={{ columns, caption, revision, startAt: from, rowsAddress: rowsAddress('projects', filter, ownerIds) }}
              >
                <Ledger
                  caption={caption}
                  columns={projectColumns(columns)}
                  groups={groupsOf(rows, found.runs, from)}
                  rowKey={({ id }) => id}
                  rowHref={projectHref}
                  even="high"
                />
                {pages > 1 && (
                  <Pager
                    page={query.page}
                    pages={pages}
                    hrefForPage={(other) => projectsHref(query, other)}
                    shown={say('{rows} of {total, plural, one {# project} other {# projects}}', { rows: rows.length, total })}
                  />
                )}
              </ProjectsList>
            </>
          )}
        </div>
      )}
      <UntouchedSection begun={begun} />
    </>
  )
}
