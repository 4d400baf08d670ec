import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
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
  return { title: kit ? `Kits of ${kit.project.title}` : 'Kits' }
}

export default async function KitPage({ params }: KitPageProps) {
  const { projectId } = await params
  const kit = await readKit(projectId)
  if (!kit) notFound()
  const { project, reckoning, settings } = kit
  const isOpen = transitions[project.status].length > 0
  const crumbs = [
    { label: 'Projects', href: '/projects' },
    { label: project.title, href: `/projects/${projectId}` },
    { label: 'Kits' },
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
        byline={`${numberWords(reckoning)}, from the goods of ${project.ownerName}`}
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
      {project.isIncomplete && <p>Part of the key is not in yet; this counts what is.</p>}
      {reckoning.unknown.length > 0 && (
        <p className="quiet">Not counted: {listed(reckoning.unknown.map((key) => nameOf(key).name))}.</p>
      )}
      <StepStrip progress={kit.progress} />
      {isOpen && <NextStep kit={kit} />}
      {reckoning.spares === 0 && reckoning.copies > 1 && isOpen && (
        <p className={`${s.notes} quiet`}>
          No spare kit is made. One to each dozen is usual, at least one:{' '}
          <Link href={`/projects/${projectId}`}>say so in the project’s details</Link>.
        </p>
      )}

      <Section
        title="What goes into them"
        id="contents"
        note="A cut has no join, so what is left of a put-up too short for another cut is not counted on."
      >
        {project.hasThreadList ? null : (
          <Empty>No thread list is chosen, so no thread is counted. Choose one in the project’s details.</Empty>
        )}
        <ContentsTable kit={kit} nameOf={nameOf} settings={settings} />
      </Section>

      {lots.notes.length > 0 && (
        <Section title={`Are all ${reckoning.copies} from one lot?`} id="lots">
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
          .map((notion) => ({ value: notion.id, label: `${notionTitle(notion)}, ${notion.count} there` }))}
      />
      <CostSection kit={kit} nameOf={nameOf} isOpen={isOpen} />
    </>
  )
}

const Sheets = ({ projectId }: { projectId: string }) => (
  <>
    <LinkButton href={`/projects/${projectId}/kit/bags`}>Bags</LinkButton>
    <LinkButton href={`/projects/${projectId}/kit/record`}>Batch record</LinkButton>
    <LinkButton href={`/projects/${projectId}/kit/sheets`}>Sheets to print</LinkButton>
  </>
)

const nextWords: Record<KitStep, string> = {
  reserved: 'Reserve what is free',
  pulled: 'Pull for these kits',
  cut: 'Cut thread and cloth',
  packed: 'Pack the bags',
  checked: 'Check the bags',
  sealed: 'Seal the bags',
}

/** The one thing to do next, with what else is at hand. */
function NextStep({ kit }: { kit: Kit }) {
  const { project, progress } = kit
  const next = nextStep(progress)
  const bags = `/projects/${project.id}/kit/bags`
  const cloth = (
    <LinkButton href={`/cloth/cut?project=${project.id}`} kind="plain">
      Plan the cuts of the cloth
    </LinkButton>
  )
  if (next === null) return <p className={s.notes}>All kits are sealed.</p>
  if (next === 'reserved') {
    return (
      <div className={s.next}>
        {kit.hasMoreToReserve || project.status === 'wanted' ? (
          <Form
            action={promiseAgainAction}
            hidden={{ projectId: project.id, version: String(project.version) }}
            submit={project.status === 'wanted' ? 'Plan them: reserve what is free' : nextWords.reserved}
            isInline
          />
        ) : (
          <LinkButton href="/buy" kind="first">
            Buy what is short
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
        if (!thread) return { name: 'a removed thread', ...plain }
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
        return { name: 'Cloth', ...plain }
      case 'chart':
        return { name: 'The chart', ...plain }
      case 'item':
        return { name: kit.items.find(({ id }) => id === line.itemId)?.name ?? 'Something removed', ...plain }
      default:
        return { name: 'Something removed', ...plain }
    }
  }
}
