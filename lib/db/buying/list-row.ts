import 'server-only'
import type { ShopListStatus } from '#lib/planning/buying/shop-list'
import { ok, type Result, refused } from '#lib/result'
import type { Write } from '../write-gate'
import type { ListClosed, NoSuchList } from './buying-refusal'

export type OpenList = { id: string; title: string; ownerId: string; version: number }

/** An open list as it stands in this write, with its version raised: everybody who has it open reads it again. */
export async function claimOpenList({ tx }: Write, listId: string): Promise<Result<OpenList, NoSuchList | ListClosed>> {
  const list = await tx.buyList.findUnique({
    where: { id: listId },
    select: { id: true, title: true, ownerId: true, status: true, version: true },
  })
  if (!list) return refused({ kind: 'no-such-list', listId })
  const { status, ...open } = list
  if (status !== 'open') return refused({ kind: 'list-closed', status: status as ShopListStatus })
  await tx.buyList.update({ where: { id: listId }, data: { version: { increment: 1 } } })
  return ok({ ...open, version: open.version + 1 })
}
