import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../../write'
import type { NoSuchPart } from './save-part'

/** Take a part out: the project has it no more. */
export function removePart(id: string): Promise<Result<{ projectId: string }, NoSuchPart>> {
  return write<{ projectId: string }, NoSuchPart>(async ({ tx, touch }) => {
    const there = await tx.stitchAlongPart.findUnique({ where: { id }, select: { projectId: true } })
    if (!there) return refused({ kind: 'no-such-part', id })
    await tx.stitchAlongPart.delete({ where: { id } })
    touch('project', there.projectId)
    return ok({ projectId: there.projectId })
  })
}
