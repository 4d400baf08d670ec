import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { write } from '../write'
import type { ThreadRefusal } from './thread-refusal'

export type StandInRefused = Extract<ThreadRefusal, { kind: 'no-such-thread' | 'stands-for-itself' | 'stand-in-known' }>

/** Record that one thread may stand in for another: one way, never chained, with who says so. */
export function addStandIn(input: {
  threadId: string
  standInThreadId: string
  source: string | null
}): Promise<Result<{ standInId: string }, StandInRefused>> {
  return write<{ standInId: string }, StandInRefused>(async ({ tx, touch }) => {
    const { threadId, standInThreadId, source } = input
    if (threadId === standInThreadId) return refused({ kind: 'stands-for-itself' })
    for (const id of [threadId, standInThreadId]) {
      if ((await tx.thread.count({ where: { id, goneAt: null } })) === 0) return refused({ kind: 'no-such-thread', threadId: id })
    }
    const pair = { threadId, standInThreadId }
    if (await tx.standIn.findUnique({ where: { threadId_standInThreadId: pair } })) return refused({ kind: 'stand-in-known' })
    const standInId = newId()
    await tx.standIn.create({ data: { id: standInId, ...pair, source } })
    touch('standIn', standInId)
    touch('thread', threadId)
    return ok({ standInId })
  })
}
