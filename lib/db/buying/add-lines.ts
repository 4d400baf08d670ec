import 'server-only'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import type { Write } from '../write-gate'
import type { BuyingRefused } from './buying-refusal'
import { claimOpenList } from './list-row'
import { insertNewLines, type NewLine } from './new-lines'

/**
 * Put more lines on an open list: threads by their ids, or plain words ("needles 26"). A line whose id is on record is passed over.
 *
 * @param input.isOnceEach  threads that stand open on the list already are passed over too
 * @returns the lines that were asked for and are on it
 * @throws {RangeError} as `insertNewLines`
 */
export function addBuyLines(input: {
  listId: string
  lines: readonly NewLine[]
  isOnceEach?: boolean
}): Promise<Result<{ lineIds: string[] }, BuyingRefused>> {
  return write<{ lineIds: string[] }, BuyingRefused>(async (writing) => {
    const list = await claimOpenList(writing, input.listId)
    if (!list.ok) return list
    const open = input.isOnceEach ? await openThreadsOf(writing, input.listId) : new Set<string>()
    const lines = input.lines.filter(({ thread }) => thread === null || !open.has(thread.threadId))
    const added = await insertNewLines(writing, input.listId, lines)
    return added.ok ? ok({ lineIds: added.value }) : added
  })
}

async function openThreadsOf({ tx }: Write, listId: string): Promise<Set<string>> {
  const where = { buyListId: listId, status: 'open', threadId: { not: null } }
  const lines = await tx.buyListLine.findMany({ where, select: { threadId: true } })
  return new Set(lines.flatMap(({ threadId }) => threadId ?? []))
}
