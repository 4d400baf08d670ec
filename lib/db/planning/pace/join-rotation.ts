import 'server-only'
import { ok, type Result } from '#lib/result'
import { type ProjectEditRefused, readProject } from '../../project/project-row'
import { write } from '../../write'

/** A project is taken in turn with the others from now on, as the last of them; or it is said on which days of the week. */
export function joinRotation(input: { projectId: string; weekdays?: number }): Promise<Result<null, ProjectEditRefused>> {
  return write<null, ProjectEditRefused>(async ({ tx, touch }) => {
    const { projectId, weekdays } = input
    const read = await readProject(tx, { projectId })
    if (!read.ok) return read
    const last = await tx.rotationTurn.aggregate({ _max: { position: true } })
    await tx.rotationTurn.upsert({
      where: { projectId },
      create: { projectId, position: (last._max.position ?? -1) + 1, weekdays: weekdays ?? 0 },
      update: weekdays === undefined ? {} : { weekdays },
    })
    touch('project', projectId)
    return ok(null)
  })
}
