import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { BuyingRefused } from './buying-refusal'
import { claimOpenList } from './list-row'

/** Take a line off an open list. One that was bought stays: its stock came by it. */
export function removeBuyLine(input: { listId: string; lineId: string }): Promise<Result<null, BuyingRefused>> {
  return write<null, BuyingRefused>(async (writing) => {
    const { tx } = writing
    const { listId, lineId } = input
    const list = await claimOpenList(writing, listId)
    if (!list.ok) return list
    const line = await tx.buyListLine.findFirst({
      where: { id: lineId, buyListId: listId },
      select: { status: true, carriedAt: true },
    })
    if (!line) return refused({ kind: 'no-such-line', lineId })
    if (line.carriedAt !== null || line.status === 'bought' || line.status === 'instead')
      return refused({ kind: 'line-bought', lineId })
    await tx.buyListLine.delete({ where: { id: lineId } })
    return ok(null)
  })
}
