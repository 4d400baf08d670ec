import { formatClothSize } from '#language/lengths'
import type { AdvisedCloth } from '#lib/chart/design'
import type { BleedReason, BleedRisk } from '#lib/cloth/care'
import type { ClothContrast } from '#lib/cloth/contrast'
import type { CutSize } from '#lib/cloth/finished-size'
import type { PieceFit } from '#lib/cloth/fit'
import type { Motifs } from '#lib/cloth/motifs'
import { isAllReserved } from '#lib/cloth/on-every-count'
import type { CountAnswer, DesignCloth, ShownPiece } from '#lib/coverage/design-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { counted, listed } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { fitSaid, overWords } from '#words/cloth-size'

const exact = (cut: CutSize) => ({ widthUm: Math.ceil(cut.exactWidthUm), heightUm: Math.ceil(cut.exactHeightUm) })

/** " 6 motifs, 3 across and 2 down, 11 threads between,"; nothing for one. */
export const motifWords = ({ across, down, gapThreads }: Motifs): string =>
  across * down === 1
    ? ''
    : ` ${across * down} motifs, ${across} across and ${down} down, ${gapThreads === 0 ? 'nothing' : counted(gapThreads, 'thread')} between,`

/** What one is told to cut: the rounded size, or the exact one where that would not come out of the piece. */
export const cutToTell = (fit: PieceFit): { widthUm: number; heightUm: number } =>
  fit.kind === 'fits' && fit.nothingToSpare ? exact(fit.cut) : fit.cut

/** "Buy 16 × 13 in of evenweave, 28 count over two". */
function buyWords(toBuy: CutSize, advised: AdvisedCloth, over: 1 | 2, unit: LengthUnit): string {
  return `buy ${formatClothSize(toBuy, unit)} of ${advised.name ?? 'cloth'}, ${formatCount(advised.count, advised.count)} ${overWords(over)}`
}

/** Both ways round of the piece shown, each with what stands against it. */
export function waysRound({ piece, upright, turned }: ShownPiece, unit: LengthUnit): { label: string; value: string }[] {
  const both = [
    { label: 'Upright', value: fitSaid(upright, unit) },
    {
      label: 'Turned',
      value: piece.isTurnable ? fitSaid(turned, unit) : `it may not be turned (else it ${inTurn(turned, unit)})`,
    },
  ]
  return both
}

const inTurn = (fit: PieceFit, unit: LengthUnit): string => {
  const said = fitSaid(fit, unit)
  return said.startsWith('fits') || said.startsWith('does')
    ? said.replace(/^fits/, 'would fit').replace(/^does not/, 'would not')
    : `would be ${said}`
}

/** A row of the table of counts: its fit, only turned where that is so, and what keeps it from being cut. */
export function countFitWords(count: CountAnswer, unit: LengthUnit): string {
  const { fit } = count
  const said =
    fit.kind === 'too-small'
      ? fitSaid(fit, unit)
      : `${fitSaid(fit, unit)}${fit.isTurned ? (count.isOnlyTurned ? ', only turned' : ', turned') : ''}`
  return isAllReserved(count) ? `kept for something else; it ${said}` : said
}

/** How many pieces there are of it: "3 pieces, 1 reserved". */
export const pieceCountWords = ({ pieceCount, reservedCount }: CountAnswer): string =>
  `${counted(pieceCount, 'piece')}${reservedCount > 0 ? `, ${reservedCount} reserved` : ''}`

/** Which threads are hard to see on a cloth; null where all show. */
export function contrastWords(
  contrast: ClothContrast,
  codeOf: (threadId: string) => string,
): { title: string; rest: string } | null {
  if (contrast.kind === 'cloth-not-known')
    return {
      title: 'Whether the threads show on it is not judged',
      rest: 'The colour of this piece is not on record. Lay the threads on it in daylight.',
    }
  const unjudged =
    contrast.notKnownIds.length > 0
      ? `Not judged, for want of a recorded colour: ${listed(contrast.notKnownIds.map(codeOf))}.`
      : ''
  if (contrast.faint.length === 0)
    return unjudged === '' ? null : { title: 'Not every thread is judged on this cloth', rest: unjudged }
  const codes = contrast.faint.map(({ threadId, gap }) => `${codeOf(threadId)} (${Number(gap.toFixed(1))} apart)`)
  return {
    title: `Hard to see on this cloth: ${listed(codes)}`,
    rest: `In lightness they lie less than ${contrast.least} from it. Lay them on it in daylight; the design may mean it so.${unjudged === '' ? '' : ` ${unjudged}`}`,
  }
}

const runsBecause: Record<BleedReason | 'bled', string> = {
  'hand-dyed': 'it is hand-dyed',
  red: 'it is red',
  dark: 'it is dark',
  bled: 'it ran when it was tested',
}

/** What may run on this cloth; null where nothing need be feared. */
export function bleedWords({ cloth, threads }: BleedRisk, codeOf: (threadId: string) => string): string | null {
  const own = cloth && `This cloth may run: ${runsBecause[cloth]}.`
  const theirs = threads.length > 0 && `Threads that may run: ${listed(threads.map(({ id }) => codeOf(id)))}.`
  return [own, theirs].filter(Boolean).join(' ') || null
}

/** The page's answer where nothing held can be cut as asked; null where it can. */
export function withoutPiece(
  { shown, toBuy }: Pick<DesignCloth, 'shown' | 'toBuy'>,
  advised: AdvisedCloth | null,
  over: 1 | 2,
  unit: LengthUnit,
): string | null {
  if (shown?.fit.kind === 'fits') return null
  const buy = toBuy && advised ? buyWords(toBuy, advised, over, unit) : null
  if (shown)
    return `${pieceName(shown.piece)} ${fitSaid(shown.fit, unit)}${shown.fit.isTurned ? ', turned' : ''}${buy ? `; or ${buy}` : ''}.`
  if (buy) return `Nothing held takes it: ${buy}.`
  return 'Nothing held takes it.'
}
