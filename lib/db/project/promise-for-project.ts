import 'server-only'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { type PromisePlan, planPromises } from '#lib/project/plan-start'
import { ok, type Result } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import type { StockPromise } from '#lib/stock/batch'
import { findBrokenPromises } from '#lib/stock/broken-promises'
import type { PromiseAfter } from '#lib/stock/stock-change'
import type { Transaction } from '../client'
import { applyStockChange, type ChangedMeanwhile, readBatches, type StockSnapshot } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'
import type { ProjectSnapshot } from './project-row'
import { type ProjectNeed, readProjectNeed } from './read-need'

/** Lengths in strand tenths; `short` is what no free stock could be promised for. */
export type Promised = {
  promised: { threadId: string; batchId: string; strandTenths: number }[]
  short: PromisePlan['short']
}

type Work = Pick<
  ProjectSnapshot,
  'id' | 'ownerId' | 'designId' | 'threadListId' | 'clothPieceId' | 'over' | 'quantity' | 'placeId'
> & {
  status: ProjectStatus
}

/** While nothing is in the bag yet, all promises may be chosen anew; later, what is promised stays and only more is added. */
function isOpenToChange({ id, status, placeId }: Work, stock: StockSnapshot): boolean {
  if (status !== 'wanted' && status !== 'planned') return false
  // A walk fills the bag of a project that is still planned.
  const own = new Set(stock.promises.flatMap(({ batchId, projectId }) => (projectId === id ? batchId : [])))
  return placeId === null || !stock.batches.some((batch) => own.has(batch.id) && batch.currentPlaceId === placeId)
}

/**
 * Promise a project exact batches for every thread it needs, as far as they are free. Nothing is refused for want of stock. Promises
 * that stock no longer supports fall away or shrink to what is there.
 *
 * @returns `changed-meanwhile` when a batch is not as it was read: give it back from the write
 */
export async function promiseForProject(
  write: Write,
  project: Work,
  settings: Settings,
  who?: string | null,
): Promise<Result<Promised, ChangedMeanwhile>> {
  const need = await readProjectNeed(write.tx, project, settings)
  // A promise on what is gone cannot be kept, nor given up by way of its batch.
  await write.tx.stockPromise.deleteMany({ where: { projectId: project.id, batch: { goneAt: { not: null } } } })
  const stock = await readBatches(write.tx, {
    OR: [
      { ownerId: project.ownerId, threadId: { in: need.needs.map(({ threadId }) => threadId) } },
      { promises: { some: { projectId: project.id } } },
    ],
  })
  const tenable = await supported(write.tx, stock)
  const plan = isOpenToChange(project, tenable)
    ? planPromises({ ...need, ...tenable, projectId: project.id, ownerIds: [project.ownerId] })
    : planWithBag(need, tenable, project)
  const planned = new Set(plan.promises.map(({ batchId }) => batchId))
  // What the plan leaves as it is may have shrunk all the same.
  const shrunk = stock.promises.flatMap((promise) => {
    if (promise.projectId !== project.id || planned.has(promise.batchId)) return []
    const strandTenths = tenable.promises.find(({ id }) => id === promise.id)?.strandTenths ?? 0
    return [{ batchId: promise.batchId, projectId: project.id, strandTenths }]
  })
  const promises = [...plan.promises, ...shrunk].filter((promise) => !isAsItWas(promise, stock.promises))
  const applied = await applyStockChange(write, { batches: [], movements: [], promises }, { versions: stock.versions, who })
  if (!applied.ok) return applied
  const threadOf = new Map(stock.batches.map((batch) => [batch.id, batch.threadId]))
  return ok({
    promised: plan.promises.flatMap(({ batchId, strandTenths }) =>
      strandTenths > 0 ? [{ threadId: threadOf.get(batchId) as string, batchId, strandTenths }] : [],
    ),
    short: plan.short,
  })
}

const isAsItWas = (after: PromiseAfter, promises: readonly StockPromise[]): boolean =>
  (promises.find(({ batchId, projectId }) => batchId === after.batchId && projectId === after.projectId)?.strandTenths ?? 0) ===
  after.strandTenths

/** Stock with every promise cut down to what it still supports; one that it does not support at all is left out. */
async function supported(tx: Transaction, stock: StockSnapshot): Promise<StockSnapshot> {
  const projects = await tx.project.findMany({
    where: { id: { in: [...new Set(stock.promises.map(({ projectId }) => projectId))] } },
    select: { id: true, ownerId: true, placeId: true },
  })
  const broken = findBrokenPromises({ ...stock, projects })
  const supportedOf = new Map(broken.map((promise) => [promise.promiseId, promise.supportedStrandTenths]))
  const promises = stock.promises.flatMap((promise) => {
    const strandTenths = supportedOf.get(promise.id) ?? promise.strandTenths
    return strandTenths > 0 ? [{ ...promise, strandTenths }] : []
  })
  return { ...stock, promises }
}

/** First what lies in the project's bag already, unless it is promised to another; then more, from where thread is free. */
function planWithBag(need: ProjectNeed, stock: StockSnapshot, project: Work): PromisePlan {
  const fromBag = planFromBag(need, stock, project)
  const taken = new Map(fromBag.map((promise) => [promise.batchId, promise]))
  const promises = [
    ...stock.promises.filter(({ batchId, projectId }) => projectId !== project.id || !taken.has(batchId)),
    ...fromBag.map((promise) => ({ id: '', ...promise })),
  ]
  const more = planMore(need, { ...stock, promises }, project)
  const topped = new Set(more.promises.map(({ batchId }) => batchId))
  return { promises: [...fromBag.filter(({ batchId }) => !topped.has(batchId)), ...more.promises], short: more.short }
}

/** What a project's own bag holds of what it needs and is nobody's yet, beside what it was promised: thread carried there before. */
function planFromBag(need: ProjectNeed, stock: StockSnapshot, project: Work): PromiseAfter[] {
  const { placeId } = project
  if (placeId === null) return []
  // In its own bag it is at hand, wherever it lives.
  const batches = stock.batches
    .filter((batch) => batch.currentPlaceId === placeId)
    .map((batch) => ({ ...batch, homePlaceId: placeId }))
  const inBag = new Set(batches.map(({ id }) => id))
  const promises = stock.promises.filter(({ batchId }) => inBag.has(batchId))
  return planMore(need, { ...stock, batches, promises }, project).promises
}

/**
 * Promise every project that is kitted or further on what lies in its bag and is nobody's: for thread that came in as lying there.
 * Earlier begun projects first.
 *
 * @returns `changed-meanwhile` when a batch is not as it was read: give it back from the write
 */
export async function promiseBags(write: Write, settings: Settings): Promise<Result<null, ChangedMeanwhile>> {
  const projects = await write.tx.project.findMany({
    where: { goneAt: null, placeId: { not: null }, status: { in: ['kitted', 'stitching', 'resting', 'stitched'] } },
    orderBy: [{ startedOn: 'asc' }, { design: { titleKey: 'asc' } }, { id: 'asc' }],
  })
  for (const row of projects) {
    const project = { ...row, status: row.status as ProjectStatus, over: row.over as 1 | 2 | null }
    const need = await readProjectNeed(write.tx, project, settings)
    const stock = await readBatches(write.tx, { ownerId: project.ownerId, currentPlaceId: project.placeId })
    const promises = planFromBag(need, stock, project).filter((promise) => !isAsItWas(promise, stock.promises))
    if (promises.length === 0) continue
    const applied = await applyStockChange(write, { batches: [], movements: [], promises }, { versions: stock.versions })
    if (!applied.ok) return applied
    // Nobody's doing but an import's: its undo is not to find them changed since.
    const nounId = { in: promises.map(({ batchId }) => batchId) }
    await write.tx.importStep.updateMany({ where: { noun: 'batch', nounId }, data: { versionAfter: { increment: 1 } } })
  }
  return ok(null)
}

/** Promises for what is still wanting, beside those there are; where lots matter, from the lots already promised. */
function planMore(need: ProjectNeed, stock: StockSnapshot, project: Work): PromisePlan {
  const own = new Map(
    stock.promises.flatMap(({ batchId, projectId, strandTenths }) =>
      projectId === project.id ? [[batchId, strandTenths] as const] : [],
    ),
  )
  const ownBatches = stock.batches.filter((batch) => own.has(batch.id))
  const batches = stock.batches.filter((batch) => {
    const begun = ownBatches.filter(({ threadId }) => threadId === batch.threadId)
    if (begun.length === 0 || !need.lines.get(batch.threadId)?.lotsMatter) return true
    return batch.lot === null ? own.has(batch.id) : begun.some(({ lot }) => lot === batch.lot)
  })
  const planning = { ...need, batches, projectId: project.id, ownerIds: [project.ownerId] }
  if (need.copies > 1) return planPromises({ ...planning, promises: stock.promises, keptBatchIds: new Set(own.keys()) })

  const needs = need.needs.flatMap(({ threadId, strandTenths }) => {
    const kept = ownBatches.reduce((sum, batch) => (batch.threadId === threadId ? sum + (own.get(batch.id) ?? 0) : sum), 0)
    return strandTenths > kept ? [{ threadId, strandTenths: strandTenths - kept }] : []
  })
  // Kept apart under another name, so that they count as given away and none of them is taken back.
  const promises = stock.promises.map((promise) =>
    promise.projectId === project.id ? { ...promise, projectId: `${project.id} kept` } : promise,
  )
  const plan = planPromises({ ...planning, needs, promises })
  return {
    promises: plan.promises.map((promise) => ({
      ...promise,
      strandTenths: promise.strandTenths + (own.get(promise.batchId) ?? 0),
    })),
    short: plan.short,
  }
}
