import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { hiddenUm } from '#lib/cloth/framing'
import { answerDesignFrame, type DesignFrame } from '#lib/coverage/design-frame'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { formatCount } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'
import { LinkButton } from '#ui/button'
import { Empty } from '#ui/empty'
import { Facts } from '#ui/facts'
import { FormStrip, StripSelect, StripText } from '#ui/form-strip'
import { Link } from '#ui/link'
import { Notice } from '#ui/notice'
import { PageHead } from '#ui/page-head'
import { PrintLine } from '#ui/print-line'
import { Section } from '#ui/section'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { getViewer } from '#viewer/viewer'
import { pieceName } from '#words/cloth'
import { overWords, roughSize } from '#words/cloth-size'
import { readFrameAddress } from './choices'
import s from './frame.module.css'
import { OpeningTable } from './opening-table'
import { openingAnswer } from './words'

type Props = { params: Promise<{ designId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const detail = await findDesign((await params).designId)
  return { title: detail ? `Frame for ${detail.design.title}` : 'Not found' }
}

export default async function DesignFramePage({ params, searchParams }: Props) {
  const { designId } = await params
  const [viewer, detail, answers] = await Promise.all([getViewer(), findDesign(designId), getAnswers()])
  if (!detail) notFound()
  const { design } = detail
  const { settings, ownerIds, ownerName } = viewer
  const unit = settings.lengthUnit
  const { choices, said, wrong } = readFrameAddress(await searchParams, settings)
  const pieces = answers.world.pieces.filter((piece) => ownerIds.includes(piece.ownerId))
  const answer = answerDesignFrame(design, pieces, choices, settings)
  const path = `/designs/${designId}/frame`
  return (
    <>
      <PageHead
        title={
          <>
            Frame for <span className="title">{design.title}</span>
          </>
        }
        crumbs={[
          { label: 'Charts', href: '/charts' },
          { label: design.title, href: `/designs/${designId}` },
          { label: 'Cloth', href: `/designs/${designId}/cloth` },
          { label: 'Frame' },
        ]}
        actions={<LinkButton href={`/designs/${designId}/cloth`}>Back to its cloth</LinkButton>}
      >
        {answer?.own && <p>{ownWords(answer.own, choices.seenUm, settings)}</p>}
      </PageHead>
      {answer === null ? (
        <Empty
          title="The size of this design is not known"
          actions={<LinkButton href={`/designs/${designId}/edit`}>Give its size</LinkButton>}
        >
          Give its stitches, or its inches at a count, and its frame is worked out here.
        </Empty>
      ) : (
        <>
          <PrintLine>
            Frame for {design.title}
            {choices.opening && `, an opening of ${formatClothSize(choices.opening, unit)}`}; cloth of {ownerName}
          </PrintLine>
          {answer.own && (
            <>
              <Facts
                items={[
                  { label: 'Opening', value: roughSize(answer.own.frame.opening, unit) },
                  { label: 'Board, glass', value: roughSize(answer.own.frame.board, unit) },
                  { label: 'Outer cut of the cloth', value: formatClothSize(answer.own.frame.cut, unit) },
                ]}
              />
              <div className={s.gap}>
                <Unfold label="How the frame comes about">
                  <FrameSums
                    own={answer.own}
                    seenUm={choices.seenUm}
                    uncertaintyUm={answer.size.uncertaintyUm}
                    settings={settings}
                  />
                </Unfold>
              </div>
            </>
          )}
          <Section
            title="To fit an opening you have"
            id="opening"
            note="What is seen in the frame or mount, measured; it may hang either way."
          >
            <FormStrip
              action={path}
              label="The opening"
              summary={choices.opening ? `An opening of ${formatClothSize(choices.opening, unit)}` : 'Which opening?'}
              hidden={said.piece ? { piece: said.piece } : undefined}
              clear={said.opening || said.seen || said.over ? { href: path, label: 'Start again' } : undefined}
            >
              <StripText
                name="opening"
                label="Opening"
                value={said.opening ?? ''}
                placeholder={unit === 'in' ? '5 x 7' : '13 x 18'}
              />
              <StripText
                name="seen"
                label="Plain cloth seen, at least"
                value={said.seen ?? ''}
                placeholder={formatClothLength(settings.framing.seenUm, unit)}
              />
              <StripSelect
                name="over"
                label="Frame above, worked over"
                value={choices.over === null ? '' : String(choices.over)}
                any="as the chart"
                options={[
                  { value: '1', label: 'one' },
                  { value: '2', label: 'two' },
                ]}
              />
            </FormStrip>
            {wrong.length > 0 && (
              <Notice kind="caution" title="Not everything reads">
                {wrong.map((sentence) => (
                  <p key={sentence}>{sentence}</p>
                ))}
              </Notice>
            )}
            {answer.counts && choices.opening ? (
              <>
                <p className={s.said}>
                  <b>{openingAnswer(answer.counts)}</b> The cut is the opening and{' '}
                  {formatClothLength(hiddenUm(settings.framing), unit)} on every side, for rabbet, board and turning back;{' '}
                  <Link href="/settings#framing">these are yours to set</Link>.
                  {answer.size.isEstimated && ' The design’s size is estimated, so a little less may be seen.'}
                </p>
                <OpeningTable counts={answer.counts} places={answers.world.places} unit={unit} />
              </>
            ) : (
              <p className="quiet">
                Write the opening, such as {unit === 'in' ? '5 x 7' : '13 x 18'}: every count on hand, and the usual ones that are
                not, are held against it.
              </p>
            )}
          </Section>
        </>
      )}
    </>
  )
}

type Own = NonNullable<DesignFrame['own']>

function ownWords({ piece, on, finished, frame }: Own, seenUm: number, { lengthUnit: unit }: Settings): string {
  const cloth = `${formatCount(on.ends, on.picks)} ${overWords(on.over)}${on.isTurned ? ', turned' : ''}`
  const where = piece ? `On ${pieceName(piece)}, ${cloth},` : `On ${cloth}, which is not on hand,`
  return `${where} it comes out at ${roughSize(finished, unit)}. With ${formatClothLength(seenUm, unit)} of plain cloth seen around it wants an opening of ${roughSize(frame.opening, unit)}.`
}

type FrameSumsProps = { own: Own; seenUm: number; uncertaintyUm: number; settings: Settings }

function FrameSums({ own, seenUm, uncertaintyUm, settings }: FrameSumsProps) {
  const { framing, lengthUnit: unit, roundingUm } = settings
  const length = (um: number) => formatClothLength(um, unit)
  const side = (title: string, finishedUm: number, openingUm: number, boardUm: number, exactUm: number, cutUm: number) => (
    <Sum
      title={title}
      rows={[
        { label: 'Stitched', figure: length(finishedUm) },
        { label: 'Plain cloth seen', how: `2 × ${length(seenUm)}`, figure: length(2 * seenUm) },
        { label: 'Opening', figure: length(openingUm), kind: 'rule' },
        { label: 'Under the rabbet', how: `2 × ${length(framing.rabbetUm)}`, figure: length(2 * framing.rabbetUm) },
        { label: 'Board', figure: length(boardUm), kind: 'rule' },
        { label: 'Over the board’s edge', how: `2 × ${length(framing.boardUm)}`, figure: length(2 * framing.boardUm) },
        { label: 'Turned back', how: `2 × ${length(framing.turnBackUm)}`, figure: length(2 * framing.turnBackUm) },
        ...(uncertaintyUm > 0 ? [{ label: 'Size is estimated', figure: length(uncertaintyUm) }] : []),
        ...(own.on.shrinkPercent > 0
          ? [{ label: 'Shrinkage', how: `÷ ${Number((1 - own.on.shrinkPercent / 100).toFixed(4))}`, figure: '' }]
          : []),
        { label: 'Exact', figure: length(exactUm), kind: 'rule' },
        { label: 'To cut', how: `up to the next ${length(roundingUm)}`, figure: length(cutUm), kind: 'end' },
      ]}
    />
  )
  const { finished, frame } = own
  return (
    <Sums>
      {side('Width', finished.widthUm, frame.opening.widthUm, frame.board.widthUm, frame.cut.exactWidthUm, frame.cut.widthUm)}
      {side(
        'Height',
        finished.heightUm,
        frame.opening.heightUm,
        frame.board.heightUm,
        frame.cut.exactHeightUm,
        frame.cut.heightUm,
      )}
    </Sums>
  )
}
