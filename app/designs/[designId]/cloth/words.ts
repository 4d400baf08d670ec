import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import type { AdvisedCloth } from '#lib/chart/design'
import type { BleedReason, BleedRisk } from '#lib/cloth/care'
import type { ClothContrast } from '#lib/cloth/contrast'
import type { CutSize } from '#lib/cloth/finished-size'
import type { PieceFit } from '#lib/cloth/fit'
import type { Motifs } from '#lib/cloth/motifs'
import { isAllReserved } from '#lib/cloth/on-every-count'
import type { CountAnswer, DesignCloth, ShownPiece } from '#lib/coverage/design-cloth'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted, listed } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { countWords } from '#words/cloth-count'
import { fitSaid, overWords } from '#words/cloth-size'

const exact = (cut: CutSize) => ({ widthUm: Math.ceil(cut.exactWidthUm), heightUm: Math.ceil(cut.exactHeightUm) })

/** " 6 motifs, 3 across and 2 down, 11 threads between,"; nothing for one. */
export const motifWords = ({ across, down, gapThreads }: Motifs): string =>
  across * down === 1
    ? ''
    : say(' {across} motifs, {across2} across and {down} down, {rest} between,', {
        across: across * down,
        across2: across,
        down,
        rest: gapThreads === 0 ? say('nothing') : counted(gapThreads, 'thread'),
      })

/** What one is told to cut: the rounded size, or the exact one where that would not come out of the piece. */
export const cutToTell = (fit: PieceFit): { widthUm: number; heightUm: number } =>
  fit.kind === 'fits' && fit.nothingToSpare ? exact(fit.cut) : fit.cut

/** "Buy 16 × 13 in of evenweave, 28 count over two". */
function buyWords(toBuy: CutSize, advised: AdvisedCloth, over: 1 | 2, unit: LengthUnit): string {
  return say('buy {toBuy} of {name}, {count} {over}', {
    toBuy: formatClothSize(toBuy, unit),
    name: advised.name ?? say('cloth'),
    count: countWords(advised.count, advised.count),
    over: overWords(over),
  })
}

/** Both ways round of the piece shown, each with what stands against it. */
export function waysRound({ piece, upright, turned }: ShownPiece, unit: LengthUnit): { label: string; value: string }[] {
  const both = [
    { label: say('Upright'), value: fitSaid(upright, unit) },
    {
      label: say('Turned'),
      value: piece.isTurnable
        ? fitSaid(turned, unit)
        : say('it may not be turned; if it could: {fit}', { fit: fitSaid(turned, unit) }),
    },
  ]
  return both
}

/** A row of the table of counts: its fit, only turned where that is so, and what keeps it from being cut. */
export function countFitWords(count: CountAnswer, unit: LengthUnit): string {
  const { fit } = count
  const said =
    fit.kind === 'too-small'
      ? fitSaid(fit, unit)
      : `${fitSaid(fit, unit)}${fit.isTurned ? (count.isOnlyTurned ? say(', only turned') : say(', turned')) : ''}`
  return isAllReserved(count) ? say('kept for something else; it {said}', { said }) : said
}

/** How many pieces there are of it: "3 pieces, 1 reserved". */
export const pieceCountWords = ({ pieceCount, reservedCount }: CountAnswer): string =>
  `${counted(pieceCount, 'piece')}${reservedCount > 0 ? say(', {reservedCount} reserved', { reservedCount }) : ''}`

/** Which threads are hard to see on a cloth; null where all show. */
export function contrastWords(
  contrast: ClothContrast,
  codeOf: (threadId: string) => string,
): { title: string; rest: string } | null {
  if (contrast.kind === 'cloth-not-known')
    return {
      title: say('Whether the threads show on it is not judged'),
      rest: say('The colour of this piece is not on record. Lay the threads on it in daylight.'),
    }
  const unjudged =
    contrast.notKnownIds.length > 0
      ? say('Not judged, for want of a recorded colour: {notKnownIds}.', {
          notKnownIds: listed(contrast.notKnownIds.map(codeOf)),
        })
      : ''
  if (contrast.faint.length === 0)
    return unjudged === '' ? null : { title: say('Not every thread is judged on this cloth'), rest: unjudged }
  const codes = contrast.faint.map(({ threadId, gap }) =>
    say('{codeOf} ({gap} apart)', { codeOf: codeOf(threadId), gap: Number(gap.toFixed(1)) }),
  )
  return {
    title: say('Hard to see on this cloth: {codes}', { codes: listed(codes) }),
    rest: say('In lightness they lie less than {least} from it. Lay them on it in daylight; the design may mean it so.{rest}', {
      least: contrast.least,
      rest: unjudged === '' ? '' : ` ${unjudged}`,
    }),
  }
}

const runsBecause: Record<BleedReason | 'bled', string> = sayings({
  'hand-dyed': 'it is hand-dyed',
  red: 'it is red',
  dark: 'it is dark',
  bled: 'it ran when it was tested',
})

/** What may run on this cloth; null where nothing need be feared. */
export function bleedWords({ cloth, threads }: BleedRisk, codeOf: (threadId: string) => string): string | null {
  const own = cloth && say('This cloth may run: {runsBecause}.', { runsBecause: runsBecause[cloth] })
  const theirs =
    threads.length > 0 && say('Threads that may run: {threads}.', { threads: listed(threads.map(({ id }) => codeOf(id))) })
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
    return say('{pieceName} {fitSaid}{isTurned, select, yes {, turned} other {}}{rest}.', {
      pieceName: pieceName(shown.piece),
      fitSaid: fitSaid(shown.fit, unit),
      isTurned: shown.fit.isTurned,
      rest: buy ? say('; or {buy}', { buy }) : '',
    })
  if (buy) return say('Nothing held takes it: {buy}.', { buy })
  return say('Nothing held takes it.')
}
