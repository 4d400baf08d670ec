import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { type ProjectEditRefused, readProject } from '../project/project-row'
import { write } from '../write'

export type TimerRefused = ProjectEditRefused | { kind: 'given-up' }

/** Somebody sits down to it. A timer that runs goes on from when it was started. */
export function startTimer(input: {
  projectId: string
  who?: string | null
}): Promise<Result<{ startedAt: Date }, TimerRefused>> {
  return write<{ startedAt: Date }, TimerRefused>(async ({ tx, at, touch }) => {
    const read = await readProject(tx, { projectId: input.projectId })
    if (!read.ok) return read
    const { id: projectId, status } = read.value
    if (status === 'abandoned') return refused({ kind: 'given-up' })
    const running = await tx.workTimer.findUnique({ where: { projectId } })
    if (running) return ok({ startedAt: running.startedAt })
    await tx.workTimer.create({ data: { projectId, startedAt: at, who: input.who ?? null } })
    touch('project', projectId)
    return ok({ startedAt: at })
  })
}
