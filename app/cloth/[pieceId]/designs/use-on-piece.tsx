import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { PieceFit } from '#lib/cloth/fit'
import { takenOf } from '#lib/cloth/left-of-piece'
import s from './use-on-piece.module.css'

/** Longest side of the piece, in px; every row draws the same piece. */
const longestPx = 60

type UseOnPieceProps = { piece: Pick<ClothPiece, 'widthUm' | 'heightUm'>; fit: PieceFit }

/** The piece to scale, the cut in its lower left corner and the stitched part in that. The figures stand beside it in words. */
export function UseOnPiece({ piece, fit }: UseOnPieceProps) {
  const px = (um: number) => (um / Math.max(piece.widthUm, piece.heightUm)) * longestPx
  const [width, height] = [px(piece.widthUm), px(piece.heightUm)]
  const taken = takenOf(piece, fit)
  const [cutWidth, cutHeight] = [px(taken.widthUm), px(taken.heightUm)]
  const { finished, isTurned } = fit
  const stitchedWidth = Math.min(cutWidth, px(isTurned ? finished.heightUm : finished.widthUm))
  const stitchedHeight = Math.min(cutHeight, px(isTurned ? finished.widthUm : finished.heightUm))
  return (
    <svg
      className={s.use}
      viewBox={`-1 -1 ${longestPx + 2} ${(height + 2).toFixed(1)}`}
      width={longestPx + 2}
      height={(height + 2).toFixed(1)}
      aria-hidden="true"
    >
      <rect className={s.piece} width={width} height={height} />
      <rect className={s.cut} y={height - cutHeight} width={cutWidth} height={cutHeight} />
      <rect
        className={s.stitched}
        x={(cutWidth - stitchedWidth) / 2}
        y={height - (cutHeight + stitchedHeight) / 2}
        width={stitchedWidth}
        height={stitchedHeight}
      />
    </svg>
  )
}
