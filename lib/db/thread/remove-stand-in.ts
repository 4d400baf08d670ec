import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { ThreadRefusal } from './thread-refusal'

export function removeStandIn(standInId: string): Promise<Result<{ threadId: string }, ThreadRefusal>> {
  return write<{ threadId: string }, ThreadRefusal>(async ({ tx, touch }) => {
    const pair = await tx.standIn.findUnique({ where: { id: standInId }, select: { threadId: true } })
    if (!pair) return refused({ kind: 'no-such-stand-in' })
    await tx.standIn.delete({ where: { id: standInId } })
    touch('standIn', standInId)
    touch('thread', pair.threadId)
    return ok(pair)
  })
}
