import 'server-only'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import type { BuyingRefused } from './buying-refusal'
import { claimOpenList } from './list-row'
import { insertNewLines, type NewLine } from './new-lines'

/**
 * Put more lines on an open list: threads by their ids, or plain words ("needles 26"). A line whose id is on record is passed over.
 *
 * @throws {RangeError} as `insertNewLines`
 */
export function addBuyLines(input: {
  listId: string
  lines: readonly NewLine[]
}): Promise<Result<{ lineIds: string[] }, BuyingRefused>> {
  return write<{ lineIds: string[] }, BuyingRefused>(async (writing) => {
    const list = await claimOpenList(writing, input.listId)
    if (!list.ok) return list
    const added = await insertNewLines(writing, input.listId, input.lines)
    return added.ok ? ok({ lineIds: added.value }) : added
  })
}
