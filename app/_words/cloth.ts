import { formatClothLength, formatClothSize } from '#language/lengths'
import type { PieceChoice, RankedPiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { PieceFit } from '#lib/cloth/fit'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'

/** "C3-2", or the cloth's own name where a piece has no label. */
export const pieceName = (piece: Pick<ClothPiece, 'label' | 'name' | 'colourName'>): string =>
  piece.label ?? (piece.colourName ? `${piece.name}, ${piece.colourName}` : piece.name)

/** A piece as its page is headed: "L-12 · Linen, Flax". */
export const pieceTitle = ({ label, name, colourName }: Pick<ClothPiece, 'label' | 'name' | 'colourName'>): string =>
  [label, [name, colourName].filter(Boolean).join(', ')].filter(Boolean).join(' · ')

/** What a piece is: "Ostravane evenweave, Oat, 28 count". */
export const pieceDescription = (piece: Pick<ClothPiece, 'name' | 'colourName' | 'ends' | 'picks'>): string =>
  [piece.name, piece.colourName, formatCount(piece.ends, piece.picks)].filter(Boolean).join(', ')

/** How a piece takes a design, in a few words. */
export function fitWords(fit: PieceFit, unit: LengthUnit): string {
  const turned = fit.isTurned ? ' turned' : ''
  switch (fit.kind) {
    case 'fits':
      return `fits${turned}${fit.nothingToSpare ? ', nothing to spare' : ''}${fit.squareFirst ? ', square it first' : ''}`
    case 'smaller-margin':
      return `fits${turned} with ${formatClothLength(fit.marginUm, unit)} at ${sides(fit.dimension)}`
    case 'too-small':
      return 'too small'
  }
}

function sides(dimension: 'width' | 'height' | 'both'): string {
  if (dimension === 'both') return 'the edges'
  return dimension === 'width' ? 'left and right' : 'top and bottom'
}

/** Which piece takes a design, or what to buy, in one sentence for lists and verdicts. */
export function choiceSentence({ best, ranked, toBuy }: PieceChoice, unit: LengthUnit): string {
  const words = ({ piece, fit }: RankedPiece) =>
    `${pieceName(piece)} ${fitWords(fit, unit)}${piece.isCountStale ? ', by its count before it was washed' : ''}`
  if (best) return words(best)
  const near = ranked.find(({ fit }) => fit.kind === 'smaller-margin')
  const buy = toBuy ? `buy ${formatClothSize(toBuy, unit)}` : 'none that fits'
  return near ? `${words(near)}, or ${buy}` : buy
}
