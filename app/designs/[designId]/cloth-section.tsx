import type { Design } from '#lib/chart/design'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { PieceFit } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import type { ClothAnswer, KindOnHand } from '#lib/coverage/cloth-answer'
import type { Place } from '#lib/place/place'
import { formatClothLength, formatClothSize, type LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount, perInch } from '#lib/quantity/count'
import type { Settings } from '#lib/settings/settings'
import { ClothDrawing } from '#trade/cloth-drawing'
import { PlaceLabel } from '#trade/place-label'
import { Facts } from '#ui/facts'
import { Ledger } from '#ui/ledger'
import { Section } from '#ui/section'
import { Steps } from '#ui/steps'
import { Sum, Sums } from '#ui/sum'
import { Unfold } from '#ui/unfold'
import { choiceSentence, fitWords, pieceDescription, pieceName } from '#words/cloth'
import s from './design.module.css'

type ClothSectionProps = {
  design: Design
  answer: ClothAnswer
  places: ReadonlyMap<string, Place>
  settings: Settings
}

/** Which piece to cut and how, drawn to scale; and how the design comes out on every kind of cloth on hand. */
export function ClothSection({ design, answer, places, settings }: ClothSectionProps) {
  const unit = settings.lengthUnit
  if (answer.kind === 'unknown-size') {
    return (
      <Section title="Cloth" id="cloth">
        <p>The size of this design is not known. Give its stitches, or its inches at a count, and its cloth is worked out.</p>
      </Section>
    )
  }
  const { choice, kinds } = answer
  const chosen = choice.best ?? choice.ranked.find(({ fit }) => fit.kind === 'smaller-margin') ?? null
  const advised = design.advised
  return (
    <Section
      title="Cloth"
      id="cloth"
      note={chosen ? `Drawn to scale, in ${unit === 'in' ? 'inches' : 'centimetres'}.` : undefined}
    >
      {chosen ? (
        <div className={s.two}>
          <PieceDrawing piece={chosen.piece} fit={chosen.fit} unit={unit} margins={settings.margins[settings.finishing]} />
          <div>
            <p className={s.big}>
              {chosen.fit.kind === 'fits' ? (
                <>
                  Cut {formatClothSize(chosen.fit.nothingToSpare ? exact(chosen.fit) : chosen.fit.cut, unit)} from{' '}
                  <PiecePlace piece={chosen.piece} places={places} />
                  {chosen.fit.isTurned ? ', turned' : ''}.
                </>
              ) : (
                <>
                  No piece fits at this margin. <PiecePlace piece={chosen.piece} places={places} /> {fitWords(chosen.fit, unit)}.
                </>
              )}
            </p>
            <p>{pieceWords(chosen.piece, chosen.fit, unit)}</p>
            {chosen.fit.kind === 'fits' && (
              <Steps label="Cutting, in order" items={cuttingSteps(chosen.piece, chosen.fit, unit)} />
            )}
            {choice.toBuy && advised && (
              <p className={s.gap}>
                Or buy {formatClothSize(choice.toBuy, unit)} of {advised.name ?? 'cloth'} at{' '}
                {formatCount(advised.count, advised.count)}.
              </p>
            )}
            <Unfold label="How the size comes about">
              <SizeSums fit={chosen.fit} piece={chosen.piece} answer={answer} settings={settings} />
            </Unfold>
          </div>
        </div>
      ) : (
        <p className={s.big}>
          {choice.toBuy && advised
            ? `Nothing held is right. Buy ${formatClothSize(choice.toBuy, unit)} of ${advised.name ?? 'cloth'}, ${formatCount(advised.count, advised.count)} over ${advised.over === 2 ? 'two' : 'one'}.`
            : `Nothing held takes it: ${choiceSentence(choice, unit)}.`}
        </p>
      )}
      {kinds.length > 0 && (
        <div className={s.kinds}>
          <Ledger
            caption="On every count on hand"
            captionIsSeen
            isTight
            rows={kinds}
            rowKey={(row) => `${row.kind} ${row.over}`}
            columns={[
              {
                key: 'cloth',
                head: 'Cloth on hand',
                phone: 'lead',
                cell: (row) => (
                  <>
                    {kindWords(row)}
                    {row.isAdvised && <small className={s.under}>as advised</small>}
                  </>
                ),
              },
              {
                key: 'size',
                head: 'Comes out at',
                isNumeric: true,
                phone: 'side',
                cell: ({ fit }) => formatClothSize(fit.finished, unit),
              },
              { key: 'cut', head: 'To cut', isNumeric: true, phone: 'hide', cell: ({ fit }) => formatClothSize(fit.cut, unit) },
              {
                key: 'fit',
                head: 'Best piece',
                phone: 'line',
                cell: ({ best, fit }) => (
                  <>
                    {pieceName(best)} {fitWords(fit, unit)}{' '}
                    <a
                      className="nb"
                      href={`/designs/${design.id}?piece=${best.id}#threads`}
                      aria-label={`Reckon the threads on ${pieceName(best)}`}
                    >
                      threads on it
                    </a>
                  </>
                ),
              },
              {
                key: 'place',
                head: 'Place',
                isAtEnd: true,
                phone: 'side',
                cell: ({ best }) => <PiecePlace piece={best} places={places} />,
              },
            ]}
          />
        </div>
      )}
    </Section>
  )
}

const kindWords = ({ kind, over }: KindOnHand): string => {
  const [weave, ...count] = kind.split(' ')
  return `${weave === 'block' ? 'Aida' : 'Evenweave or linen'} ${count.join(' ')} over ${over === 2 ? 'two' : 'one'}`
}

const exact = ({ cut }: PieceFit) => ({ widthUm: Math.ceil(cut.exactWidthUm), heightUm: Math.ceil(cut.exactHeightUm) })

function PiecePlace({ piece, places }: { piece: ClothPiece; places: ReadonlyMap<string, Place> }) {
  const place = places.get(piece.currentPlaceId ?? piece.homePlaceId ?? '')
  return (
    <>
      {piece.label && <a href={`/cloth/${piece.id}`}>{piece.label}</a>}
      {!piece.label && <a href={`/cloth/${piece.id}`}>{pieceName(piece)}</a>}
      {place && (
        <>
          {' '}
          <PlaceLabel label={place.label} href={`/places/${place.id}`} isAway={piece.currentPlaceId !== piece.homePlaceId} />
        </>
      )}
    </>
  )
}

function pieceWords(piece: ClothPiece, fit: PieceFit, unit: LengthUnit): string {
  const size = `${pieceDescription(piece)}. It measures ${formatClothSize(piece, unit)}${piece.isSquared ? ', squared' : ', not yet squared'}.`
  const turned = fit.isTurned ? ' It fits better turned: the design’s width then runs along the warp.' : ''
  const tight =
    fit.kind === 'fits' && fit.nothingToSpare ? ' There is nothing to spare: cut the exact size, not the rounded one.' : ''
  const square =
    fit.kind === 'fits' && fit.squareFirst
      ? fit.fitsAfterSquaring
        ? ' Square it first: it still fits after the usual loss of ¼ in a side.'
        : ' Square it first: after the usual loss of ¼ in a side it may no longer fit.'
      : ''
  const { acrossUm, upUm } = fit.finished
  const skew =
    Math.abs(acrossUm - upUm) > 1e-6
      ? ` The count is not square, so a circle comes out ${acrossUm > upUm ? 'wider than tall' : 'taller than wide'}.`
      : ''
  return `${size}${turned}${tight}${square}${skew}`
}

/** On the piece: the cut lies in the lower left corner, turned when the design is. */
function layOut(piece: ClothPiece, fit: PieceFit) {
  const wide = fit.isTurned ? fit.cut.exactHeightUm : fit.cut.exactWidthUm
  const high = fit.isTurned ? fit.cut.exactWidthUm : fit.cut.exactHeightUm
  const roundedWide = fit.isTurned ? fit.cut.heightUm : fit.cut.widthUm
  const roundedHigh = fit.isTurned ? fit.cut.widthUm : fit.cut.heightUm
  const widthUm = Math.min(piece.widthUm, roundedWide <= piece.widthUm ? roundedWide : wide)
  const heightUm = Math.min(piece.heightUm, roundedHigh <= piece.heightUm ? roundedHigh : high)
  return { xUm: 0, yUm: piece.heightUm - heightUm, widthUm, heightUm }
}

function cuttingSteps(piece: ClothPiece, fit: PieceFit, unit: LengthUnit): string[] {
  const cut = layOut(piece, fit)
  const steps: string[] = []
  if (!piece.isSquared) steps.push('Draw a thread each way and square the piece; measure it again.')
  if (cut.heightUm < piece.heightUm) {
    const left = { widthUm: piece.widthUm, heightUm: piece.heightUm - cut.heightUm }
    steps.push(
      `Straight across, ${formatClothLength(cut.heightUm, unit)} from the foot. What is left above is ${formatClothSize(left, unit)}.`,
    )
  }
  if (cut.widthUm < piece.widthUm) {
    const left = { widthUm: piece.widthUm - cut.widthUm, heightUm: cut.heightUm }
    steps.push(
      `Straight up, ${formatClothLength(cut.widthUm, unit)} from the left. What is left beside is ${formatClothSize(left, unit)}.`,
    )
  }
  steps.push(
    `Mark which way the warp runs${fit.isTurned ? '; the design’s head goes to one side' : ''}. Neaten the edges, label what is left.`,
  )
  return steps
}

type PieceDrawingProps = { piece: ClothPiece; fit: PieceFit; unit: LengthUnit; margins: Margins }

function PieceDrawing({ piece, fit, unit, margins: asked }: PieceDrawingProps) {
  const cut = layOut(piece, fit)
  const margins = fit.kind === 'smaller-margin' ? fit.margins : asked
  // Turned a quarter to the right: the design's left side is the head of the cut.
  const turned = fit.isTurned
  const left = turned ? margins.bottomUm : margins.leftUm
  const top = turned ? margins.leftUm : margins.topUm
  const right = turned ? margins.topUm : margins.rightUm
  const bottom = turned ? margins.rightUm : margins.bottomUm
  const stitchedWide = turned ? fit.finished.heightUm : fit.finished.widthUm
  const stitchedHigh = turned ? fit.finished.widthUm : fit.finished.heightUm
  const spare = { xUm: (cut.widthUm - stitchedWide - left - right) / 2, yUm: (cut.heightUm - stitchedHigh - top - bottom) / 2 }
  const label = (um: number) => formatClothLength(Math.round(um), unit)
  const cuts = [
    ...(cut.heightUm < piece.heightUm ? [{ x1Um: 0, y1Um: cut.yUm, x2Um: piece.widthUm, y2Um: cut.yUm }] : []),
    ...(cut.widthUm < piece.widthUm ? [{ x1Um: cut.widthUm, y1Um: cut.yUm, x2Um: cut.widthUm, y2Um: piece.heightUm }] : []),
  ]
  const leftovers = [
    ...(cut.heightUm < piece.heightUm
      ? [
          {
            xUm: 0,
            yUm: 0,
            widthUm: piece.widthUm,
            heightUm: cut.yUm,
            label: `left ${formatClothSize({ widthUm: piece.widthUm, heightUm: cut.yUm }, unit)}`,
          },
        ]
      : []),
    ...(cut.widthUm < piece.widthUm
      ? [{ xUm: cut.widthUm, yUm: cut.yUm, widthUm: piece.widthUm - cut.widthUm, heightUm: cut.heightUm, label: 'left' }]
      : []),
  ]
  return (
    <ClothDrawing
      sentence={`${pieceName(piece)}, ${formatClothSize(piece, unit)}: cut ${formatClothSize(cut, unit)}, stitched area ${formatClothSize(fit.finished, unit)}${turned ? ', turned' : ''}.`}
      piece={{
        widthUm: piece.widthUm,
        heightUm: piece.heightUm,
        widthLabel: `${label(piece.widthUm)}, weft`,
        heightLabel: `${label(piece.heightUm)}, warp`,
      }}
      cut={{ ...cut, widthLabel: `cut ${label(cut.widthUm)}`, heightLabel: `cut ${label(cut.heightUm)}` }}
      finished={{
        xUm: cut.xUm + left + Math.max(0, spare.xUm),
        yUm: cut.yUm + top + Math.max(0, spare.yUm),
        widthUm: stitchedWide,
        heightUm: stitchedHigh,
        label: `stitched ${formatClothSize(fit.finished, unit)}`,
        note: turned ? 'turned' : undefined,
      }}
      margins={{ top: label(top), right: label(right), bottom: label(bottom), left: label(left) }}
      cuts={cuts}
      leftovers={leftovers}
      unit={unit}
      warp="up"
    />
  )
}

type SizeSumsProps = { fit: PieceFit; piece: ClothPiece; answer: Extract<ClothAnswer, { kind: 'answer' }>; settings: Settings }

function SizeSums({ fit, piece, answer, settings }: SizeSumsProps) {
  const unit = settings.lengthUnit
  const margins = settings.margins[settings.finishing]
  const { width, height, uncertaintyUm, isEstimated } = answer.size
  const over = fit.finished.acrossUm / (25_400 / perInch(fit.isTurned ? piece.picks : piece.ends)) > 1.5 ? 2 : 1
  const length = (um: number) => formatClothLength(um, unit)
  const side = (
    title: string,
    stitches: number,
    count: number,
    finishedUm: number,
    oneUm: number,
    otherUm: number,
    exactUm: number,
    cutUm: number,
  ) => (
    <Sum
      title={title}
      rows={[
        { label: 'Stitched', how: `${stitches} × ${over} ÷ ${Number(count.toFixed(2))} to the inch`, figure: length(finishedUm) },
        {
          label: 'Margins',
          how: `${length(oneUm)} + ${length(otherUm)}, ${settings.finishing}`,
          figure: length(oneUm + otherUm),
        },
        ...(uncertaintyUm > 0
          ? [{ label: 'Size is estimated', how: 'half a measuring step', figure: length(uncertaintyUm) }]
          : []),
        ...(settings.shrinkPercent > 0 ? [{ label: 'Shrinkage', how: `÷ ${1 - settings.shrinkPercent / 100}`, figure: '' }] : []),
        { label: 'Exact', figure: length(exactUm), kind: 'rule' as const },
        { label: 'To cut', how: `up to the next ${length(settings.roundingUm)}`, figure: length(cutUm), kind: 'end' as const },
      ]}
    />
  )
  const acrossCount = perInch(fit.isTurned ? piece.picks : piece.ends)
  const upCount = perInch(fit.isTurned ? piece.ends : piece.picks)
  return (
    <>
      <Sums>
        {side(
          'Width of the design',
          width,
          acrossCount,
          fit.finished.widthUm,
          margins.leftUm,
          margins.rightUm,
          fit.cut.exactWidthUm,
          fit.cut.widthUm,
        )}
        {side(
          'Height of the design',
          height,
          upCount,
          fit.finished.heightUm,
          margins.topUm,
          margins.bottomUm,
          fit.cut.exactHeightUm,
          fit.cut.heightUm,
        )}
      </Sums>
      <Facts
        items={[
          { label: 'Stitches', value: `${width} × ${height}${isEstimated ? ', estimated' : ''}` },
          { label: 'The piece', value: formatClothSize(piece, unit) },
          { label: 'Fit', value: fitWords(fit, unit) },
        ]}
      />
    </>
  )
}
