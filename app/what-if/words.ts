import { numberText } from '#language/figures'
import type { DesignState } from '#lib/coverage/engine'
import type { LineStatus } from '#lib/coverage/line-status'
import type { Outcome } from '#lib/coverage/what-if-outcome'
import type { Bag, NotSupposed } from '#lib/db/coverage/what-if'
import { trayWords } from '#trade/tray'
import { counted, listed } from '#words/amounts'

const number = (count: number) => numberText(count)

/** "4 designs could be stitched that cannot now, 2 with swaps; 11 come nearer, 1 wants more." */
export function answerWords(counts: Record<Outcome, number>): string {
  const { opened, openedWithSwaps, nearer, worse } = counts
  if (opened + openedWithSwaps + nearer + worse === 0) {
    return counts.inPart === 0
      ? 'No design would stand otherwise.'
      : `No design would be opened or come nearer; ${counted(counts.inPart, 'design')} would stand otherwise in a part only.`
  }
  const open = [
    `${counted(opened, 'design')} would become stitchable`,
    ...(openedWithSwaps > 0 ? [`${number(openedWithSwaps)} more with swaps`] : []),
    ...(nearer > 0 ? [`${number(nearer)} would come nearer`] : []),
    ...(worse > 0 ? [`${number(worse)} would want more than now`] : []),
  ]
  return `${opened === 0 ? listed(open).replace(/^0 designs/, 'No design') : listed(open)}.`
}

export const outcomeTitles: Record<Outcome, string> = {
  opened: 'Would become stitchable',
  openedWithSwaps: 'Would become stitchable with swaps',
  nearer: 'Would come nearer',
  worse: 'Would want more than now',
  inPart: 'Would stand otherwise in a part only',
}

export const outcomeNotes: Record<Outcome, string | undefined> = {
  opened: 'Every thread free, nothing more to buy.',
  openedWithSwaps: 'With the stand-ins you accepted.',
  nearer: 'Fewest left to buy first.',
  worse: 'Bought in another lot, a thread whose lots matter must be bought again, all of it in one lot.',
  inPart: 'One of its threads would be ready, or be of a better lot; as much is to be bought as now.',
}

/** How a design stands: the tray's state and its word. */
export function stateWords({ status, isStitchable, isStitchableWithSwaps, buyPutUps }: DesignState): {
  state: LineStatus
  word: string
} {
  if (isStitchable) return { state: status, word: status === 'mixed' ? 'Stitchable, mixed lots' : 'Stitchable' }
  if (isStitchableWithSwaps) return { state: 'swap', word: 'With swaps' }
  if (status === 'lots') return { state: status, word: `${trayWords.lots}, ${number(buyPutUps)} to buy` }
  if (buyPutUps > 0) return { state: status, word: `${number(buyPutUps)} to buy` }
  if (status === 'elsewhere') return { state: status, word: 'Out or promised' }
  return { state: status, word: trayWords[status] }
}

/** "in K-07, 5 batches promised to it, 1 more lying there". */
export function bagWords({ place, promisedCount, lyingCount }: Pick<Bag, 'place' | 'promisedCount' | 'lyingCount'>): string {
  const promised = promisedCount > 0 ? `${counted(promisedCount, 'batch')} promised to it` : ''
  const lying =
    lyingCount > 0 ? `${promisedCount > 0 ? `${number(lyingCount)} more` : counted(lyingCount, 'batch')} lying there` : ''
  const held = [promised, lying].filter(Boolean)
  return [
    place && `${place.kind === 'person' || place.kind === 'framer' ? 'with' : 'in'} ${place.label}`,
    ...(held.length > 0 ? held : ['nothing in it']),
  ]
    .filter(Boolean)
    .join(', ')
}

/** Why a part of the question was left out. */
export function notSupposedWords(one: NotSupposed): string {
  switch (one.kind) {
    case 'no-such-thread':
      return 'One of the threads in this address is not on record, or was removed; it is left out.'
    case 'no-such-project':
      return 'One of the projects in this address is not on record for the owner shown; it is left out.'
    case 'empty-bag':
      return `${one.title} has neither a bag nor anything promised to it, so there is nothing to unpack.`
  }
}
