import type { FinishThread } from '#lib/db/project/finish-sheet'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { threadLength } from '#words/amounts'
import { threadName } from '#words/thread'

export const usedField = (threadId: string) => `used.${threadId}`
export const allField = (threadId: string) => `all.${threadId}`
export const missingField = (batchId: string) => `missing.${batchId}`

/** What stands in a thread's box at first: the need, as far as there is thread for it. */
export const usedAtFirst = ({ needStrandTenths, heldStrandTenths, thread }: FinishThread, unit: ThreadLengthUnit): string =>
  threadLength(Math.min(needStrandTenths, heldStrandTenths), thread.strands, unit)

type Used = {
  used: { threadId: string; strandTenths: number | 'all' }[]
  missingBatchIds: string[]
  fieldErrors: Record<string, string[]>
}

/**
 * What was used of each thread, as the finishing form says it. A box left as it stood says nothing, so that the need counts exactly
 * and not as it was rounded for showing.
 */
export function parseUsed(values: Record<string, string>, threads: readonly FinishThread[], unit: ThreadLengthUnit): Used {
  const parsed: Used = { used: [], missingBatchIds: [], fieldErrors: {} }
  for (const row of threads) {
    const { id: threadId, strands } = row.thread
    for (const { batch } of row.pulled) if (values[missingField(batch.id)] !== undefined) parsed.missingBatchIds.push(batch.id)
    if (values[allField(threadId)] !== undefined) {
      parsed.used.push({ threadId, strandTenths: 'all' })
      continue
    }
    const text = values[usedField(threadId)]?.trim()
    if (text === undefined || text === usedAtFirst(row, unit)) continue
    const length = text === '' ? 0 : parseThreadLength(text, unit)
    if (length === null)
      parsed.fieldErrors[usedField(threadId)] = [`${threadName(row.thread)}: give a length such as 1.5 m or 2 yd, or 0.`]
    else parsed.used.push({ threadId, strandTenths: length * strands })
  }
  return parsed
}
