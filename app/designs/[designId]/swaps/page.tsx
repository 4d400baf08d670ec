import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { chosenThread } from '#lib/coverage/assign-swaps'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { listClothColours } from '#lib/db/swap/list-cloth-colours'
import { listSwapProjects } from '#lib/db/swap/list-swap-projects'
import { proposeSwaps, type SwapBoard } from '#lib/db/swap/propose-swaps'
import { Palette } from '#trade/cloth-lay'
import { hoopWords } from '#trade/hoop'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { FormStrip, StripCheck, StripSelect, StripText } from '#ui/form-strip'
import { JumpMarks } from '#ui/jump-marks'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { getViewer } from '#viewer/viewer'
import { counted } from '#words/amounts'
import { pieceTitle } from '#words/cloth'
import { addressPairs, clothByHand, readAddress, swapsHref, withoutMerges } from './choices'
import { SwapCard } from './swap-card'
import s from './swaps.module.css'
import { TossList } from './toss-list'

type Props = { params: Promise<{ designId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const detail = await findDesign((await params).designId)
  return { title: detail ? `Swaps for ${detail.design.title}` : 'Not found' }
}

export default async function SwapsPage({ params, searchParams }: Props) {
  const { designId } = await params
  const address = readAddress(await searchParams)
  const [viewer, detail, projects] = await Promise.all([getViewer(), findDesign(designId), listSwapProjects(designId)])
  if (!detail) notFound()
  const { design, lists } = detail
  const { owners, settings } = viewer
  const project = projects.find(({ id }) => id === address.project) ?? null
  // A project is worked from its own owner's goods, whoever looks.
  const ownerIds = project ? [project.owner.id] : viewer.ownerIds
  const ownerName = project ? project.owner.name : viewer.ownerName
  const clothColours = await listClothColours(ownerIds)
  const answers = await getAnswers()
  const chosenPieceId = address.piece ?? project?.clothPieceId ?? null
  const coverage =
    coverageOfDesign(answers, { design, lists }, { ownerIds, pieceId: chosenPieceId }) ??
    coverageOfDesign(answers, { design, lists }, { ownerIds })
  const fits = coverage?.cloth.kind === 'answer' ? coverage.cloth.choice.best?.piece.id : undefined
  const piece = clothColours.find(({ pieceId }) => pieceId === (chosenPieceId ?? fits)) ?? null
  const byHand = clothByHand(address)
  const cloth = byHand ?? piece?.lab ?? null
  const listId = address.list ?? project?.threadListId ?? coverage?.comparison[0]?.listId ?? ''
  const board =
    coverage &&
    (await proposeSwaps(answers, coverage, {
      ownerIds,
      listId,
      cloth,
      picks: address.picks,
      merges: address.merges,
      keepsDyeing: address.keepsDyeing,
      project,
    }))
  const served = board?.lines.filter(({ chosen }) => chosen !== null) ?? []
  const toBuy = (board?.lines.length ?? 0) - served.length
  const broken = served.filter(({ chosen }) => !chosen?.verdict.isAccepted)
  const nameOf = threadNamer(answers)
  const clothWords = byHand
    ? `cloth ${address.cloth}`
    : piece
      ? `on ${pieceTitle(piece)}${chosenPieceId === null ? ', which fits best' : ''}`
      : 'cloth not known'

  return (
    <>
      <PageHead
        title={
          <>
            Swaps for <span className="title">{design.title}</span>
          </>
        }
        crumbs={[{ label: 'Charts', href: '/charts' }, { label: design.title, href: `/designs/${designId}` }, { label: 'Swaps' }]}
        byline={board ? `${board.list.name}, from what is free of ${owners.length > 1 ? ownerName : 'your stock'}` : undefined}
        actions={<LinkButton href={`/designs/${designId}`}>Back to the design</LinkButton>}
      >
        {board && (
          <p className={s.verdict}>
            {board.lines.length === 0 ? (
              <b>Nothing is missing: no swap is wanted.</b>
            ) : (
              <>
                <b>
                  {served.length} of {counted(board.lines.length, 'missing thread')}{' '}
                  {served.length === 1 ? 'has a stand-in' : 'have stand-ins'}
                </b>
                {toBuy > 0 && (
                  <>
                    , <b className="do">{toBuy} to buy</b>
                  </>
                )}
                .
                {broken.length > 0 &&
                  ` ${counted(broken.length, 'choice')} breaks a rule; see why below.`.replace('choices breaks', 'choices break')}
              </>
            )}
          </p>
        )}
      </PageHead>
      <PrintLine>
        {design.title}, {board?.list.name}, {ownerName}, {clothWords}
      </PrintLine>
      {lists.length === 0 ? (
        <Empty
          title="No threads yet"
          actions={<LinkButton href={`/designs/${designId}/lists/new`}>Add its thread list</LinkButton>}
        >
          Once the key is in, stand-ins are looked for here for every thread that is missing.
        </Empty>
      ) : (
        <FormStrip
          action={`/designs/${designId}/swaps`}
          label="What to look for"
          summary={[board?.list.name, clothWords, project && 'for a project', address.keepsDyeing && 'same dyeing only']
            .filter(Boolean)
            .join(', ')}
          second={
            <>
              <StripCheck name="same" label="Solid for solid, dyed for dyed only" isChecked={address.keepsDyeing} />
              <StripText name="cloth" label="or the cloth’s colour" value={address.cloth ?? ''} placeholder="#e8dcc0" />
            </>
          }
          clear={addressPairs(address).length > 0 ? { href: `/designs/${designId}/swaps`, label: 'Start again' } : undefined}
        >
          <StripSelect
            name="list"
            label="Thread list"
            value={listId}
            options={lists.map(({ id, name }) => ({ value: id, label: name }))}
          />
          <StripSelect
            name="piece"
            label="On this cloth"
            value={address.piece ?? ''}
            any={piece && chosenPieceId === null && !byHand ? `${pieceTitle(piece)}, fits best` : 'not chosen'}
            options={clothColours.map((colour) => ({ value: colour.pieceId, label: pieceTitle(colour) }))}
          />
          <StripSelect
            name="project"
            label="For"
            value={project?.id ?? ''}
            any="no project"
            options={projects.map((one) => ({
              value: one.id,
              label: [hoopWords[one.status], one.forWhom && `for ${one.forWhom}`, one.owner.name].filter(Boolean).join(', '),
            }))}
          />
        </FormStrip>
      )}
      {address.cloth && !byHand && (
        <Notice kind="refusal" title={`${address.cloth} is no colour.`}>
          Give it as #e8dcc0.
        </Notice>
      )}
      {board && !board.isProven && (
        <Notice kind="caution" title="Time ran out.">
          What is shown keeps every rule, but a better choice for all of them together may exist.
        </Notice>
      )}
      {board && board.lines.length > 0 && (
        <>
          {cloth === null && (
            <Notice kind="caution" title="Not judged against the cloth.">
              Choose a piece whose colour is on record, or give the cloth’s colour, and each swap is judged by whether it shows.
            </Notice>
          )}
          <Notice kind="caution" title="Daylight decides.">
            Colours on record and on a screen are rough, and two threads can match in one lamp and not in another. Lay them on the
            real cloth by a window before you choose.
          </Notice>
          <JumpMarks
            items={[
              { href: '#palette', label: 'The whole palette' },
              { href: '#threads', label: 'Thread by thread' },
              { href: '#toss', label: 'List for the floss toss' },
            ]}
          />
          <Section
            title="The whole palette"
            id="palette"
            note="As charted above, as chosen below, on the cloth’s colour. A line marks what is swapped."
            actions={
              address.merges.length > 0 ? (
                <Link href={swapsHref(designId, withoutMerges(address))}>Undo the merges</Link>
              ) : undefined
            }
          >
            <Palette cloth={cloth} colours={paletteOf(board, answers)} />
          </Section>
          <Section title="Thread by thread" id="threads" note="In the order of the key. All are chosen together.">
            {board.lines.map((line) => (
              <SwapCard
                key={line.charted.threadId}
                designId={designId}
                address={{ ...address, list: listId }}
                board={board}
                line={line}
                answers={answers}
                project={project}
                nameOf={nameOf}
                unit={settings.threadUnit}
              />
            ))}
          </Section>
          <TossList board={board} answers={answers} ownerIds={ownerIds} nameOf={nameOf} />
        </>
      )}
    </>
  )
}

/** A thread as it is called: "Larkholm 0311 Rook Grey". */
function threadNamer({ world }: Answers): (threadId: string) => string {
  return (threadId) => {
    const thread = world.threads.get(threadId)
    const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
    return thread && line ? [line.makerName, thread.code, thread.name].filter(Boolean).join(' ') : 'a thread that was removed'
  }
}

function paletteOf(board: SwapBoard, { world }: Answers) {
  return board.task.colours.map((colour) => {
    const chosen = chosenThread(colour, board.assignment)
    return {
      key: colour.charted.threadId,
      charted: { lab: colour.charted.lab, dyeing: colour.charted.line.dyeing },
      chosen: { lab: chosen.lab, dyeing: chosen.line.dyeing },
      name: world.threads.get(chosen.threadId)?.code ?? '?',
      isSwapped: chosen.threadId !== colour.charted.threadId,
    }
  })
}
