import type { ClothPiece } from './cloth-piece'
import type { PieceFit } from './fit'

type Size = { widthUm: number; heightUm: number }

/** What a cut takes of a piece, along its weft and its warp: the rounded size where there is room for it, else the exact one. */
export function takenOf(
  piece: Pick<ClothPiece, 'widthUm' | 'heightUm'>,
  { cut, isTurned }: Pick<PieceFit, 'cut' | 'isTurned'>,
): Size {
  const taken = (sideUm: number, roundedUm: number, exactUm: number) =>
    roundedUm <= sideUm ? roundedUm : Math.min(sideUm, Math.ceil(exactUm))
  return isTurned
    ? {
        widthUm: taken(piece.widthUm, cut.heightUm, cut.exactHeightUm),
        heightUm: taken(piece.heightUm, cut.widthUm, cut.exactWidthUm),
      }
    : {
        widthUm: taken(piece.widthUm, cut.widthUm, cut.exactWidthUm),
        heightUm: taken(piece.heightUm, cut.heightUm, cut.exactHeightUm),
      }
}

/**
 * What is left of a piece when a cut comes out of its corner by two straight cuts, the first from edge to edge:
 *
 *   ┌─────────────┐   ┌───────┬─────┐     Whichever way leaves the larger piece is taken.
 *   │    left     │   │ left  │     │
 *   ├───────┬─────┤   ├───────┤left │
 *   │  cut  │left │   │  cut  │     │
 *   └───────┴─────┘   └───────┴─────┘
 *
 * @returns the larger first; what is less than `leastOffcutUm` either way is waste and left out
 */
export function leftOfPiece(
  piece: Pick<ClothPiece, 'widthUm' | 'heightUm'>,
  fit: Pick<PieceFit, 'cut' | 'isTurned'>,
  leastOffcutUm: number,
): Size[] {
  const taken = takenOf(piece, fit)
  const [beside, above] = [piece.widthUm - taken.widthUm, piece.heightUm - taken.heightUm]
  const ways: Size[][] = [
    [
      { widthUm: piece.widthUm, heightUm: above },
      { widthUm: beside, heightUm: taken.heightUm },
    ],
    [
      { widthUm: beside, heightUm: piece.heightUm },
      { widthUm: taken.widthUm, heightUm: above },
    ],
  ]
  const area = ({ widthUm, heightUm }: Size) => widthUm * heightUm
  const largest = (left: readonly Size[]) => Math.max(0, ...left.map(area))
  const useful = ways.map((left) =>
    left
      .filter(({ widthUm, heightUm }) => Math.min(widthUm, heightUm) >= Math.max(1, leastOffcutUm))
      .sort((a, b) => area(b) - area(a)),
  )
  const [across, up] = useful as [Size[], Size[]]
  return largest(up) > largest(across) ? up : across
}
