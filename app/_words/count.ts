import { numberText } from '#language/figures'
import type { CountRefusal } from '#lib/db/count/count-refusal'
import type { SwapNearness } from '#lib/stock/stocktake'
import { counted } from './amounts'

/** A part of a whole to a tenth of a percent: "14.8 %", "60 %"; nothing of nothing is no figure. */
export const shareWords = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${numberText(Math.round((part * 1_000) / whole) / 10)}\u00a0%`

/** What the journal says of a correction. */
export const correctionWords = (corrected: { title: string; expected: number; counted: number }): string =>
  `Count of ${corrected.title}: ${corrected.counted} counted, the record said ${corrected.expected}`

export const nearnessWords: Record<SwapNearness, string> = {
  'same-thread': 'the same thread',
  'same-place': 'in one place',
  'neighbouring-place': 'side by side',
  'neighbouring-code': 'neighbours in the order of codes',
}

/** Why something was not done about a count, in words. */
export function describeCountRefusal(refusal: CountRefusal): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return 'There is no such place.'
    case 'nothing-there':
      return 'By the record no thread lies there, so there is nothing to count.'
    case 'too-many':
      return `${counted(refusal.lines, 'batch')} lie there, more than the ${counted(refusal.most, 'line')} of one count. Count the places inside it one at a time.`
    case 'already-counting':
      return `${refusal.title} is being counted and not signed off yet; it covers some of the same places.`
    case 'no-such-count':
      return 'There is no such count.'
    case 'not-open':
      return refusal.status === 'counted'
        ? 'Counting is over. A line can be sent to be counted again from the comparison.'
        : `The count is ${refusal.status === 'signed' ? 'signed off' : 'given up'}.`
    case 'no-such-line':
      return 'That line is not on the sheet any more.'
    case 'not-in-count':
      return 'That place is not inside what is counted.'
    case 'nothing-counted':
      return 'Nothing is counted yet.'
    case 'not-compared':
      return refusal.status === 'open'
        ? 'It is still being counted.'
        : `The count is ${refusal.status === 'signed' ? 'signed off' : 'given up'}.`
    case 'undecided':
      return `${counted(refusal.lines, 'line')} ${refusal.lines === 1 ? 'is' : 'are'} not decided yet.`
    case 'own-work':
      return 'Who counted does not sign it off: ask another person.'
    case 'not-different':
      return 'The count and the record agree there, or nobody counted it.'
    case 'decided-already':
      return 'The record is corrected there already.'
    case 'not-on-record':
      return 'It is not on the record there. Take it into stock or move it on its thread’s page, then leave the line.'
    case 'moved-since':
      return 'Its stock moved after the count began, so the figure may be of before or after. Count it again.'
    case 'changed-meanwhile':
      return 'It was changed meanwhile. Look at it again.'
  }
}
