import { type Batch, compareExact, type StockPromise } from '#lib/stock/batch'
import { type FreeLot, freeOfBatch, freeStock } from '#lib/stock/free-stock'
import type { PromiseAfter } from '#lib/stock/movements'
import type { ThreadLine } from '#lib/thread/thread'

export type PromisePlan = {
  /** What the project is to have promised of each batch, by thread in the order of the needs; 0 where an earlier promise falls away. */
  promises: PromiseAfter[]
  /** What cannot be promised, in the order of the needs. */
  short: { threadId: string; shortStrandTenths: number }[]
}

/** The smallest lot that holds the whole need, ties by the lot's text; else the largest, and for lines whose lots do not matter the next. */
function lotsToUse(lots: readonly FreeLot[], need: number, lotsMatter: boolean): FreeLot[] {
  const free = lots.filter((lot) => lot.freeStrandTenths > 0)
  const enough = free.filter((lot) => lot.freeStrandTenths >= need)
  const fewest = (a: FreeLot, b: FreeLot) =>
    a.freeStrandTenths - b.freeStrandTenths ||
    compareExact(a.lot, b.lot) ||
    compareExact(a.batchIds[0] ?? '', b.batchIds[0] ?? '')
  if (enough.length > 0) return [...enough].sort(fewest).slice(0, 1)
  return lotsMatter ? free.slice(0, 1) : free
}

/**
 * Which batches to set aside for a project: for each thread the smallest single lot that is enough, in it batches with a part skein
 * before those without, then those with least free. The project's earlier promises are replaced. Where no lot is enough, lots are
 * mixed, largest first, unless the thread's lots matter; then the largest is promised and the rest is short.
 *
 * @param needs  One for each thread worked with (see `swapNeeds`).
 * @param lines  The line of every thread needed.
 * @throws {RangeError} if a line is missing.
 */
export function planPromises(input: {
  needs: readonly { threadId: string; strandTenths: number }[]
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  lines: ReadonlyMap<string, Pick<ThreadLine, 'lotsMatter'>>
  projectId: string
  ownerIds: readonly string[]
}): PromisePlan {
  const { promises, projectId, ownerIds } = input
  const plan: PromisePlan = { promises: [], short: [] }
  const byId = new Map(input.batches.map((batch) => [batch.id, batch]))
  for (const { threadId, strandTenths } of input.needs) {
    const line = input.lines.get(threadId)
    if (!line) throw new RangeError(`planPromises: no line for thread ${threadId}`)
    const batches = input.batches.filter((batch) => batch.threadId === threadId)
    const free = freeStock({ threadId, batches, promises, forProjectId: projectId, ownerIds })
    let wanted = strandTenths
    for (const lot of lotsToUse(free.lots, strandTenths, line.lotsMatter)) {
      const held = lot.batchIds.map((id) => {
        const batch = byId.get(id) as Batch
        return { batch, hasPart: batch.partStrandTenths > 0, free: freeOfBatch(batch, promises, projectId).freeStrandTenths }
      })
      held.sort((a, b) => Number(b.hasPart) - Number(a.hasPart) || a.free - b.free || compareExact(a.batch.id, b.batch.id))
      for (const { batch, free: freeHere } of held) {
        const promised = Math.min(wanted, freeHere)
        if (promised === 0) continue
        plan.promises.push({ batchId: batch.id, projectId, strandTenths: promised })
        wanted -= promised
      }
    }
    if (wanted > 0) plan.short.push({ threadId, shortStrandTenths: wanted })
  }
  const kept = new Set(plan.promises.map((promise) => promise.batchId))
  const before = promises.filter((promise) => promise.projectId === projectId && !kept.has(promise.batchId))
  const dropped = [...new Set(before.map((promise) => promise.batchId))].sort(compareExact)
  plan.promises.push(...dropped.map((batchId) => ({ batchId, projectId, strandTenths: 0 })))
  return plan
}
