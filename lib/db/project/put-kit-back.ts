import 'server-only'
import { walkRanks } from '#lib/place/walk-order'
import { planTransition, type TransitionRefused } from '#lib/project/life-cycle'
import { type FinishPlan, planFinish } from '#lib/project/plan-finish'
import { ok, type Result } from '#lib/result'
import { planRelease } from '#lib/stock/plan-promise'
import { openQuestion } from '../missing/report-missing'
import { type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import { putNotionHome } from '../walk/carry-things'
import { applyLargeChange } from '../walk/in-parts'
import { createPutBackWalk, type PutBackLine } from '../walk/start-put-back'
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

/**
 * How what is left comes home. `now`: it lies in its drawers already, and the record follows at once. `list`: the record has it in the bag
 * until each thing is ticked off a list in walking order, so that record and goods move at one moment.
 */
export const putBackHows = ['now', 'list'] as const
export type PutBackHow = (typeof putBackHows)[number]

/** What is being looked for is in nobody's bag. */
const notLookedFor = { missing: { none: { status: 'open' } } } as const

/** Everything back where it lives, nothing used. */
const untouched: Closing = { needs: [], used: new Map(), missingBatchIds: [] }

export type CloseRefused =
  | ChangedMeanwhile
  | { kind: 'not-enough'; threadId: string; heldStrandTenths: number; requestedStrandTenths: number }

/** Use up what was used, put the rest back or leave it for the list, free the promises, ask where the missing may be. */
export async function closeStock(
  write: Write,
  project: ProjectSnapshot,
  closing: Closing,
  { how, who = null }: { how: PutBackHow; who?: string | null | undefined },
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
    returns: how === 'list' ? 'listed' : 'now',
    walkRanks: walkRanks([...places.values()]),
  })
  if (!plan.ok) return plan
  const versions = new Map([...atHome.versions, ...kit.versions])
  const applied = await applyLargeChange(write, plan.value.change, { versions, who })
  if (!applied.ok) return applied
  const freed = await freeTheRest(write, project.id)
  if (!freed.ok) return freed
  for (const { batchId, lastSeenPlaceId } of plan.value.missing) {
    await openQuestion(write, { batchId, lastSeenPlaceId, projectId: project.id, walkId: null, note: null, who })
    write.touch('batch', batchId)
  }
  return plan
}

/** Free what it was promised of thread that is not at hand: looked for in vain, on its way home, or gone. */
async function freeTheRest(write: Write, projectId: string): Promise<Result<null, ChangedMeanwhile>> {
  const { promises, versions } = await readBatches(write.tx, { promises: { some: { projectId } } })
  const change = { batches: [], movements: [], promises: planRelease(promises, projectId) }
  const applied = await applyLargeChange(write, change, { versions })
  if (applied.ok) await write.tx.stockPromise.deleteMany({ where: { projectId } })
  return applied
}

/**
 * Bring the rest of a project's kit home, after its thread: the chart, these pieces of cloth, and the notions in use for it. Listed, it
 * becomes one list with what is left of the thread.
 *
 * @returns the list's id; null when there is nothing to carry, or nothing is listed
 */
export async function bringHome(
  write: Write,
  project: ProjectSnapshot,
  rest: {
    how: PutBackHow
    leftovers: FinishPlan['putBack']
    clothPieceIds: readonly string[]
    takesNotions: boolean
    who?: string | null | undefined
  },
): Promise<string | null> {
  const { tx } = write
  const { id: projectId, placeId, chartId } = project
  const { how, leftovers, clothPieceIds, takesNotions, who = null } = rest
  const carried = { projectId, who }
  const notions = takesNotions
    ? await tx.notion.findMany({
        where: { projectId, goneAt: null, ...notLookedFor },
        select: { id: true, count: true, homePlaceId: true, currentPlaceId: true },
        orderBy: { id: 'asc' },
      })
    : []
  // What lies at home, or has none, is only freed: there is nothing to carry.
  const isToCarry = (thing: { homePlaceId: string | null; currentPlaceId: string | null }) =>
    thing.homePlaceId !== null && thing.currentPlaceId !== null && thing.currentPlaceId !== thing.homePlaceId
  for (const notion of notions) if (how === 'now' || !isToCarry(notion)) await putNotionHome(write, notion.id)

  if (how === 'now') {
    if (placeId) {
      await putChartBack(write, chartId, placeId, carried)
      for (const id of clothPieceIds) await putClothBack(write, id, placeId, carried)
    }
    return null
  }
  const lines: PutBackLine[] = leftovers.map((left) => ({
    ...{ batchId: left.batchId, projectId, count: left.wholePutUps, toPlaceId: left.placeId },
    takesPart: left.partStrandTenths > 0 || left.isSome,
  }))
  if (placeId) {
    const inBag = { goneAt: null, currentPlaceId: placeId, homePlaceId: { not: null }, ...notLookedFor }
    const columns = { id: true, homePlaceId: true, currentPlaceId: true } as const
    const charts = await tx.chart.findMany({
      where: { ...inBag, id: chartId, movements: { some: { projectId } } },
      select: { ...columns, copies: true },
    })
    const pieces = await tx.clothPiece.findMany({
      where: { ...inBag, id: { in: [...clothPieceIds] } },
      select: columns,
      orderBy: { id: 'asc' },
    })
    for (const { id, homePlaceId, copies } of charts.filter(isToCarry))
      lines.push({ chartId: id, projectId, count: copies, takesPart: false, toPlaceId: homePlaceId })
    for (const { id, homePlaceId } of pieces.filter(isToCarry))
      lines.push({ clothPieceId: id, projectId, count: 1, takesPart: false, toPlaceId: homePlaceId })
  }
  for (const { id, count, homePlaceId } of notions.filter(isToCarry))
    lines.push({ notionId: id, projectId, count: Math.max(1, count), takesPart: false, toPlaceId: homePlaceId })
  const listed = await readListed(tx)
  const unlisted = lines.filter(({ batchId, chartId, clothPieceId, notionId }) =>
    [batchId, chartId, clothPieceId, notionId].every((id) => id === undefined || !listed.has(id)),
  )
  if (unlisted.length === 0) return null
  const { walkId } = await createPutBackWalk(write, {
    title: project.title,
    placeId,
    projectIds: [projectId],
    lines: unlisted,
    who,
  })
  return walkId
}

/** What is on a list to be put back already goes home by that one. */
async function readListed(tx: Write['tx']): Promise<ReadonlySet<string | null>> {
  const rows = await tx.walkLine.findMany({
    where: { carriedAt: null, walk: { kind: 'put-back', status: 'open' } },
    select: { batchId: true, chartId: true, clothPieceId: true, notionId: true },
  })
  return new Set(rows.map(({ batchId, chartId, clothPieceId, notionId }) => batchId ?? chartId ?? clothPieceId ?? notionId))
}

/** What became of a project's stock, and the list to put it back by. */
export type Closed = FinishPlan & { walkId: string | null }

export type PutBackEdit = ProjectEdit & { putBack?: PutBackHow | undefined }

/**
 * Free a project's promises and bring home all that is in its bag. One that is kitted goes back to planned, with its cloth and notions
 * back where they live; what is being stitched keeps its status, its cloth in the bag, and its hoop.
 */
export function releaseProject(input: PutBackEdit): Promise<Result<Closed, ProjectEditRefused | CloseRefused>> {
  return write<Closed, ProjectEditRefused | CloseRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    const isUnkitted = project.status === 'kitted'
    const written = await writeProject(writing, project, isUnkitted ? { status: 'planned' } : {})
    if (!written.ok) return written
    const { putBack: how = 'now', who } = input
    const closed = await closeStock(writing, project, untouched, { how, who })
    if (!closed.ok) return closed
    const clothPieceIds = isUnkitted ? await clothOf(writing, project) : []
    const rest = { how, leftovers: closed.value.putBack, clothPieceIds, takesNotions: isUnkitted, who }
    return ok({ ...closed.value, walkId: await bringHome(writing, project, rest) })
  })
}

/** Give a project up: all goes back where it lives, thread, cloth, chart and notions, and its promises are freed. Its record stays. */
export function abandonProject(
  input: PutBackEdit,
): Promise<Result<Closed, ProjectEditRefused | TransitionRefused | CloseRefused>> {
  return write<Closed, ProjectEditRefused | TransitionRefused | CloseRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    const abandoned = planTransition(project, 'abandoned', '')
    if (!abandoned.ok) return abandoned
    const written = await writeProject(writing, project, { status: 'abandoned', placeId: null })
    if (!written.ok) return written
    const { putBack: how = 'now', who } = input
    const closed = await closeStock(writing, project, untouched, { how, who })
    if (!closed.ok) return closed
    const clothPieceIds = await clothOf(writing, project)
    const rest = { how, leftovers: closed.value.putBack, clothPieceIds, takesNotions: true, who }
    const walkId = await bringHome(writing, project, rest)
    for (const id of clothPieceIds) writing.touch('cloth', id)
    return ok({ ...closed.value, walkId })
  })
}

/** The piece a project is worked on, and those kept for it besides. */
async function clothOf({ tx }: Write, project: Pick<ProjectSnapshot, 'id' | 'clothPieceId'>): Promise<string[]> {
  const kept = await tx.clothPiece.findMany({
    where: { keptForProjectId: project.id, goneAt: null },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  return [...new Set([...(project.clothPieceId ? [project.clothPieceId] : []), ...kept.map(({ id }) => id)])]
}
