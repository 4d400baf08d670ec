import 'server-only'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import type { NoSuchWalk, WalkClosed } from './walk-refusal'
import { claimOpenWalk } from './walk-row'

/**
 * End a walk. What was carried out stays so; what was only ticked has moved nothing on the record and is forgotten with the list.
 *
 * @param input.status  done, or dropped: given up
 */
export function closeWalk(input: {
  walkId: string
  status: 'done' | 'dropped'
  who?: string | null
}): Promise<Result<null, NoSuchWalk | WalkClosed>> {
  return write<null, NoSuchWalk | WalkClosed>(async (writing) => {
    const { walkId, status, who = null } = input
    const walk = await claimOpenWalk(writing, walkId)
    if (!walk.ok) return walk
    await writing.tx.walk.update({ where: { id: walkId }, data: { status, closedAt: writing.at, closedBy: who } })
    return ok(null)
  })
}
