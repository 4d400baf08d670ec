import 'server-only'
import { ok, type Result } from '#lib/result'
import { type ProjectEditRefused, readProject } from '../project/project-row'
import { write } from '../write'

/** Stop a project's timer without logging anything; none running is as well. */
export function dropTimer(input: { projectId: string }): Promise<Result<null, ProjectEditRefused>> {
  return write<null, ProjectEditRefused>(async ({ tx, touch }) => {
    const read = await readProject(tx, { projectId: input.projectId })
    if (!read.ok) return read
    await tx.workTimer.deleteMany({ where: { projectId: input.projectId } })
    touch('project', input.projectId)
    return ok(null)
  })
}
