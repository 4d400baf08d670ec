import { numberText, plainFigure } from '#language/figures'
import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { type PieceFit, shrinkOf } from '#lib/cloth/fit'
import type { Margins } from '#lib/cloth/margins'
import { type Motifs, motifBox } from '#lib/cloth/motifs'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import type { Count } from '#lib/quantity/count'
import { Facts } from '#ui/facts'
import { Sum, type SumRow, Sums } from '#ui/sum'
import { overWords, perInchText } from '#words/cloth-size'

type SizeSumsProps = {
  /** In stitches, of one motif. */
  size: { width: number; height: number; uncertaintyUm: number; isEstimated: boolean }
  over: 1 | 2
  motifs: Motifs
  margins: Margins
  /** Whose margins they are: "framed". */
  marginsOf: string
  fit: PieceFit
  piece: ClothPiece
  shrinkPercent: number
  roundingUm: number
  unit: LengthUnit
}

/** The size and the cut of a design on a piece, with its own numbers. Threads are what is counted; inches come of them. */
export function SizeSums({ size, over, motifs, margins, marginsOf, fit, piece, unit, ...settings }: SizeSumsProps) {
  const [across, up] = fit.isTurned ? [piece.picks, piece.ends] : [piece.ends, piece.picks]
  const shrinkPercent = shrinkOf(piece, settings.shrinkPercent)
  const box = motifBox(size, over, motifs)
  const gap = motifs.gapThreads
  const length = (um: number) => formatClothLength(um, unit)
  const side = (at: {
    title: string
    stitches: number
    many: number
    threads: number
    count: Count
    crossed: string
    finishedUm: number
    marginsUm: [number, number]
    exactUm: number
    cutUm: number
  }) => {
    const uncertaintyUm = size.uncertaintyUm * Math.max(motifs.across, motifs.down)
    const rows: SumRow[] = [
      {
        label: say('Threads'),
        how:
          at.many === 1
            ? say('{stitches} stitches × {over}', { stitches: at.stitches, over })
            : say('{many} × {stitches} stitches × {over} + {many2} × {gap} between', {
                many: at.many,
                stitches: at.stitches,
                over,
                many2: at.many - 1,
                gap,
              }),
        figure: numberText(at.threads),
      },
      {
        label: say('Stitched'),
        how: say('÷ {perInch} {crossed} to the inch', { perInch: perInchText(at.count), crossed: at.crossed }),
        figure: length(at.finishedUm),
      },
      {
        label: say('Margins'),
        how: `${length(at.marginsUm[0])} + ${length(at.marginsUm[1])}, ${marginsOf}`,
        figure: length(at.marginsUm[0] + at.marginsUm[1]),
      },
      ...(uncertaintyUm > 0
        ? [{ label: say('Size is estimated'), how: say('half a measuring step'), figure: length(uncertaintyUm) }]
        : []),
      ...(shrinkPercent > 0
        ? [{ label: say('Shrinkage'), how: `÷ ${plainFigure(Number((1 - shrinkPercent / 100).toFixed(4)))}`, figure: '' }]
        : settings.shrinkPercent > 0
          ? [{ label: say('Shrinkage'), how: say('none: it has been washed, or never will be'), figure: '' }]
          : []),
      { label: say('Exact'), figure: length(at.exactUm), kind: 'rule' },
      {
        label: say('To cut'),
        how: say('up to the next {length}', { length: length(settings.roundingUm) }),
        figure: length(at.cutUm),
        kind: 'end',
      },
    ]
    return <Sum title={at.title} rows={rows} />
  }
  return (
    <>
      <Sums>
        {side({
          title: say('Width of the design'),
          stitches: size.width,
          many: motifs.across,
          threads: box.widthThreads,
          count: across,
          crossed: fit.isTurned ? 'picks' : 'ends',
          finishedUm: fit.finished.widthUm,
          marginsUm: [margins.leftUm, margins.rightUm],
          exactUm: fit.cut.exactWidthUm,
          cutUm: fit.cut.widthUm,
        })}
        {side({
          title: say('Height of the design'),
          stitches: size.height,
          many: motifs.down,
          threads: box.heightThreads,
          count: up,
          crossed: fit.isTurned ? 'ends' : 'picks',
          finishedUm: fit.finished.heightUm,
          marginsUm: [margins.topUm, margins.bottomUm],
          exactUm: fit.cut.exactHeightUm,
          cutUm: fit.cut.heightUm,
        })}
      </Sums>
      <Facts
        items={[
          {
            label: say('Stitches'),
            value: `${size.width} × ${size.height}, ${overWords(over)}${size.isEstimated ? say(', estimated, give or take {length}', { length: length(size.uncertaintyUm) }) : ''}`,
          },
          { label: say('The piece'), value: formatClothSize(piece, unit) },
        ]}
      />
    </>
  )
}
