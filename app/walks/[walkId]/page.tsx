import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { listPlaceOptions } from '#lib/db/place/queries'
import { findWalk, type ShownLine, type WalkProject } from '#lib/db/walk/queries'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { hexesOf } from '#words/colour'
import { dayOf } from '#words/date'
import { liftWords, progressWords, thingName, totalOf, walkTitle } from '#words/walk'
import s from '../../_ticks/ticked-list.module.css'
import { bringUpToDateAction, closeWalkAction, dropWalkAction } from '../actions'
import type { DeskRow, DeskStop } from './rows'
import { WalkDesk } from './walk-desk'

type PageProps = { params: Promise<{ walkId: string }> }

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const found = await findWalk((await params).walkId)
  return { title: found ? walkTitle(found.walk) : say('Walk') }
}

const bagKinds = ['bag', 'box', 'ring', 'bin', 'folder']
const offeredBags = 300

export default async function WalkPage({ params }: PageProps) {
  const [found, { settings }, places] = await Promise.all([
    params.then(({ walkId }) => findWalk(walkId)),
    getViewer(),
    listPlaceOptions(),
  ])
  if (!found) notFound()
  const { walk, projects, lines, progress, revision } = found
  const isOpen = walk.status === 'open'
  const isPull = walk.kind === 'pull'
  const began = say('Begun {startedAt}{rest}', {
    startedAt: dayOf(walk.startedAt),
    rest: walk.startedBy ? say(' by {startedBy}', { startedBy: walk.startedBy }) : '',
  })
  const ended = walk.closedAt
    ? say('{isDone, select, yes {Done} other {Dropped}} {closedAt}{rest}', {
        isDone: walk.status === 'done',
        closedAt: dayOf(walk.closedAt),
        rest: walk.closedBy ? say(' by {closedBy}', { closedBy: walk.closedBy }) : '',
      })
    : null
  const edit = { walkId: walk.id }
  const carried = lines.filter(({ isCarried }) => isCarried)
  return (
    <>
      <PageHead
        title={walkTitle(walk)}
        crumbs={[
          { label: say('Projects'), href: '/projects' },
          { label: say('Pulls and put-backs'), href: '/walks' },
          { label: walk.title },
        ]}
        byline={
          <>
            {[began, ended].filter(Boolean).join('. ')}.{' '}
            <span className={s.screen}>
              <Projects projects={projects} />
            </span>
          </>
        }
      />
      <PrintLine>
        {sayParts('{walkTitle}, {startedAt}. Walked by ______________________________', {
          walkTitle: walkTitle(walk),
          startedAt: dayOf(walk.startedAt),
        })}
      </PrintLine>
      {!isOpen && (
        <Notice
          kind="done"
          title={say('{isDone, select, yes {This walk is done} other {This walk was dropped}}: {progress}.', {
            isDone: walk.status === 'done',
            progress: progressWords(progress),
          })}
        >
          {say('What was carried out is on the record. What was only ticked moved nothing.')}
        </Notice>
      )}
      {isOpen && (
        <WalkDesk
          walkId={walk.id}
          kind={walk.kind}
          version={walk.version}
          revision={revision}
          things={progress.things}
          stops={stopsOf(
            lines.filter(({ isCarried }) => !isCarried),
            projects,
            settings.threadUnit,
          )}
          lines={lines.map((line) => ({
            ...{ id: line.id, projectId: line.projectId, status: line.status, tickedBy: line.tickedBy },
            ...{ tickedAtMs: line.tickedAt?.getTime() ?? null, isCarried: line.isCarried },
          }))}
          bags={projects.map(({ id, title, place }) => ({ projectId: id, title, label: place?.label ?? null }))}
          bagSuggestions={places
            .filter(({ kind }) => bagKinds.includes(kind))
            .slice(0, offeredBags)
            .map(({ label }) => label)}
        />
      )}
      {carried.length > 0 && (
        <div className={s.screen}>
          <Section
            title={isPull ? say('In the bags') : say('Put back')}
            note={say('{carried} carried out on the record', { carried: carried.length })}
          >
            <ul className={s.carried}>
              {carried.map((line) => (
                <li key={line.id}>
                  {thingName(line.thing)}: {liftWords(line.thing, line, settings.threadUnit)}
                  {isPull && say(' for {title}', { title: projects.find(({ id }) => id === line.projectId)?.title ?? '' })}
                </li>
              ))}
            </ul>
          </Section>
        </div>
      )}
      {isOpen && (
        <div className={`${s.ends} ${s.screen}`}>
          {isPull && (
            <Form
              action={bringUpToDateAction}
              hidden={edit}
              submit={say('Bring up to date')}
              submitKind="plain"
              isInline
              label={say('Bring up to date')}
            />
          )}
          <ConfirmDialog
            opener={say('End the walk')}
            title={say('End this walk?')}
            confirm={say('End it')}
            action={closeWalkAction}
            hidden={edit}
          >
            <p>
              {say(
                'What is carried out stays so. What is only ticked moves nothing on the record, and what is open is not pulled.',
              )}
            </p>
          </ConfirmDialog>
          <ConfirmDialog
            opener={say('Drop it')}
            openerKind="quiet"
            title={say('Drop this walk?')}
            confirm={say('Drop it')}
            action={dropWalkAction}
            hidden={edit}
          >
            <p>
              {say('For a list that was made by mistake. What was carried out by it stays so; put back what you have in hand.')}
            </p>
          </ConfirmDialog>
        </div>
      )}
    </>
  )
}

const namedProjects = 6

const Projects = ({ projects }: { projects: readonly WalkProject[] }) =>
  projects.length > 0 && (
    <>
      {say('For')}{' '}
      {projects.slice(0, namedProjects).map(({ id, title, quantity, place }, at) => (
        <span key={id}>
          {at > 0 && ', '}
          <Link href={`/projects/${id}`}>{title}</Link>
          {quantity > 1 && ` × ${quantity}`}
          {place && ` (${place.label})`}
        </span>
      ))}
      {projects.length > namedProjects && say(' and {projects} more', { projects: projects.length - namedProjects })}.
    </>
  )

const hrefs = { thread: '/threads', cloth: '/cloth', chart: '/charts', notion: '/notions' } as const

/** Lines as one walks past them: a place at a time, a thing a row. */
function stopsOf(lines: readonly ShownLine[], projects: readonly WalkProject[], unit: ThreadLengthUnit): DeskStop[] {
  const projectOf = new Map(projects.map((project) => [project.id, project]))
  const stops: { stop: DeskStop; rows: Map<string, ShownLine[]> }[] = []
  for (const line of lines) {
    const key = line.place?.id ?? 'nowhere'
    let last = stops.at(-1)
    if (!last?.stop.key.startsWith(`${key} `)) {
      const { id, label, name } = line.place ?? { id: null, label: null, name: null }
      last = { stop: { key: `${key} ${stops.length}`, label, name, href: id && `/places/${id}`, rows: [] }, rows: new Map() }
      stops.push(last)
    }
    const same = last.rows.get(line.thingId)
    if (same) same.push(line)
    else last.rows.set(line.thingId, [line])
  }
  return stops.map(({ stop, rows }) => ({ ...stop, rows: [...rows.values()].map((of) => rowOf(of, projectOf, unit)) }))
}

function rowOf(lines: readonly ShownLine[], projectOf: ReadonlyMap<string, WalkProject>, unit: ThreadLengthUnit): DeskRow {
  const { thing, thingId } = lines[0] as ShownLine
  const thread = thing.kind === 'thread' ? thing : null
  const notes = [thread?.lot && say('lot {lot}', { lot: thread.lot }), ...new Set(lines.flatMap(({ note }) => note ?? []))]
  return {
    ...{ thingId, name: thingName(thing), kind: thing.kind, lineIds: lines.map(({ id }) => id) },
    thread: thread && {
      ...{ maker: thread.thread.makerName, code: thread.thread.code, name: thread.thread.name },
      ...{ hexes: hexesOf(thread.thread.lab), dye: 'solid' },
    },
    href: `${hrefs[thing.kind]}/${thread ? thread.thread.id : thing.id}`,
    note: notes.filter(Boolean).join(' · ') || null,
    amount: liftWords(thing, totalOf(lines), unit),
    bags: lines.flatMap((line) => {
      const project = projectOf.get(line.projectId ?? '')
      const label = project?.place ? `${project.title}, ${project.place.label}` : project?.title
      return label ? [{ lineId: line.id, label, amount: liftWords(thing, line, unit) }] : []
    }),
  }
}
