import { formatClothLength } from '#language/lengths'
import { say } from '#language/say'
import type { OpeningCount, OpeningPiece, OpeningWay } from '#lib/cloth/frame-opening'
import { nominalCountLabel } from '#lib/cloth/match-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { listed } from '#words/amounts'
import { midSentence } from '#words/capital'
import { pieceName } from '#words/cloth'
import { overWords, roughLength } from '#words/cloth-size'

export const openingCountName = ({ weave, ends, picks, over }: OpeningCount): string =>
  say('{isBlock, select, yes {Aida} other {Evenweave or linen}} {nominalCountLabel} {over}', {
    isBlock: weave === 'block',
    nominalCountLabel: nominalCountLabel(ends, picks),
    over: overWords(over),
  })

/** "¾ in at the sides, 1.2 in above and below", or by how much the stitches are covered. */
export function seenWords({ kind, seenAcrossUm, seenUpUm }: OpeningWay, unit: LengthUnit): string {
  if (kind === 'too-large') {
    const covered = [
      ...(seenAcrossUm < 0 ? [say('{roughLength} too wide', { roughLength: roughLength(-2 * seenAcrossUm, unit) })] : []),
      ...(seenUpUm < 0 ? [say('{roughLength} too high', { roughLength: roughLength(-2 * seenUpUm, unit) })] : []),
    ]
    return listed(covered) || say('too large to be sure of')
  }
  return say('{roughLength} at the sides, {roughLength2} above and below', {
    roughLength: roughLength(seenAcrossUm, unit),
    roughLength2: roughLength(seenUpUm, unit),
  })
}

/** How the opening hangs for it, and the piece that does it. */
export function openingPieceWords({ pieces, pieceCount, way }: OpeningCount, unit: LengthUnit): string {
  if (pieceCount === 0) return say('none on hand')
  const [best] = pieces
  if (best) return turnBackWords(best, unit)
  return way.kind === 'too-large'
    ? ''
    : say('{pieceCount, plural, one {# piece} other {# pieces}} on hand, none large enough', { pieceCount })
}

function turnBackWords({ piece, fit, turnBackUm, way }: OpeningPiece, unit: LengthUnit): string {
  const turned = way.isTurned ? say(', turned') : ''
  if (fit.kind !== 'fits')
    return say('{pieceName} does it{turned} with only {turnBack} to turn back', {
      pieceName: pieceName(piece),
      turned,
      turnBack: formatClothLength(turnBackUm, unit),
    })
  return say('{pieceName} does it{turned}{hasNothingToSpare, select, yes {, nothing to spare} other {}}{rest}', {
    pieceName: pieceName(piece),
    turned,
    hasNothingToSpare: Boolean(fit.nothingToSpare),
    rest: fit.squareFirst ? (fit.fitsAfterSquaring ? say(', square it first') : say(', but once squared it may not')) : '',
  })
}

/** "2 counts on hand do, 3 more would" of those where it fits. */
export function openingAnswer(counts: readonly OpeningCount[]): string {
  const fits = counts.filter(({ way }) => way.kind === 'fits')
  const held = fits.filter(({ pieces }) => pieces.length > 0)
  const goesIn = counts.some(({ way }) => way.kind === 'little-seen')
  if (fits.length === 0)
    return goesIn
      ? say('It goes in on some counts, but with less plain cloth around than asked.')
      : say('It is too large for it on every count here.')
  const [first] = held
  const best = first?.pieces[0]
  if (!first || !best)
    return say(
      '{fits, plural, one {# way} other {# ways}} of working it would fit; no piece held is large enough for any of them.',
      { fits: fits.length },
    )
  const others = fits.length - 1
  return say('Best: {replace}, from {pieceName}.{rest}', {
    replace: midSentence(openingCountName(first)),
    pieceName: pieceName(best.piece),
    rest: others > 0 ? say(' {others} more would fit.', { others }) : '',
  })
}
