import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
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
      ? say('No design would stand otherwise.')
      : say(
          'No design would be opened or come nearer; {inPart, plural, one {# design} other {# designs}} would stand otherwise in a part only.',
          { inPart: counts.inPart },
        )
  }
  const open = [
    say('{opened, plural, one {# design} other {# designs}} would become stitchable', { opened }),
    ...(openedWithSwaps > 0 ? [say('{number} more with swaps', { number: number(openedWithSwaps) })] : []),
    ...(nearer > 0 ? [say('{number} would come nearer', { number: number(nearer) })] : []),
    ...(worse > 0 ? [say('{number} would want more than now', { number: number(worse) })] : []),
  ]
  return `${opened === 0 ? listed(open).replace(/^0 designs/, 'No design') : listed(open)}.`
}

export const outcomeTitles: Record<Outcome, string> = sayings({
  opened: 'Would become stitchable',
  openedWithSwaps: 'Would become stitchable with swaps',
  nearer: 'Would come nearer',
  worse: 'Would want more than now',
  inPart: 'Would stand otherwise in a part only',
})

export const outcomeNotes: Record<Outcome, string | undefined> = sayings({
  opened: 'Every thread free, nothing more to buy.',
  openedWithSwaps: 'With the stand-ins you accepted.',
  nearer: 'Fewest left to buy first.',
  worse: 'Bought in another lot, a thread whose lots matter must be bought again, all of it in one lot.',
  inPart: 'One of its threads would be ready, or be of a better lot; as much is to be bought as now.',
})

/** How a design stands: the tray's state and its word. */
export function stateWords({ status, isStitchable, isStitchableWithSwaps, buyPutUps }: DesignState): {
  state: LineStatus
  word: string
} {
  if (isStitchable) return { state: status, word: status === 'mixed' ? say('Stitchable, mixed lots') : say('Stitchable') }
  if (isStitchableWithSwaps) return { state: 'swap', word: say('With swaps') }
  if (status === 'lots')
    return { state: status, word: say('{lots}, {number} to buy', { lots: trayWords.lots, number: number(buyPutUps) }) }
  if (buyPutUps > 0) return { state: status, word: say('{number} to buy', { number: number(buyPutUps) }) }
  if (status === 'elsewhere') return { state: status, word: say('Out or promised') }
  return { state: status, word: trayWords[status] }
}

/** "in K-07, 5 batches promised to it, 1 more lying there". */
export function bagWords({ place, promisedCount, lyingCount }: Pick<Bag, 'place' | 'promisedCount' | 'lyingCount'>): string {
  const promised =
    promisedCount > 0 ? say('{promisedCount, plural, one {# batch} other {# batches}} promised to it', { promisedCount }) : ''
  const lying =
    lyingCount > 0
      ? say('{rest} lying there', {
          rest: promisedCount > 0 ? say('{number} more', { number: number(lyingCount) }) : counted(lyingCount, 'batch'),
        })
      : ''
  const held = [promised, lying].filter(Boolean)
  return [
    place &&
      say('{kindCase, select, yes {with} other {in}} {label}', {
        kindCase: place.kind === 'person' || place.kind === 'framer',
        label: place.label,
      }),
    ...(held.length > 0 ? held : [say('nothing in it')]),
  ]
    .filter(Boolean)
    .join(', ')
}

/** Why a part of the question was left out. */
export function notSupposedWords(one: NotSupposed): string {
  switch (one.kind) {
    case 'no-such-thread':
      return say('One of the threads in this address is not on record, or was removed; it is left out.')
    case 'no-such-project':
      return say('One of the projects in this address is not on record for the owner shown; it is left out.')
    case 'empty-bag':
      return say('{title} has neither a bag nor anything promised to it, so there is nothing to unpack.', { title: one.title })
  }
}
