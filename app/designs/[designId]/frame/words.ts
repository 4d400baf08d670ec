import { formatClothLength } from '#language/lengths'
import type { OpeningCount, OpeningPiece, OpeningWay } from '#lib/cloth/frame-opening'
import { nominalCountLabel } from '#lib/cloth/match-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { overWords, roughLength } from '#words/cloth-size'

export const openingCountName = ({ weave, ends, picks, over }: OpeningCount): string =>
  `${weave === 'block' ? 'Aida' : 'Evenweave or linen'} ${nominalCountLabel(ends, picks)} ${overWords(over)}`

/** "¾ in at the sides, 1.2 in above and below", or by how much the stitches are covered. */
export function seenWords({ kind, seenAcrossUm, seenUpUm }: OpeningWay, unit: LengthUnit): string {
  if (kind === 'too-large') {
    const covered = [
      ...(seenAcrossUm < 0 ? [`${roughLength(-2 * seenAcrossUm, unit)} too wide`] : []),
      ...(seenUpUm < 0 ? [`${roughLength(-2 * seenUpUm, unit)} too high`] : []),
    ]
    return covered.join(' and ') || 'too large to be sure of'
  }
  return `${roughLength(seenAcrossUm, unit)} at the sides, ${roughLength(seenUpUm, unit)} above and below`
}

/** How the opening hangs for it, and the piece that does it. */
export function openingPieceWords({ pieces, pieceCount, way }: OpeningCount, unit: LengthUnit): string {
  if (pieceCount === 0) return 'none on hand'
  const [best] = pieces
  if (best) return turnBackWords(best, unit)
  return way.kind === 'too-large' ? '' : `${counted(pieceCount, 'piece')} on hand, none large enough`
}

function turnBackWords({ piece, fit, turnBackUm, way }: OpeningPiece, unit: LengthUnit): string {
  const turned = way.isTurned ? ', turned' : ''
  if (fit.kind !== 'fits')
    return `${pieceName(piece)} does it${turned} with only ${formatClothLength(turnBackUm, unit)} to turn back`
  return `${pieceName(piece)} does it${turned}${fit.nothingToSpare ? ', nothing to spare' : ''}${fit.squareFirst ? (fit.fitsAfterSquaring ? ', square it first' : ', but once squared it may not') : ''}`
}

/** "2 counts on hand do, 3 more would" of those where it fits. */
export function openingAnswer(counts: readonly OpeningCount[]): string {
  const fits = counts.filter(({ way }) => way.kind === 'fits')
  const held = fits.filter(({ pieces }) => pieces.length > 0)
  const goesIn = counts.some(({ way }) => way.kind === 'little-seen')
  if (fits.length === 0)
    return goesIn
      ? 'It goes in on some counts, but with less plain cloth around than asked.'
      : 'It is too large for it on every count here.'
  const [first] = held
  const best = first?.pieces[0]
  if (!first || !best)
    return `${counted(fits.length, 'way')} of working it would fit; no piece held is large enough for any of them.`
  const others = fits.length - 1
  return `Best: ${openingCountName(first).replace(/^./, (letter) => letter.toLowerCase())}, from ${pieceName(best.piece)}.${others > 0 ? ` ${others} more would fit.` : ''}`
}
