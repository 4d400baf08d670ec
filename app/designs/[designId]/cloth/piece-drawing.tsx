import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { PieceFit } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { ClothDrawing } from '#trade/cloth-drawing'
import { pieceName } from '#words/cloth'
import { roughSize } from '#words/cloth-size'

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

/** How to cut it, in order. */
export function cuttingSteps(piece: ClothPiece, fit: PieceFit, unit: LengthUnit): string[] {
  const cut = layOut(piece, fit)
  const steps: string[] = []
  if (!piece.isSquared) steps.push(say('Draw a thread each way and square the piece; measure it again.'))
  if (cut.heightUm < piece.heightUm) {
    const left = { widthUm: piece.widthUm, heightUm: piece.heightUm - cut.heightUm }
    steps.push(
      say('Straight across, {height} from the foot. What is left above is {left}.', {
        height: formatClothLength(cut.heightUm, unit),
        left: formatClothSize(left, unit),
      }),
    )
  }
  if (cut.widthUm < piece.widthUm) {
    const left = { widthUm: piece.widthUm - cut.widthUm, heightUm: cut.heightUm }
    steps.push(
      say('Straight up, {width} from the left. What is left beside is {left}.', {
        width: formatClothLength(cut.widthUm, unit),
        left: formatClothSize(left, unit),
      }),
    )
  }
  steps.push(
    say(
      'Mark which way the warp runs{isTurned, select, yes {; the design’s head goes to one side} other {}}. Neaten the edges, label what is left.',
      { isTurned: fit.isTurned },
    ),
  )
  return steps
}

type PieceDrawingProps = { piece: ClothPiece; fit: PieceFit; unit: LengthUnit; margins: Margins }

/** The piece to scale, with the cut and the stitched area on it. */
export function PieceDrawing({ piece, fit, unit, margins: asked }: PieceDrawingProps) {
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
            label: say('left {clothSize}', { clothSize: formatClothSize({ widthUm: piece.widthUm, heightUm: cut.yUm }, unit) }),
          },
        ]
      : []),
    ...(cut.widthUm < piece.widthUm
      ? [{ xUm: cut.widthUm, yUm: cut.yUm, widthUm: piece.widthUm - cut.widthUm, heightUm: cut.heightUm, label: say('left') }]
      : []),
  ]
  return (
    <ClothDrawing
      sentence={say('{pieceName}, {piece}: cut {cut}, stitched area {roughSize}{hasTurned, select, yes {, turned} other {}}.', {
        pieceName: pieceName(piece),
        piece: formatClothSize(piece, unit),
        cut: formatClothSize(cut, unit),
        roughSize: roughSize(fit.finished, unit),
        hasTurned: Boolean(turned),
      })}
      piece={{
        widthUm: piece.widthUm,
        heightUm: piece.heightUm,
        widthLabel: say('{label}, weft', { label: label(piece.widthUm) }),
        heightLabel: say('{label}, warp', { label: label(piece.heightUm) }),
      }}
      cut={{
        ...cut,
        widthLabel: say('cut {label}', { label: label(cut.widthUm) }),
        heightLabel: say('cut {label}', { label: label(cut.heightUm) }),
      }}
      finished={{
        xUm: cut.xUm + left + Math.max(0, spare.xUm),
        yUm: cut.yUm + top + Math.max(0, spare.yUm),
        widthUm: stitchedWide,
        heightUm: stitchedHigh,
        label: say('stitched {roughSize}', { roughSize: roughSize(fit.finished, unit) }),
        note: turned ? say('turned') : undefined,
      }}
      margins={{ top: label(top), right: label(right), bottom: label(bottom), left: label(left) }}
      cuts={cuts}
      leftovers={leftovers}
      unit={unit}
      warp="up"
    />
  )
}
