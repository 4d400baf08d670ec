import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { BuyingRefused } from './buying-refusal'

/**
 * Call a list something else, or note something about it.
 *
 * @param input.version  what the person saw; left out, it is taken as it stands
 * @throws {RangeError} if the title is blank.
 */
export function changeBuyList(input: {
  listId: string
  version?: number
  title: string
  note: string | null
}): Promise<Result<null, BuyingRefused>> {
  const { listId, version, note } = input
  const title = input.title.trim()
  if (title === '') throw new RangeError('changeBuyList: no title')
  return write<null, BuyingRefused>(async ({ tx }) => {
    const list = await tx.buyList.findUnique({ where: { id: listId }, select: { version: true } })
    if (!list) return refused({ kind: 'no-such-list', listId })
    const claimed = await tx.buyList.updateMany({
      where: { id: listId, version: version ?? list.version },
      data: { title, note, version: { increment: 1 } },
    })
    return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok(null)
  })
}
