import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { type ThreadFacts, threadData } from './add-thread'
import { findFormerThread } from './former-threads'
import type { ThreadRefusal } from './thread-refusal'

/** Change what a thread is called, looks like, or is kept in stock of; its line stays. */
export function editThread(input: ThreadFacts & { threadId: string; version: number }): Promise<Result<null, ThreadRefusal>> {
  return write<null, ThreadRefusal>(async ({ tx, touch }) => {
    const { threadId, version, ...facts } = input
    const thread = await tx.thread.findFirst({ where: { id: threadId, goneAt: null }, select: { lineId: true } })
    if (!thread) return refused({ kind: 'no-such-thread', threadId })
    const namesake = await tx.thread.findUnique({
      where: { lineId_code: { lineId: thread.lineId, code: facts.code } },
      select: { id: true },
    })
    if (namesake && namesake.id !== threadId) return refused({ kind: 'code-taken', threadId: namesake.id, code: facts.code })
    const former = await findFormerThread(tx, { lineId: thread.lineId, code: facts.code })
    if (former !== null && former !== threadId) return refused({ kind: 'code-taken', threadId: former, code: facts.code })
    const claimed = await tx.thread.updateMany({
      where: { id: threadId, version },
      data: { ...threadData(facts), version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('thread', threadId)
    return ok(null)
  })
}
