import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../../write'
import type { NotInRotation } from './leave-rotation'

/** Change places with the one before it, or after it, of the same owner's; at the end it stays. */
export function moveInRotation(input: { projectId: string; to: 'earlier' | 'later' }): Promise<Result<null, NotInRotation>> {
  return write<null, NotInRotation>(async ({ tx, touch }) => {
    const { projectId, to } = input
    const mine = await tx.rotationTurn.findUnique({ where: { projectId }, select: { project: { select: { ownerId: true } } } })
    if (!mine) return refused({ kind: 'not-in-rotation', projectId })
    const turns = await tx.rotationTurn.findMany({
      where: { project: { ownerId: mine.project.ownerId, goneAt: null } },
      select: { projectId: true, position: true },
      orderBy: [{ position: 'asc' }, { projectId: 'asc' }],
    })
    const at = turns.findIndex((turn) => turn.projectId === projectId)
    const [one, other] = [turns[at], turns[to === 'earlier' ? at - 1 : at + 1]]
    if (!one || !other) return ok(null)
    await tx.rotationTurn.update({ where: { projectId: one.projectId }, data: { position: other.position } })
    await tx.rotationTurn.update({ where: { projectId: other.projectId }, data: { position: one.position } })
    touch('project', projectId)
    return ok(null)
  })
}
