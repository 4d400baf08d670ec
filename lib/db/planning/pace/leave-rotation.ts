import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../../write'

export type NotInRotation = { kind: 'not-in-rotation'; projectId: string }

/** It is taken in turn no longer. */
export function leaveRotation(input: { projectId: string }): Promise<Result<null, NotInRotation>> {
  return write<null, NotInRotation>(async ({ tx, touch }) => {
    const { projectId } = input
    const gone = await tx.rotationTurn.deleteMany({ where: { projectId } })
    if (gone.count === 0) return refused({ kind: 'not-in-rotation', projectId })
    touch('project', projectId)
    return ok(null)
  })
}
