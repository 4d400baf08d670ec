import { formatClothLength, formatClothSize } from '#language/lengths'
import { say } from '#language/say'
import type { PieceChoice, RankedPiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { PieceFit } from '#lib/cloth/fit'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { countWords } from '#words/cloth-count'

/** "C3-2", or the cloth's own name where a piece has no label. */
export const pieceName = (piece: Pick<ClothPiece, 'label' | 'name' | 'colourName'>): string =>
  piece.label ?? (piece.colourName ? `${piece.name}, ${piece.colourName}` : piece.name)

/** A piece as its page is headed: "L-12 · Linen, Flax". */
export const pieceTitle = ({ label, name, colourName }: Pick<ClothPiece, 'label' | 'name' | 'colourName'>): string =>
  [label, [name, colourName].filter(Boolean).join(', ')].filter(Boolean).join(' · ')

/** What a piece is: "Ostravane evenweave, Oat, 28 count". */
export const pieceDescription = (piece: Pick<ClothPiece, 'name' | 'colourName' | 'ends' | 'picks'>): string =>
  [piece.name, piece.colourName, countWords(piece.ends, piece.picks)].filter(Boolean).join(', ')

/** How a piece takes a design, in a few words. */
export function fitWords(fit: PieceFit, unit: LengthUnit): string {
  const turned = fit.isTurned ? say(' turned') : ''
  switch (fit.kind) {
    case 'fits':
      return say(
        'fits{turned}{hasNothingToSpare, select, yes {, nothing to spare} other {}}{hasSquareFirst, select, yes {, square it first} other {}}',
        { turned, hasNothingToSpare: Boolean(fit.nothingToSpare), hasSquareFirst: Boolean(fit.squareFirst) },
      )
    case 'smaller-margin':
      return say('fits{turned} with {margin} at {sides}', {
        turned,
        margin: formatClothLength(fit.marginUm, unit),
        sides: sides(fit.dimension),
      })
    case 'too-small':
      return say('too small')
  }
}

function sides(dimension: 'width' | 'height' | 'both'): string {
  if (dimension === 'both') return say('the edges')
  return dimension === 'width' ? say('left and right') : say('top and bottom')
}

/** Which piece takes a design, or what to buy, in one sentence for lists and verdicts. */
export function choiceSentence({ best, ranked, toBuy }: PieceChoice, unit: LengthUnit): string {
  const words = ({ piece, fit }: RankedPiece) =>
    say('{pieceName} {fit}{isCountStale, select, yes {, by its count before it was washed} other {}}', {
      pieceName: pieceName(piece),
      fit: fitWords(fit, unit),
      isCountStale: piece.isCountStale,
    })
  if (best) return words(best)
  const near = ranked.find(({ fit }) => fit.kind === 'smaller-margin')
  const buy = toBuy ? say('buy {toBuy}', { toBuy: formatClothSize(toBuy, unit) }) : say('none that fits')
  return near ? say('{words}, or {buy}', { words: words(near), buy }) : buy
}
