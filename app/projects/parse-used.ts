import { say } from '#language/say'
import type { Leftover } from '#lib/db/project/finish-leftovers'
import type { FinishThread } from '#lib/db/project/finish-sheet'
import { type LeftoverHow, leftoverHows } from '#lib/project/plan-finish'
import { parseNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { threadLength } from '#words/amounts'
import { threadName } from '#words/thread'

export const usedField = (threadId: string) => `used.${threadId}`
export const allField = (threadId: string) => `all.${threadId}`
export const howField = (threadId: string) => `how.${threadId}`
export const leftField = (threadId: string) => `left.${threadId}`
/** Whether a piece of cloth kept for the project was used. */
export const keptField = (clothPieceId: string) => `kept.${clothPieceId}`
export const missingField = (batchId: string) => `missing.${batchId}`

/** What stands in a thread's box at first: the need, as far as there is thread for it. */
export const usedAtFirst = ({ needStrandTenths, heldStrandTenths, thread }: FinishThread, unit: ThreadLengthUnit): string =>
  threadLength(Math.min(needStrandTenths, heldStrandTenths), thread.strands, unit)

type Used = {
  used: { threadId: string; strandTenths: number | 'all' }[]
  leftovers: Leftover[]
  missingBatchIds: string[]
  fieldErrors: Record<string, string[]>
}

/**
 * What was used of each thread, as the finishing form says it. A box left as it stood says nothing, so that the need counts exactly
 * and not as it was rounded for showing. What was measured or weighed of the rest goes before what the box says.
 */
export function parseUsed(values: Record<string, string>, threads: readonly FinishThread[], unit: ThreadLengthUnit): Used {
  const parsed: Used = { used: [], leftovers: [], missingBatchIds: [], fieldErrors: {} }
  for (const row of threads) {
    const { id: threadId, strands } = row.thread
    for (const { batch } of row.pulled) if (values[missingField(batch.id)] !== undefined) parsed.missingBatchIds.push(batch.id)
    const how = leftoverHows.find((known) => known === values[howField(threadId)])
    const left = values[leftField(threadId)]?.trim() ?? ''
    if (how || left !== '') {
      const leftover = how ? readLeftover(how, left, row, unit) : null
      if (leftover) parsed.leftovers.push(leftover)
      else parsed.fieldErrors[how ? leftField(threadId) : howField(threadId)] = [`${threadName(row.thread)}: ${leftWords(how)}`]
      continue
    }
    if (values[allField(threadId)] !== undefined) {
      parsed.used.push({ threadId, strandTenths: 'all' })
      continue
    }
    const text = values[usedField(threadId)]?.trim()
    if (text === undefined || text === usedAtFirst(row, unit)) continue
    const length = text === '' ? 0 : parseThreadLength(text, unit)
    if (length === null)
      parsed.fieldErrors[usedField(threadId)] = [
        say('{threadName}: give a length such as 1.5 m or 2 yd, or 0.', { threadName: threadName(row.thread) }),
      ]
    else parsed.used.push({ threadId, strandTenths: length * strands })
  }
  return parsed
}

/** Heavier is a slip of the finger. */
const mostGrams = 100_000

function readLeftover(how: LeftoverHow, text: string, { thread }: FinishThread, unit: ThreadLengthUnit): Leftover | null {
  const { id: threadId, strands } = thread
  if (how === 'measured') {
    const length = parseThreadLength(text, unit)
    return length === null ? null : { threadId, how, strandTenths: length * strands }
  }
  const grams = parseNumber(text.replace(/\s*(?:g|grams?)\.?$/iu, ''))
  return grams === null || grams < 0 || grams > mostGrams ? null : { threadId, how, milligrams: Math.round(grams * 1_000) }
}

function leftWords(how: LeftoverHow | undefined): string {
  if (how === undefined) return say('say whether what is left was measured or weighed, or clear the box.')
  return how === 'measured'
    ? say('give the length that is left, such as 1.5 m, or 0.')
    : say('give the grams that are left, such as 0.8, or 0.')
}
