import type { ListAnswer } from '#lib/coverage/design-cover'
import type { LineStatus } from '#lib/coverage/line-status'
import { counted } from './amounts'

/** How a whole list stands: the state its tray shows, a word, and the rest of the count. */
export function listStateWords(answer: ListAnswer): { state: LineStatus; word: string; note: string | null } {
  const { threadCount, readyCount, swapCount, elsewhereCount, unknownCount, lotsCount, shortPutUps } = answer
  if (threadCount === 0) return { state: 'unknown', word: 'No thread list', note: 'its key is not in yet' }
  if (answer.isIncomplete)
    return { state: 'unknown', word: 'List incomplete', note: `${readyCount} of the ${threadCount} that are in ready` }
  if (answer.isStitchable) {
    return {
      state: answer.status,
      word: `All ${threadCount} ready`,
      note: answer.status === 'mixed' ? 'some in mixed lots' : null,
    }
  }
  const note = `${readyCount} of ${threadCount} ready`
  if (answer.isStitchableWithSwaps) return { state: 'swap', word: counted(swapCount, 'swap'), note }
  if (answer.shortCount > 0) return { state: answer.status === 'none' ? 'none' : 'short', word: `Short by ${shortPutUps}`, note }
  if (lotsCount > 0)
    return { state: 'lots', word: lotsCount === 1 ? "1 whose lots don't match" : `${lotsCount} whose lots don't match`, note }
  if (elsewhereCount > 0) return { state: 'elsewhere', word: `${elsewhereCount} elsewhere`, note }
  return { state: 'unknown', word: `${unknownCount} of unknown amount`, note }
}

/** The counts of a list that is not all ready, in the order they weigh: "3 of 8 threads ready, 1 swap held, 1 elsewhere …". */
export function countPhrases(answer: ListAnswer): string[] {
  const { threadCount, readyCount, swapCount, elsewhereCount, unknownCount, lotsCount } = answer
  return [
    `${readyCount} of ${counted(threadCount, 'thread')} ready`,
    ...(swapCount > 0 ? [`${counted(swapCount, 'swap')} held`] : []),
    ...(unknownCount > 0 ? [`${unknownCount} of unknown amount`] : []),
    ...(elsewhereCount > 0 ? [`${elsewhereCount} out or promised`] : []),
    ...(answer.isIncomplete ? ['some of its key not in'] : []),
    ...(lotsCount > 0 ? [lotsCount === 1 ? "1 whose lots don't match" : `${lotsCount} whose lots don't match`] : []),
  ]
}
