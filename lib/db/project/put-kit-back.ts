import 'server-only'
import { walkRanks } from '#lib/place/walk-order'
import { planTransition, type TransitionRefused } from '#lib/project/life-cycle'
import { type FinishPlan, planFinish } from '#lib/project/plan-finish'
import { ok, type Result } from '#lib/result'
import { applyStockChange, type ChangedMeanwhile } from '../stock/apply-stock-change'
import { write } from '../write'
import type { Write } from '../write-gate'
import { readMergeTargets } from './merge-targets'
import { putChartBack, putClothBack, readKit } from './project-bag'
import { type ProjectEdit, type ProjectEditRefused, type ProjectSnapshot, readProject, writeProject } from './project-row'
import { readPlacesAround } from './queries'

/** How the stock of a project is closed: what is used up, what was not in the bag. */
export type Closing = {
  needs: readonly { threadId: string; strandTenths: number }[]
  used: ReadonlyMap<string, number>
  missingBatchIds: readonly string[]
  /** Threads whose leftover was measured or weighed. */
  measuredThreadIds?: ReadonlySet<string>
}

/** Everything back where it lives, nothing used. */
const untouched: Closing = { needs: [], used: new Map(), missingBatchIds: [] }

export type CloseRefused =
  | ChangedMeanwhile
  | { kind: 'not-enough'; threadId: string; heldStrandTenths: number; requestedStrandTenths: number }

/** Use up what was used, put the rest back, free the promises, put the chart back: all the stock a project had to do with. */
export async function closeStock(
  write: Write,
  project: ProjectSnapshot,
  closing: Closing,
  who?: string | null,
): Promise<Result<FinishPlan, CloseRefused>> {
  const { tx } = write
  const kit = await readKit(tx, project)
  const { mergeInto, atHome } = await readMergeTargets(tx, kit.batches)
  const promises = [...new Map([...kit.promises, ...atHome.promises].map((promise) => [promise.id, promise])).values()]
  const places = await readPlacesAround(
    tx,
    kit.batches.map((batch) => batch.homePlaceId),
  )
  const plan = planFinish({
    projectId: project.id,
    batches: kit.batches,
    promises,
    ...closing,
    mergeInto,
    walkRanks: walkRanks([...places.values()]),
  })
  if (!plan.ok) return plan
  const versions = new Map([...atHome.versions, ...kit.versions])
  const applied = await applyStockChange(write, plan.value.change, { versions, who })
  if (!applied.ok) return applied
  if (project.placeId) await putChartBack(write, project.chartId, project.placeId, { projectId: project.id, who })
  return plan
}

/**
 * Free a project's promises and put all that is in its bag back. One that is kitted goes back to planned, with its cloth back where it
 * lives; what is being stitched keeps its status, and its cloth in the bag.
 */
export function releaseProject(input: ProjectEdit): Promise<Result<FinishPlan, ProjectEditRefused | CloseRefused>> {
  return write<FinishPlan, ProjectEditRefused | CloseRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    const { clothPieceId, placeId } = project
    const isUnkitted = project.status === 'kitted'
    const written = await writeProject(writing, project, isUnkitted ? { status: 'planned' } : {})
    if (!written.ok) return written
    const closed = await closeStock(writing, project, untouched, input.who)
    if (!closed.ok) return closed
    if (isUnkitted && clothPieceId && placeId)
      await putClothBack(writing, clothPieceId, placeId, { projectId: project.id, who: input.who })
    return closed
  })
}

/** Give a project up: all goes back where it lives, thread, cloth and chart, and its promises are freed. Its record stays. */
export function abandonProject(
  input: ProjectEdit,
): Promise<Result<FinishPlan, ProjectEditRefused | TransitionRefused | CloseRefused>> {
  return write<FinishPlan, ProjectEditRefused | TransitionRefused | CloseRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    const abandoned = planTransition(project, 'abandoned', '')
    if (!abandoned.ok) return abandoned
    const written = await writeProject(writing, project, { status: 'abandoned', placeId: null })
    if (!written.ok) return written
    const closed = await closeStock(writing, project, untouched, input.who)
    if (!closed.ok) return closed
    const { clothPieceId, placeId } = project
    if (clothPieceId && placeId) await putClothBack(writing, clothPieceId, placeId, { projectId: project.id, who: input.who })
    if (clothPieceId) writing.touch('cloth', clothPieceId)
    return ok(closed.value)
  })
}
