import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { CountRefusal } from '#lib/db/count/count-refusal'
import type { SwapNearness } from '#lib/stock/stocktake'

/** A part of a whole to a tenth of a percent: "14.8 %", "60 %"; nothing of nothing is no figure. */
export const shareWords = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${numberText(Math.round((part * 1_000) / whole) / 10)}\u00a0%`

/** What the journal says of a correction. */
export const correctionWords = (corrected: { title: string; expected: number; counted: number }): string =>
  say('Count of {title}: {counted} counted, the record said {expected}', {
    title: corrected.title,
    counted: corrected.counted,
    expected: corrected.expected,
  })

export const nearnessWords: Record<SwapNearness, string> = sayings({
  'same-thread': 'the same thread',
  'same-place': 'in one place',
  'neighbouring-place': 'side by side',
  'neighbouring-code': 'neighbours in the order of codes',
})

/** Why something was not done about a count, in words. */
export function describeCountRefusal(refusal: CountRefusal): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return say('There is no such place.')
    case 'nothing-there':
      return say('By the record no thread lies there, so there is nothing to count.')
    case 'too-many':
      return say(
        '{lines, plural, one {# batch} other {# batches}} lie there, more than the {most, plural, one {# line} other {# lines}} of one count. Count the places inside it one at a time.',
        { lines: refusal.lines, most: refusal.most },
      )
    case 'already-counting':
      return say('{title} is being counted and not signed off yet; it covers some of the same places.', { title: refusal.title })
    case 'no-such-count':
      return say('There is no such count.')
    case 'not-open':
      return refusal.status === 'counted'
        ? say('Counting is over. A line can be sent to be counted again from the comparison.')
        : say('The count is {isSigned, select, yes {signed off} other {given up}}.', { isSigned: refusal.status === 'signed' })
    case 'no-such-line':
      return say('That line is not on the sheet any more.')
    case 'not-in-count':
      return say('That place is not inside what is counted.')
    case 'nothing-counted':
      return say('Nothing is counted yet.')
    case 'not-compared':
      return refusal.status === 'open'
        ? say('It is still being counted.')
        : say('The count is {isSigned, select, yes {signed off} other {given up}}.', { isSigned: refusal.status === 'signed' })
    case 'undecided':
      return say('{lines, plural, one {# line} other {# lines}} {lines, plural, one {is} other {are}} not decided yet.', {
        lines: refusal.lines,
      })
    case 'own-work':
      return say('Who counted does not sign it off: ask another person.')
    case 'not-different':
      return say('The count and the record agree there, or nobody counted it.')
    case 'decided-already':
      return say('The record is corrected there already.')
    case 'not-on-record':
      return say('It is not on the record there. Take it into stock or move it on its thread’s page, then leave the line.')
    case 'moved-since':
      return say('Its stock moved after the count began, so the figure may be of before or after. Count it again.')
    case 'changed-meanwhile':
      return say('It was changed meanwhile. Look at it again.')
  }
}
