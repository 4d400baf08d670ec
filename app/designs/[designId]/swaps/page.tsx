import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
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
import { pieceTitle } from '#words/cloth'
import { addressPairs, clothByHand, readAddress, swapsHref, withoutMerges } from './choices'
import { SwapCard } from './swap-card'
import s from './swaps.module.css'
import { TossList } from './toss-list'

type Props = { params: Promise<{ designId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const detail = await findDesign((await params).designId)
  return { title: detail ? say('Swaps for {title}', { title: detail.design.title }) : say('Not found') }
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
    ? say('cloth {cloth}', { cloth: address.cloth })
    : piece
      ? say('on {pieceTitle}{chosenPieceIdCase, select, yes {, which fits best} other {}}', {
          pieceTitle: pieceTitle(piece),
          chosenPieceIdCase: chosenPieceId === null,
        })
      : say('cloth not known')

  return (
    <>
      <PageHead
        title={sayParts('Swaps for {title}', { title: <span className="title">{design.title}</span> })}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: design.title, href: `/designs/${designId}` },
          { label: say('Swaps') },
        ]}
        byline={
          board
            ? say('{name}, from what is free of {ownerName}', {
                name: board.list.name,
                ownerName: owners.length > 1 ? ownerName : say('your stock'),
              })
            : undefined
        }
        actions={<LinkButton href={`/designs/${designId}`}>{say('Back to the design')}</LinkButton>}
      >
        {board && (
          <p className={s.verdict}>
            {board.lines.length === 0 ? (
              <b>{say('Nothing is missing: no swap is wanted.')}</b>
            ) : (
              sayParts(
                '<b>{served} of {lines, plural, one {# missing thread} other {# missing threads}} {served, plural, one {has a stand-in} other {have stand-ins}}</b>{rest}.{rest2}',
                {
                  b: (words) => <b>{words}</b>,
                  served: served.length,
                  lines: board.lines.length,
                  rest: toBuy > 0 && sayParts(', <b>{toBuy} to buy</b>', { b: (words) => <b className="do">{words}</b>, toBuy }),
                  rest2:
                    broken.length > 0 &&
                    say(' {broken, plural, one {# choice breaks} other {# choices break}} a rule; see why below.', {
                      broken: broken.length,
                    }),
                },
              )
            )}
          </p>
        )}
      </PageHead>
      <PrintLine>
        {design.title}, {board?.list.name}, {ownerName}, {clothWords}
      </PrintLine>
      {lists.length === 0 ? (
        <Empty
          title={say('No threads yet')}
          actions={<LinkButton href={`/designs/${designId}/lists/new`}>{say('Add its thread list')}</LinkButton>}
        >
          {say('Once the key is in, stand-ins are looked for here for every thread that is missing.')}
        </Empty>
      ) : (
        <FormStrip
          action={`/designs/${designId}/swaps`}
          label={say('What to look for')}
          summary={[board?.list.name, clothWords, project && say('for a project'), address.keepsDyeing && say('same dyeing only')]
            .filter(Boolean)
            .join(', ')}
          second={
            <>
              <StripCheck name="same" label={say('Solid for solid, dyed for dyed only')} isChecked={address.keepsDyeing} />
              <StripText
                name="cloth"
                label={say('or the cloth’s colour')}
                value={address.cloth ?? ''}
                placeholder={say('#e8dcc0')}
              />
            </>
          }
          clear={addressPairs(address).length > 0 ? { href: `/designs/${designId}/swaps`, label: say('Start again') } : undefined}
        >
          <StripSelect
            name="list"
            label={say('Thread list')}
            value={listId}
            options={lists.map(({ id, name }) => ({ value: id, label: name }))}
          />
          <StripSelect
            name="piece"
            label={say('On this cloth')}
            value={address.piece ?? ''}
            any={
              piece && chosenPieceId === null && !byHand
                ? say('{pieceTitle}, fits best', { pieceTitle: pieceTitle(piece) })
                : say('not chosen')
            }
            options={clothColours.map((colour) => ({ value: colour.pieceId, label: pieceTitle(colour) }))}
          />
          <StripSelect
            name="project"
            label={say('For')}
            value={project?.id ?? ''}
            any={say('no project')}
            options={projects.map((one) => ({
              value: one.id,
              label: [hoopWords[one.status], one.forWhom && say('for {forWhom}', { forWhom: one.forWhom }), one.owner.name]
                .filter(Boolean)
                .join(', '),
            }))}
          />
        </FormStrip>
      )}
      {address.cloth && !byHand && (
        <Notice kind="refusal" title={say('{cloth} is no colour.', { cloth: address.cloth })}>
          {say('Give it as #e8dcc0.')}
        </Notice>
      )}
      {board && !board.isProven && (
        <Notice kind="caution" title={say('Time ran out.')}>
          {say('What is shown keeps every rule, but a better choice for all of them together may exist.')}
        </Notice>
      )}
      {board && board.lines.length > 0 && (
        <>
          {cloth === null && (
            <Notice kind="caution" title={say('Not judged against the cloth.')}>
              {say(
                'Choose a piece whose colour is on record, or give the cloth’s colour, and each swap is judged by whether it shows.',
              )}
            </Notice>
          )}
          <Notice kind="caution" title={say('Daylight decides.')}>
            {say(
              'Colours on record and on a screen are rough, and two threads can match in one lamp and not in another. Lay them on the real cloth by a window before you choose.',
            )}
          </Notice>
          <JumpMarks
            items={[
              { href: '#palette', label: say('The whole palette') },
              { href: '#threads', label: say('Thread by thread') },
              { href: '#toss', label: say('List for the floss toss') },
            ]}
          />
          <Section
            title={say('The whole palette')}
            id="palette"
            note={say('As charted above, as chosen below, on the cloth’s colour. A line marks what is swapped.')}
            actions={
              address.merges.length > 0 ? (
                <Link href={swapsHref(designId, withoutMerges(address))}>{say('Undo the merges')}</Link>
              ) : undefined
            }
          >
            <Palette cloth={cloth} colours={paletteOf(board, answers)} />
          </Section>
          <Section title={say('Thread by thread')} id="threads" note={say('In the order of the key. All are chosen together.')}>
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
    return thread && line
      ? [line.makerName, thread.code, thread.name].filter(Boolean).join(' ')
      : say('a thread that was removed')
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
