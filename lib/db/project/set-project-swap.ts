import 'server-only'
import { openStatuses, type ProjectStatus } from '#lib/project/life-cycle'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { getSettings } from '../settings/settings'
import { applyStockChange } from '../stock/apply-stock-change'
import { write } from '../write'
import { readKit } from './project-bag'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'
import { type Promised, promiseForProject } from './promise-for-project'
import { readProjectNeed } from './read-need'

export type SetProjectSwap = ProjectEdit & {
  /** As charted. */
  threadId: string
  /** Worked in; null works it as charted again. */
  standInThreadId: string | null
  reason?: string | null
  /** Whether two colours of the chart may come to be one thread by it. */
  mayMerge?: boolean
}

export type SwapRefused =
  | ProjectEditRefused
  | { kind: 'no-such-thread'; threadId: string }
  | { kind: 'not-in-key'; threadId: string }
  | { kind: 'stands-for-itself'; threadId: string }
  | { kind: 'project-closed'; status: ProjectStatus }
  | { kind: 'in-the-bag'; threadId: string }
  | { kind: 'would-merge'; threadId: string; otherThreadId: string }

/**
 * Work one colour of a project's key in another thread, or as charted again; its promises follow.
 *
 * @returns `in-the-bag` once the thread it is worked in now lies in the bag of a project that is past being planned: put it back first;
 *   `would-merge` when another colour of the key is worked in the stand-in already
 */
export async function setProjectSwap(input: SetProjectSwap): Promise<Result<Promised, SwapRefused>> {
  const settings = await getSettings()
  return write<Promised, SwapRefused>(async (writing) => {
    const { tx } = writing
    const { threadId, standInThreadId, reason = null } = input
    const read = await readProject(tx, input)
    if (!read.ok) return read
    const project = read.value
    const projectId = project.id
    const isOpen = (openStatuses as readonly string[]).includes(project.status)
    if (!isOpen && project.status !== 'wanted') return refused({ kind: 'project-closed', status: project.status })
    if (standInThreadId === threadId) return refused({ kind: 'stands-for-itself', threadId })
    if (standInThreadId !== null && (await tx.thread.count({ where: { id: standInThreadId, goneAt: null } })) === 0)
      return refused({ kind: 'no-such-thread', threadId: standInThreadId })

    const { charted, swaps } = await readProjectNeed(tx, project, settings)
    if (!charted.some((need) => need.threadId === threadId)) return refused({ kind: 'not-in-key', threadId })
    const workedNow = swaps.get(threadId) ?? threadId
    const worked = standInThreadId ?? threadId
    const isPulled = project.status !== 'wanted' && project.status !== 'planned'
    const kit = await readKit(tx, project)
    if (isPulled && worked !== workedNow) {
      const isInBag = kit.batches.some(
        (batch) => batch.threadId === workedNow && batch.currentPlaceId !== null && batch.currentPlaceId === project.placeId,
      )
      if (isInBag) return refused({ kind: 'in-the-bag', threadId: workedNow })
    }
    const others = charted.filter((need) => need.threadId !== threadId).map((need) => need.threadId)
    const merged = others.find((other) => (swaps.get(other) ?? other) === worked)
    if (merged && !input.mayMerge) return refused({ kind: 'would-merge', threadId: worked, otherThreadId: merged })

    const written = await writeProject(writing, project, {})
    if (!written.ok) return written
    await tx.projectSwap.deleteMany({ where: { projectId, threadId } })
    if (standInThreadId !== null)
      await tx.projectSwap.create({ data: { id: newId(), projectId, threadId, standInThreadId, reason } })
    if (project.status === 'wanted') return ok({ promised: [], short: [] })

    const isStillWorked = others.some((other) => (swaps.get(other) ?? other) === workedNow)
    if (worked !== workedNow && !isStillWorked) {
      const { versions } = kit
      const promises = kit.promises
        .filter((promise) => promise.projectId === projectId)
        .filter(({ batchId }) => kit.batches.some((batch) => batch.id === batchId && batch.threadId === workedNow))
        .map(({ batchId }) => ({ batchId, projectId, strandTenths: 0 }))
      const freed = await applyStockChange(writing, { batches: [], movements: [], promises }, { versions, who: input.who })
      if (!freed.ok) return freed
    }
    return promiseForProject(writing, project, settings, input.who)
  })
}
