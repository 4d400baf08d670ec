import { say } from '#language/say'
import type { ListAnswer } from '#lib/coverage/design-cover'
import type { LineStatus } from '#lib/coverage/line-status'
import { counted } from './amounts'

/** How a whole list stands: the state its tray shows, a word, and the rest of the count. */
export function listStateWords(answer: ListAnswer): { state: LineStatus; word: string; note: string | null } {
  const { threadCount, readyCount, swapCount, elsewhereCount, unknownCount, lotsCount, shortPutUps } = answer
  if (threadCount === 0) return { state: 'unknown', word: say('No thread list'), note: say('its key is not in yet') }
  if (answer.isIncomplete)
    return {
      state: 'unknown',
      word: say('List incomplete'),
      note: say('{readyCount} of the {threadCount} that are in ready', { readyCount, threadCount }),
    }
  if (answer.isStitchable) {
    return {
      state: answer.status,
      word: say('All {threadCount} ready', { threadCount }),
      note: answer.status === 'mixed' ? say('some in mixed lots') : null,
    }
  }
  const note = say('{readyCount} of {threadCount} ready', { readyCount, threadCount })
  if (answer.isStitchableWithSwaps) return { state: 'swap', word: counted(swapCount, 'swap'), note }
  if (answer.shortCount > 0)
    return { state: answer.status === 'none' ? 'none' : 'short', word: say('Short by {shortPutUps}', { shortPutUps }), note }
  if (lotsCount > 0)
    return {
      state: 'lots',
      word: lotsCount === 1 ? say("1 whose lots don't match") : say("{lotsCount} whose lots don't match", { lotsCount }),
      note,
    }
  if (elsewhereCount > 0) return { state: 'elsewhere', word: say('{elsewhereCount} elsewhere', { elsewhereCount }), note }
  return { state: 'unknown', word: say('{unknownCount} of unknown amount', { unknownCount }), note }
}

/** The counts of a list that is not all ready, in the order they weigh: "3 of 8 threads ready, 1 swap held, 1 elsewhere …". */
export function countPhrases(answer: ListAnswer): string[] {
  const { threadCount, readyCount, swapCount, elsewhereCount, unknownCount, lotsCount } = answer
  return [
    say('{readyCount} of {threadCount, plural, one {# thread} other {# threads}} ready', { readyCount, threadCount }),
    ...(swapCount > 0 ? [say('{swapCount, plural, one {# swap} other {# swaps}} held', { swapCount })] : []),
    ...(unknownCount > 0 ? [say('{unknownCount} of unknown amount', { unknownCount })] : []),
    ...(elsewhereCount > 0 ? [say('{elsewhereCount} out or promised', { elsewhereCount })] : []),
    ...(answer.isIncomplete ? [say('some of its key not in')] : []),
    ...(lotsCount > 0
      ? [lotsCount === 1 ? say("1 whose lots don't match") : say("{lotsCount} whose lots don't match", { lotsCount })]
      : []),
  ]
}
