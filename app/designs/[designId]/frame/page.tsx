import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import { plainFigure } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import { sayParts } from '#language/say-parts'
import { hiddenUm } from '#lib/cloth/framing'
import { answerDesignFrame, type DesignFrame } from '#lib/coverage/design-frame'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
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
import { countWords } from '#words/cloth-count'
import { overWords, roughSize } from '#words/cloth-size'
import { readFrameAddress } from './choices'
import s from './frame.module.css'
import { OpeningTable } from './opening-table'
import { openingAnswer } from './words'

type Props = { params: Promise<{ designId: string }>; searchParams: Promise<Record<string, string | string[] | undefined>> }

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const detail = await findDesign((await params).designId)
  return { title: detail ? say('Frame for {title}', { title: detail.design.title }) : say('Not found') }
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
        title={sayParts('Frame for {title}', { title: <span className="title">{design.title}</span> })}
        crumbs={[
          { label: say('Charts'), href: '/charts' },
          { label: design.title, href: `/designs/${designId}` },
          { label: say('Cloth'), href: `/designs/${designId}/cloth` },
          { label: say('Frame') },
        ]}
        actions={<LinkButton href={`/designs/${designId}/cloth`}>{say('Back to its cloth')}</LinkButton>}
      >
        {answer?.own && <p>{ownWords(answer.own, choices.seenUm, settings)}</p>}
      </PageHead>
      {answer === null ? (
        <Empty
          title={say('The size of this design is not known')}
          actions={<LinkButton href={`/designs/${designId}/edit`}>{say('Give its size')}</LinkButton>}
        >
          {say('Give its stitches, or its ruled size at a count, and its frame is worked out here.')}
        </Empty>
      ) : (
        <>
          <PrintLine>
            {sayParts('Frame for {title}{rest}; cloth of {ownerName}', {
              title: design.title,
              rest: choices.opening && say(', an opening of {opening}', { opening: formatClothSize(choices.opening, unit) }),
              ownerName,
            })}
          </PrintLine>
          {answer.own && (
            <>
              <Facts
                items={[
                  { label: say('Opening'), value: roughSize(answer.own.frame.opening, unit) },
                  { label: say('Board, glass'), value: roughSize(answer.own.frame.board, unit) },
                  { label: say('Outer cut of the cloth'), value: formatClothSize(answer.own.frame.cut, unit) },
                ]}
              />
              <div className={s.gap}>
                <Unfold label={say('How the frame comes about')}>
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
            title={say('To fit an opening you have')}
            id="opening"
            note={say('What is seen in the frame or mount, measured; it may hang either way.')}
          >
            <FormStrip
              action={path}
              label={say('The opening')}
              summary={
                choices.opening
                  ? say('An opening of {opening}', { opening: formatClothSize(choices.opening, unit) })
                  : say('Which opening?')
              }
              hidden={said.piece ? { piece: said.piece } : undefined}
              clear={said.opening || said.seen || said.over ? { href: path, label: say('Start again') } : undefined}
            >
              <StripText
                name="opening"
                label={say('Opening')}
                value={said.opening ?? ''}
                placeholder={unit === 'in' ? '5 x 7' : '13 x 18'}
              />
              <StripText
                name="seen"
                label={say('Plain cloth seen, at least')}
                value={said.seen ?? ''}
                placeholder={formatClothLength(settings.framing.seenUm, unit)}
              />
              <StripSelect
                name="over"
                label={say('Frame above, worked over')}
                value={choices.over === null ? '' : String(choices.over)}
                any={say('as the chart')}
                options={[
                  { value: '1', label: say('one') },
                  { value: '2', label: say('two') },
                ]}
              />
            </FormStrip>
            {wrong.length > 0 && (
              <Notice kind="caution" title={say('Not everything reads')}>
                {wrong.map((sentence) => (
                  <p key={sentence}>{sentence}</p>
                ))}
              </Notice>
            )}
            {answer.counts && choices.opening ? (
              <>
                <p className={s.said}>
                  {sayParts(
                    '{openingAnswer} The cut is the opening and {hidden} on every side, for rabbet, board and turning back; <link>these are yours to set</link>.{isEstimated, select, yes { The design’s size is estimated, so a little less may be seen.} other {}}',
                    {
                      openingAnswer: <b>{openingAnswer(answer.counts)}</b>,
                      hidden: formatClothLength(hiddenUm(settings.framing), unit),
                      link: (words) => <Link href="/settings#framing">{words}</Link>,
                      isEstimated: answer.size.isEstimated,
                    },
                  )}
                </p>
                <OpeningTable counts={answer.counts} places={answers.world.places} unit={unit} />
              </>
            ) : (
              <p className="quiet">
                {say(
                  'Write the opening, such as {rest}: every count on hand, and the usual ones that are not, are held against it.',
                  { rest: unit === 'in' ? '5 x 7' : '13 x 18' },
                )}
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
  const cloth = say('{ends} {over}{isTurned, select, yes {, turned} other {}}', {
    ends: countWords(on.ends, on.picks),
    over: overWords(on.over),
    isTurned: on.isTurned,
  })
  const where = piece
    ? say('On {pieceName}, {cloth},', { pieceName: pieceName(piece), cloth })
    : say('On {cloth}, which is not on hand,', { cloth })
  return say('{where} it comes out at {roughSize}. With {seen} of plain cloth seen around it wants an opening of {roughSize2}.', {
    where,
    roughSize: roughSize(finished, unit),
    seen: formatClothLength(seenUm, unit),
    roughSize2: roughSize(frame.opening, unit),
  })
}

type FrameSumsProps = { own: Own; seenUm: number; uncertaintyUm: number; settings: Settings }

function FrameSums({ own, seenUm, uncertaintyUm, settings }: FrameSumsProps) {
  const { framing, lengthUnit: unit, roundingUm } = settings
  const length = (um: number) => formatClothLength(um, unit)
  const side = (title: string, finishedUm: number, openingUm: number, boardUm: number, exactUm: number, cutUm: number) => (
    <Sum
      title={title}
      rows={[
        { label: say('Stitched'), figure: length(finishedUm) },
        { label: say('Plain cloth seen'), how: `2 × ${length(seenUm)}`, figure: length(2 * seenUm) },
        { label: say('Opening'), figure: length(openingUm), kind: 'rule' },
        { label: say('Under the rabbet'), how: `2 × ${length(framing.rabbetUm)}`, figure: length(2 * framing.rabbetUm) },
        { label: say('Board'), figure: length(boardUm), kind: 'rule' },
        { label: say('Over the board’s edge'), how: `2 × ${length(framing.boardUm)}`, figure: length(2 * framing.boardUm) },
        { label: say('Turned back'), how: `2 × ${length(framing.turnBackUm)}`, figure: length(2 * framing.turnBackUm) },
        ...(uncertaintyUm > 0 ? [{ label: say('Size is estimated'), figure: length(uncertaintyUm) }] : []),
        ...(own.on.shrinkPercent > 0
          ? [
              {
                label: say('Shrinkage'),
                how: `÷ ${plainFigure(Number((1 - own.on.shrinkPercent / 100).toFixed(4)))}`,
                figure: '',
              },
            ]
          : []),
        { label: say('Exact'), figure: length(exactUm), kind: 'rule' },
        {
          label: say('To cut'),
          how: say('up to the next {length}', { length: length(roundingUm) }),
          figure: length(cutUm),
          kind: 'end',
        },
      ]}
    />
  )
  const { finished, frame } = own
  return (
    <Sums>
      {side(
        say('Width'),
        finished.widthUm,
        frame.opening.widthUm,
        frame.board.widthUm,
        frame.cut.exactWidthUm,
        frame.cut.widthUm,
      )}
      {side(
        say('Height'),
        finished.heightUm,
        frame.opening.heightUm,
        frame.board.heightUm,
        frame.cut.exactHeightUm,
        frame.cut.heightUm,
      )}
    </Sums>
  )
}
