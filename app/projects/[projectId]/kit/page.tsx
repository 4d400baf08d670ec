import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say, sayings } from '#language/say'
import { sayParts } from '#language/say-parts'
import { type Kit, readKit } from '#lib/db/kit/read-kit'
import { listNotions } from '#lib/db/notion/queries'
import { type KitStep, nextStep } from '#lib/project/kit/steps'
import { transitions } from '#lib/project/life-cycle'
import { HoopWord } from '#trade/hoop'
import { ButtonRow, LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Form } from '#ui/form'
import { Link } from '#ui/link'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { listed } from '#words/amounts'
import { notionTitle } from '#words/notion'
import { threadName } from '#words/thread'
import { promiseAgainAction } from '../../actions'
import { ContentsTable } from './contents-table'
import { CostSection } from './cost-section'
import { ItemsSection } from './items-section'
import s from './kit.module.css'
import { answerWords, type LineNames, lotWords, numberWords } from './kit-words'
import { StepStrip } from './step-strip'

type KitPageProps = { params: Promise<{ projectId: string }> }

export async function generateMetadata({ params }: KitPageProps): Promise<Metadata> {
  const kit = await readKit((await params).projectId)
  return { title: kit ? say('Kits of {title}', { title: kit.project.title }) : say('Kits') }
}

export default async function KitPage({ params }: KitPageProps) {
  const { projectId } = await params
  const kit = await readKit(projectId)
  if (!kit) notFound()
  const { project, reckoning, settings } = kit
  const isOpen = transitions[project.status].length > 0
  const crumbs = [
    { label: say('Projects'), href: '/projects' },
    { label: project.title, href: `/projects/${projectId}` },
    { label: say('Kits') },
  ]
  const notions = isOpen ? await listNotions([project.ownerId]) : []
  const nameOf = namesOf(kit)
  const { answer, stops } = answerWords(reckoning, nameOf, settings.lengthUnit)
  const lots = lotWords(kit, nameOf)
  return (
    <>
      <PageHead
        title={project.title}
        isWork
        crumbs={crumbs}
        byline={say('{number}, from the goods of {ownerName}', { number: numberWords(reckoning), ownerName: project.ownerName })}
        actions={<Sheets projectId={projectId} />}
      >
        <HoopWord status={project.status} width={34} />
      </PageHead>
      <PrintLine>
        {project.title}: {numberWords(reckoning)}
      </PrintLine>
      <p className={s.big}>
        <b>{answer}</b> {stops}
      </p>
      {project.isIncomplete && <p>{say('Part of the key is not in yet; this counts what is.')}</p>}
      {reckoning.unknown.length > 0 && (
        <p className="quiet">
          {say('Not counted: {unknown}.', { unknown: listed(reckoning.unknown.map((key) => nameOf(key).name)) })}
        </p>
      )}
      <StepStrip progress={kit.progress} />
      {isOpen && <NextStep kit={kit} />}
      {reckoning.spares === 0 && reckoning.copies > 1 && isOpen && (
        <p className={`${s.notes} quiet`}>
          {sayParts(
            'No spare kit is made. One to each dozen is usual, at least one: <link>say so in the project’s details</link>.',
            { link: (words) => <Link href={`/projects/${projectId}`}>{words}</Link> },
          )}
        </p>
      )}
      <Section
        title={say('What goes into them')}
        id="contents"
        note={say('A cut has no join, so what is left of a put-up too short for another cut is not counted on.')}
      >
        {project.hasThreadList ? null : (
          <Empty>{say('No thread list is chosen, so no thread is counted. Choose one in the project’s details.')}</Empty>
        )}
        <ContentsTable kit={kit} nameOf={nameOf} settings={settings} />
      </Section>
      {lots.notes.length > 0 && (
        <Section title={say('Are all {copies} from one lot?', { copies: reckoning.copies })} id="lots">
          <p>
            <b>{lots.answer}</b>
          </p>
          <ul>
            {lots.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </Section>
      )}
      <ItemsSection
        kit={kit}
        isOpen={isOpen}
        notions={notions
          .filter(({ usedBy }) => usedBy === null || usedBy.id === projectId)
          .map((notion) => ({
            value: notion.id,
            label: say('{notionTitle}, {count} there', { notionTitle: notionTitle(notion), count: notion.count }),
          }))}
      />
      <CostSection kit={kit} nameOf={nameOf} isOpen={isOpen} />
    </>
  )
}

const Sheets = ({ projectId }: { projectId: string }) => (
  <>
    <LinkButton href={`/projects/${projectId}/kit/bags`}>{say('Bags')}</LinkButton>
    <LinkButton href={`/projects/${projectId}/kit/record`}>{say('Batch record')}</LinkButton>
    <LinkButton href={`/projects/${projectId}/kit/sheets`}>{say('Sheets to print')}</LinkButton>
  </>
)

const nextWords: Record<KitStep, string> = sayings({
  reserved: 'Reserve what is free',
  pulled: 'Pull for these kits',
  cut: 'Cut thread and cloth',
  packed: 'Pack the bags',
  checked: 'Check the bags',
  sealed: 'Seal the bags',
})

/** The one thing to do next, with what else is at hand. */
function NextStep({ kit }: { kit: Kit }) {
  const { project, progress } = kit
  const next = nextStep(progress)
  const bags = `/projects/${project.id}/kit/bags`
  const cloth = (
    <LinkButton href={`/cloth/cut?project=${project.id}`} kind="plain">
      {say('Plan the cuts of the cloth')}
    </LinkButton>
  )
  if (next === null) return <p className={s.notes}>{say('All kits are sealed.')}</p>
  if (next === 'reserved') {
    return (
      <div className={s.next}>
        {kit.hasMoreToReserve || project.status === 'wanted' ? (
          <Form
            action={promiseAgainAction}
            hidden={{ projectId: project.id, version: String(project.version) }}
            submit={project.status === 'wanted' ? say('Plan them: reserve what is free') : nextWords.reserved}
            isInline
          />
        ) : (
          <LinkButton href="/buy" kind="first">
            {say('Buy what is short')}
          </LinkButton>
        )}
        {progress.done.reserved > 0 && <LinkButton href={`/walks/new?project=${project.id}`}>{nextWords.pulled}</LinkButton>}
        {cloth}
      </div>
    )
  }
  const hrefs = { pulled: `/walks/new?project=${project.id}`, cut: bags, packed: bags, checked: bags, sealed: bags }
  return (
    <div className={s.next}>
      <ButtonRow>
        <LinkButton href={hrefs[next]} kind="first">
          {nextWords[next]}
        </LinkButton>
        {(next === 'pulled' || next === 'cut') && cloth}
      </ButtonRow>
    </div>
  )
}

/** How each line is called in a sentence. */
function namesOf(kit: Kit): LineNames {
  const lines = new Map(kit.reckoning.lines.map((line) => [line.key, line]))
  const codes = [...kit.threads.values()].map(({ tag }) => tag.code)
  return (key) => {
    const line = lines.get(key)
    const plain = { putUpWord: 'put-up', lot: null }
    switch (line?.kind) {
      case 'thread': {
        const thread = kit.threads.get(line.threadId)
        if (!thread) return { name: say('a removed thread'), ...plain }
        const { tag, lots } = thread
        // A code alone is enough of a name unless another maker's is the same, or it might be read as a count.
        const isPlain = tag.code.length > 2 && codes.filter((code) => code === tag.code).length === 1
        const marked = lots.find(({ lot, kits }) => lot !== null && kits > 0)
        return {
          name: isPlain ? tag.code : threadName({ ...tag, name: null }),
          putUpWord: tag.putUpWord,
          lot: thread.line.lotsMatter ? (marked?.lot ? { mark: marked.lot } : 'one') : null,
        }
      }
      case 'cloth':
        return { name: say('Cloth'), ...plain }
      case 'chart':
        return { name: say('The chart'), ...plain }
      case 'item':
        return { name: kit.items.find(({ id }) => id === line.itemId)?.name ?? say('Something removed'), ...plain }
      default:
        return { name: say('Something removed'), ...plain }
    }
  }
}
