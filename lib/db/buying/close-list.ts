import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { BuyingRefused } from './buying-refusal'
import { claimOpenList } from './list-row'

/** End a list, or drop it: what was bought stays in stock, and what is open is no longer counted on. */
export function closeBuyList(input: {
  listId: string
  status: 'done' | 'dropped'
  who?: string | null
}): Promise<Result<null, BuyingRefused>> {
  return write<null, BuyingRefused>(async (writing) => {
    const { listId, status, who = null } = input
    const list = await claimOpenList(writing, listId)
    if (!list.ok) return list
    await writing.tx.buyList.update({ where: { id: listId }, data: { status, closedAt: writing.at, closedBy: who } })
    return ok(null)
  })
}

/** Shop by a closed list again. */
export function reopenBuyList(input: { listId: string }): Promise<Result<null, BuyingRefused>> {
  return write<null, BuyingRefused>(async ({ tx }) => {
    const { listId } = input
    const list = await tx.buyList.findUnique({ where: { id: listId }, select: { status: true } })
    if (!list) return refused({ kind: 'no-such-list', listId })
    await tx.buyList.update({
      where: { id: listId },
      data: { status: 'open', closedAt: null, closedBy: null, version: { increment: 1 } },
    })
    return ok(null)
  })
}
