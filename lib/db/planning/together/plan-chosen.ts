import 'server-only'
import { ok, type Result } from '#lib/result'
import { planStep, readProject, writeProject } from '../../project/project-row'
import type { PromiseAgainRefused } from '../../project/promise-again'
import { promiseForProject } from '../../project/promise-for-project'
import { getSettings } from '../../settings/settings'
import { write } from '../../write'

/** A wish that was chosen, and the list it was chosen to be worked from. */
export type ChosenWish = { projectId: string; threadListId: string }

/**
 * Plan wishes that were chosen to go together, all or none: each is promised what is free, one after another. One that names a list of
 * its own keeps it; one that is planned already is left as it is.
 *
 * @returns how many were planned, and of how many threads something is short
 */
export async function planChosen(
  wishes: readonly ChosenWish[],
): Promise<Result<{ planned: number; short: number }, PromiseAgainRefused>> {
  const settings = await getSettings()
  return write<{ planned: number; short: number }, PromiseAgainRefused>(async (writing) => {
    let [planned, short] = [0, 0]
    // In turn, for what one is promised is no longer free to the next.
    for (const { projectId, threadListId } of wishes) {
      const read = await readProject(writing.tx, { projectId })
      if (!read.ok) return read
      if (read.value.status !== 'wanted') continue
      const project = { ...read.value, threadListId: read.value.threadListId ?? threadListId }
      const step = await planStep(writing, project, 'planned', '')
      if (!step.ok) return step
      const { status } = step.value
      const written = await writeProject(writing, project, { status, threadListId: project.threadListId })
      if (!written.ok) return written
      const promised = await promiseForProject(writing, project, settings, null)
      if (!promised.ok) return promised
      planned++
      short += promised.value.short.length
    }
    return ok({ planned, short })
  })
}
