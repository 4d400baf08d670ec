import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatDate } from '#language/day'
import { formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { readLooks } from '#lib/db/photo/photo-looks'
import type { PlaceTag } from '#lib/db/place/place-rows'
import { listPlaceOptions } from '#lib/db/place/queries'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { readPace } from '#lib/db/planning/pace/read-pace'
import { readPullList } from '#lib/db/project/pull-list'
import { readPutBackList } from '#lib/db/project/put-back-list'
import { findProject, type ProjectDetail } from '#lib/db/project/queries'
import { readStartChoices } from '#lib/db/project/start-choices'
import { readSwapChoices } from '#lib/db/project/swap-choices'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { isPeople } from '#lib/place/place'
import { listOccasions, type OccasionWorld } from '#lib/planning/days/occasions'
import { allowedFrom, transitions } from '#lib/project/life-cycle'
import { BrokenPromises } from '#trade/broken-promises'
import { HoopWord } from '#trade/hoop'
import { Photo } from '#trade/photo'
import { PlaceLabel } from '#trade/place-label'
import { LinkButton } from '#ui/button'
import { ConfirmDialog } from '#ui/confirm-dialog'
import { Facts } from '#ui/facts'
import { ChoiceField } from '#ui/field'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { pieceName } from '#words/cloth'
import { calendarDay } from '#words/date'
import { givenName } from '#words/given'
import { hoursWords } from '#words/hours'
import { dueWords } from '#words/occasion'
import { Stars } from '../../_choice/stars'
import { FinishedSections } from '../../_finish/finished-sections'
import { LoansOf } from '../../_loans/loans-of'
import { PlanClash } from '../../_loans/plan-clash'
import { WorthSection } from '../../_worth/worth-section'
import { abandonProjectAction, moveProjectAction, promiseAgainAction, releaseProjectAction } from '../actions'
import { bagLabels } from '../place-suggestions'
import { paceQuerySchema } from '../schema'
import { fractionDone, stitchWords } from '../stitched'
import { DetailsForm } from './details-form'
import { LogSection } from './log-section'
import { NotionsSection } from './notions-section'
import { PaceSection, TimeTaken } from './pace-section'
import { PartsSection } from './parts-section'
import { PhotoForm } from './photo-form'
import s from './project.module.css'
import { PullSection } from './pull-section'
import { PutBackSection } from './put-back-section'
import { hasMore, isShort, StandingTable } from './standing-table'
import { SwapsSection } from './swaps-section'

type ProjectPageProps = {
  params: Promise<{ projectId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

export async function generateMetadata({ params }: ProjectPageProps): Promise<Metadata> {
  return { title: (await findProject((await params).projectId))?.design.title ?? say('Project') }
}

export default async function ProjectPage({ params, searchParams }: ProjectPageProps) {
  const { projectId } = await params
  const perWeek = paceQuerySchema.parse(await searchParams)['per-week']
  const now = new Date()
  const [{ settings }, project] = await Promise.all([getViewer(), findProject(projectId)])
  if (!project) notFound()
  const isOpen = transitions[project.status].length > 0
  const [pull, putBack, places, choices, swaps, broken, pace, occasions] = await Promise.all([
    isOpen ? readPullList(projectId) : null,
    readPutBackList(projectId),
    isOpen ? listPlaceOptions() : [],
    isOpen ? readStartChoices(project.design.id, project.owner.id, settings, projectId) : null,
    readSwapChoices(projectId),
    isOpen ? listBrokenPromises({ projectId }) : [],
    readPace(projectId, { today: calendarDay(now), perWeek }),
    readOccasionWorld([project.owner.id]),
  ])
  const looks = await readLooks([project.photoFile])
  const short = pull?.threads.filter(isShort) ?? []
  const edit = { projectId, version: String(project.version) }
  const unit = settings.threadUnit
  // Of what is being stitched the log comes first; of what is still to be got ready it comes after that.
  const isToCome = project.startedOn === null || !isOpen
  const log = pace && project.status !== 'wanted' && <LogSection project={project} pace={pace} now={now} />
  const outlook =
    pace &&
    (isOpen ? (
      project.status !== 'stitched' && (
        <PaceSection projectId={projectId} pace={pace} perWeek={perWeek} isBegun={project.startedOn !== null} />
      )
    ) : (
      <TimeTaken pace={pace} hoursTenths={project.hoursTenths} />
    ))
  return (
    <>
      <PageHead
        title={project.design.title}
        isWork
        crumbs={[{ label: say('Projects'), href: '/projects' }, { label: project.design.title }]}
        byline={
          <>
            {project.designers.join(', ')}
            {project.designers.length > 0 && ' · '}
            <Link href={`/designs/${project.design.id}`}>{say('the design')}</Link>
          </>
        }
        actions={<Steps project={project} edit={edit} />}
      >
        <HoopWord status={project.status} fraction={fractionDone(project)} width={34} note={stateNote(project)} />
      </PageHead>
      <PrintLine>
        {project.design.title}, {formatDate(calendarDay(new Date()))}
      </PrintLine>
      <div className={project.photoFile ? s.withPhoto : undefined}>
        <Facts items={factsOf(project, settings.lengthUnit, occasions)} />
        {project.photoFile && (
          <a href={`/photos/${project.photoFile}`} className={s.photo}>
            <Photo
              file={project.photoFile}
              look={looks.get(project.photoFile)}
              alt={say('{title}, finished', { title: project.design.title })}
              room={{ widthPx: 240, heightPx: 240 }}
              sizes="(max-width: 40rem) 100vw, 15rem"
              isLazy={false}
            />
          </a>
        )}
      </div>
      {(project.status === 'wanted' || project.status === 'planned') && (
        <p className={s.wished}>
          <span>{say('Wished for')}</span> <Stars projectIds={[projectId]} stars={project.stars} title={project.design.title} />{' '}
          <Link href="/projects/together">{say('Which together')}</Link>
        </p>
      )}
      {project.note && <p className={s.note}>{project.note}</p>}
      {isOpen && project.startedOn === null && (
        <PlanClash designId={project.design.id} plannedOn={project.plannedOn} projectId={projectId} />
      )}
      <LoansOf title={say('Away')} projectId={projectId} ownerId={project.owner.id} />
      {project.status === 'finished' && putBack && <PutBackSection list={putBack} unit={unit} />}
      {!isToCome && log}
      {!isToCome && outlook}
      <BrokenPromises
        broken={broken}
        unit={unit}
        about="project"
        actions={<Form action={promiseAgainAction} hidden={edit} isInline submitKind="plain" submit={say('Promise again')} />}
      />
      {isOpen && pull && pull.lines.length > 0 && (
        <PullSection project={project} lines={pull.lines} unit={unit} bagSuggestions={bagLabels(places)} />
      )}
      {isOpen && pull && pull.threads.length > 0 && (
        <Section
          title={say('What it needs')}
          note={
            short.length === 0
              ? say('{threads, plural, =1 {its one thread} =2 {both threads} other {all # threads}} promised', {
                  threads: pull.threads.length,
                })
              : say('{short} of {threads, plural, one {# thread} other {# threads}} short', {
                  short: short.length,
                  threads: pull.threads.length,
                })
          }
          actions={
            (short.some(hasMore) || project.status === 'wanted') && (
              <Form
                action={promiseAgainAction}
                hidden={edit}
                isInline
                submitKind="plain"
                submit={project.status === 'wanted' ? say('Plan it: promise what is free') : say('Promise what is free now')}
              />
            )
          }
        >
          <StandingTable threads={pull.threads} unit={unit} isWish={project.status === 'wanted'} projectId={projectId} />
        </Section>
      )}
      <PartsSection projectId={projectId} today={calendarDay(now)} isOpen={isOpen} />
      <NotionsSection projectId={projectId} isOpen={isOpen} />
      <SwapsSection choices={swaps} edit={edit} canChange={isOpen} />
      {isToCome && log}
      {isToCome && outlook}
      {putBack && project.status !== 'finished' && (!isOpen || pull?.lines.length === 0 || putBack.openLists.length > 0) && (
        <PutBackSection list={putBack} unit={unit} />
      )}
      {putBack && isOpen && (
        <p className={`${s.sum} quiet`}>
          <Link href={`/what-if?unpack=${projectId}`}>{say('What would unpacking this bag make stitchable?')}</Link>
        </p>
      )}
      {(project.status === 'stitched' || project.status === 'finished') && <FinishedSections projectId={projectId} />}
      {project.status === 'finished' && <PhotoForm edit={edit} hasPhoto={project.photoFile !== null} />}
      {project.status === 'finished' && <WorthSection noun="project" id={projectId} />}
      {isOpen && (
        <Section title={say('Details')}>
          <DetailsForm project={project} choices={choices} settings={settings} occasions={listOccasions(occasions)} />
          <div className={s.ends}>
            {(project.status === 'kitted' || (pull && pull.lines.length > 0)) && (
              <ConfirmDialog
                opener={say('Free its promises')}
                title={say('Free all that is promised to it?')}
                confirm={say('Free them')}
                action={releaseProjectAction}
                hidden={edit}
              >
                <p>
                  {say(
                    'Thread that is in the bag goes back to its drawers. {isKitted, select, yes {So do cloth, chart and notions, and the project is planned again, as before it was kitted.} other {The project stays as it is.}}',
                    { isKitted: project.status === 'kitted' },
                  )}
                </p>
                <PutBackChoice />
              </ConfirmDialog>
            )}
            <ConfirmDialog
              opener={say('Give it up')}
              title={say('Give up {title}?', { title: project.design.title })}
              confirm={say('Give it up')}
              action={abandonProjectAction}
              hidden={edit}
            >
              <p>
                {say(
                  'All that is in the bag goes back where it lives, what is in use for it too, and its promises are freed. What was logged stays. It cannot be taken up again; start a new project for that.',
                )}
              </p>
              <PutBackChoice />
            </ConfirmDialog>
          </div>
        </Section>
      )}
    </>
  )
}

type Edit = { projectId: string; version: string }

/** Whether a list is wanted to put things back by, or they lie in their places already. */
const PutBackChoice = () => (
  <ChoiceField
    name="putBack"
    label={say('What is in the bag')}
    defaultValue="list"
    options={[
      { value: 'list', label: say('becomes a list to tick, in walking order') },
      { value: 'now', label: say('lies in its places already') },
    ]}
  />
)

/** Places a kit is carried in, and taken out of again. */
const bagKinds: ReadonlySet<string> = new Set(['bag', 'box', 'ring', 'bin', 'folder'])

/** There is work or a kit to send, and nobody has it yet. */
const canBeSent = ({ status, place }: ProjectDetail): boolean =>
  status !== 'wanted' && status !== 'abandoned' && !(place && isPeople(place.kind))

/** What can be done next, the likeliest first. */
function Steps({ project, edit }: { project: ProjectDetail; edit: Edit }) {
  const allowed = allowedFrom(project)
  const step = (to: 'stitching' | 'resting' | 'stitched', words: string, kind: 'first' | 'plain') =>
    allowed.includes(to) && (
      <Form action={moveProjectAction} hidden={{ ...edit, to }} submit={words} submitKind={kind} isInline label={words} />
    )
  const isAtWork = project.status === 'stitching' || project.status === 'stitched'
  return (
    <>
      {(project.status === 'wanted' || project.status === 'planned') && (
        <LinkButton href={`/cloth/cut?project=${project.id}`}>{say('Plan the cut')}</LinkButton>
      )}
      {project.quantity > 1 && <LinkButton href={`/projects/${project.id}/kit`}>{say('Kits')}</LinkButton>}
      <LinkButton href={`/labels?one=project.${project.id}`}>{say('Label')}</LinkButton>
      {step('stitching', project.startedOn ? say('Take it up again') : say('Start stitching'), 'first')}
      {project.place && bagKinds.has(project.place.kind) && project.status !== 'finished' && (
        <LinkButton href={`/places/${project.place.id}/unpack`}>{say('Unpack')}</LinkButton>
      )}
      {allowed.includes('finished') && (
        <LinkButton href={`/projects/${project.id}/finish`} kind={isAtWork ? 'first' : 'plain'}>
          {say('Finish it')}
        </LinkButton>
      )}
      {step('stitched', say('Last stitch made'), 'plain')}
      {step('resting', say('Put it by'), 'plain')}
      {canBeSent(project) && <LinkButton href={`/loans/send?project=${project.id}`}>{say('Send away')}</LinkButton>}
    </>
  )
}

function stateNote(project: ProjectDetail): string | undefined {
  if (project.status === 'finished' && project.finishedOn) return formatDate(project.finishedOn)
  if (project.startedOn && transitions[project.status].length > 0)
    return say('since {startedOn}', { startedOn: formatDate(project.startedOn) })
  return undefined
}

const Whereabouts = ({ place, home }: { place: PlaceTag | null; home: PlaceTag | null }) =>
  place && (
    <PlaceLabel
      label={place.label}
      href={`/places/${place.id}`}
      livesIn={home && home.id !== place.id ? home.label : undefined}
    />
  )

function factsOf(project: ProjectDetail, unit: 'in' | 'cm', occasions: OccasionWorld) {
  const { clothPiece: piece, place } = project
  const facts = [
    { label: say('From the goods of'), value: project.owner.name },
    { label: say('Threads'), value: project.threadList?.name },
    {
      label: say('Cloth'),
      value: piece && (
        <>
          <Link href={`/cloth/${piece.id}`}>{pieceName(piece)}</Link>, {formatClothSize(piece, unit)}
        </>
      ),
    },
    { label: say('Cloth is in'), value: piece?.place && !piece.isGone && <Whereabouts place={piece.place} home={piece.home} /> },
    {
      label: say('Chart is in'),
      value: project.chart.place && <Whereabouts place={project.chart.place} home={project.chart.home} />,
    },
    { label: say('Over'), value: project.over },
    {
      label: say('How many'),
      value: project.quantity > 1 && (
        <Link href={`/projects/${project.id}/kit`}>
          {project.quantity - project.spares}
          {project.spares > 0 && say(' and {spares, plural, one {# spare} other {# spares}}', { spares: project.spares })}
        </Link>
      ),
    },
    {
      label: project.status === 'finished' ? say('Where it is') : say('Bag'),
      value: place && <PlaceLabel label={place.label} href={`/places/${place.id}`} />,
    },
    { label: project.status === 'finished' ? say('Who has it') : say('For'), value: project.forWhom },
    { label: say('Due'), value: dueWords(project, occasions) },
    {
      label: say('To be begun'),
      value: project.plannedOn && project.startedOn === null && formatDate(project.plannedOn),
    },
    { label: say('Started'), value: project.startedOn && formatDate(project.startedOn) },
    { label: say('Finished'), value: project.finishedOn && formatDate(project.finishedOn) },
    { label: say('Finishing'), value: project.finishing && givenName(project.finishing) },
    { label: say('Stitches'), value: stitchWords(project) },
    { label: say('Hours'), value: project.hoursTenths > 0 ? hoursWords(project.hoursTenths) : null },
  ]
  return facts.filter(({ value }) => value !== null && value !== undefined && value !== '' && value !== false)
}
