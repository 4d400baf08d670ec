import { kitsFrom, kitsPromised, leastUsefulPart, lengthForKits } from '#lib/coverage/kit-cuts'
import { type Batch, compareExact, type StockPromise } from '#lib/stock/batch'
import { freeOfBatch, freeStock } from '#lib/stock/free-stock'
import type { PromiseAfter } from '#lib/stock/stock-change'
import type { ThreadLine } from '#lib/thread/thread'
import { cutStockFor } from './kit/stock'

export type PromisePlan = {
  /** What the project is to have promised of each batch, by thread in the order of the needs; 0 where an earlier promise falls away. */
  promises: PromiseAfter[]
  /** What cannot be promised, in the order of the needs. */
  short: { threadId: string; shortStrandTenths: number }[]
}

/** What one lot has to give, in strand tenths or in kits. */
type Supply = { lot: string | null; batchIds: string[]; free: number }

/**
 * The smallest lot that holds the whole need, ties by the lot's text; else the largest, and for lines whose lots do not matter the next.
 *
 * @param supplies  largest first
 */
function lotsToUse<Lot extends Supply>(supplies: readonly Lot[], need: number, lotsMatter: boolean): Lot[] {
  const some = supplies.filter((lot) => lot.free > 0)
  const enough = some.filter((lot) => lot.free >= need)
  const fewest = (a: Supply, b: Supply) =>
    a.free - b.free || compareExact(a.lot, b.lot) || compareExact(a.batchIds[0] ?? '', b.batchIds[0] ?? '')
  if (enough.length > 0) return [...enough].sort(fewest).slice(0, 1)
  return lotsMatter ? some.slice(0, 1) : some
}

type PromiseInput = {
  needs: readonly { threadId: string; strandTenths: number }[]
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  lines: ReadonlyMap<string, Pick<ThreadLine, 'lotsMatter'>>
  projectId: string
  ownerIds: readonly string[]
  copies?: number
  cutCopies?: ReadonlyMap<string, number>
  keptBatchIds?: ReadonlySet<string>
}

/**
 * Which batches to set aside for a project: for each thread the smallest single lot that is enough, in it batches with a part skein
 * before those without, then those with least free. The project's earlier promises are replaced. Where no lot is enough, lots are
 * mixed, largest first, unless the thread's lots matter; then the largest is promised and the rest is short.
 *
 * A kit's thread must not have a join. So for several copies a need is so many cuts: a part shorter than one is passed over, of whole
 * put-ups as many are promised as are opened (see `lengthForKits`), and what is short is short by whole cuts.
 *
 * @param input.needs         One for each thread worked with (see `swapNeeds`), of all copies together.
 * @param input.lines         The line of every thread needed.
 * @param input.copies        1 when left out.
 * @param input.cutCopies     By thread: copies that have their cut already and want no more.
 * @param input.keptBatchIds  With several copies: batches whose promises to the project stay and are only added to.
 * @throws {RangeError} if a line is missing, or a need is not the same for every copy.
 */
export function planPromises(input: PromiseInput): PromisePlan {
  const { promises, projectId, copies = 1, keptBatchIds = new Set<string>() } = input
  const plan: PromisePlan = { promises: [], short: [] }
  for (const need of input.needs) {
    const line = input.lines.get(need.threadId)
    if (!line) throw new RangeError(`planPromises: no line for thread ${need.threadId}`)
    if (need.strandTenths % copies !== 0) throw new RangeError(`planPromises: ${need.strandTenths} for ${copies} copies`)
    const short = copies > 1 ? promiseCuts(input, need, line.lotsMatter, plan) : promiseLength(input, need, line.lotsMatter, plan)
    if (short > 0) plan.short.push({ threadId: need.threadId, shortStrandTenths: short })
  }
  const planned = new Set(plan.promises.map((promise) => promise.batchId))
  const before = promises.filter((promise) => promise.projectId === projectId && !planned.has(promise.batchId))
  const dropped = [...new Set(before.map((promise) => promise.batchId))].filter((id) => !keptBatchIds.has(id)).sort(compareExact)
  plan.promises.push(...dropped.map((batchId) => ({ batchId, projectId, strandTenths: 0 })))
  return plan
}

type Need = PromiseInput['needs'][number]

/** Promise a length, joined from as many batches as it takes. @returns what is short of it */
function promiseLength(input: PromiseInput, { threadId, strandTenths }: Need, lotsMatter: boolean, plan: PromisePlan): number {
  const { promises, projectId, ownerIds } = input
  const batches = input.batches.filter((batch) => batch.threadId === threadId)
  const byId = new Map(batches.map((batch) => [batch.id, batch]))
  const { lots } = freeStock({ threadId, batches, promises, forProjectId: projectId, ownerIds })
  const supplies = lots.map((lot) => ({ ...lot, free: lot.freeStrandTenths }))
  let wanted = strandTenths
  for (const lot of lotsToUse(supplies, strandTenths, lotsMatter)) {
    const held = lot.batchIds.map((id) => {
      const batch = byId.get(id) as Batch
      return { batch, hasPart: batch.partStrandTenths > 0, free: freeOfBatch(batch, promises, projectId).freeStrandTenths }
    })
    held.sort((a, b) => Number(b.hasPart) - Number(a.hasPart) || a.free - b.free || compareExact(a.batch.id, b.batch.id))
    for (const { batch, free } of held) {
      const promised = Math.min(wanted, free)
      if (promised === 0) continue
      plan.promises.push({ batchId: batch.id, projectId, strandTenths: promised })
      wanted -= promised
    }
  }
  return wanted
}

/** Promise so many cuts, each from one batch. @returns the length of the cuts that are short */
function promiseCuts(input: PromiseInput, need: Need, lotsMatter: boolean, plan: PromisePlan): number {
  const { promises, projectId, copies = 1, keptBatchIds } = input
  const cut = need.strandTenths / copies
  if (cut === 0) return 0
  const sources = input.batches
    .filter((batch) => batch.threadId === need.threadId && input.ownerIds.includes(batch.ownerId))
    .map((batch) => {
      const stock = cutStockFor(batch, promises, projectId)
      const own = keptBatchIds?.has(batch.id) ? promisedTo(projectId, batch.id, promises) : 0
      const begun = kitsPromised(stock, cut, own)
      return { batch, stock, begun, own, free: kitsFrom(stock, cut) - begun }
    })
  const kept = sources.reduce((sum, { begun }) => sum + begun, 0)
  sources.sort((a, b) => compareExact(a.batch.id, b.batch.id))

  const supplies: (Supply & { sources: typeof sources })[] = []
  for (const source of sources) {
    const { lot } = source.batch
    let supply = lot === null ? undefined : supplies.find((known) => known.lot === lot)
    if (!supply) {
      supply = { lot, batchIds: [], free: 0, sources: [] }
      supplies.push(supply)
    }
    supply.batchIds.push(source.batch.id)
    supply.sources.push(source)
    supply.free += source.free
  }
  supplies.sort((a, b) => b.free - a.free || compareExact(a.lot, b.lot) || compareExact(a.batchIds[0] ?? '', b.batchIds[0] ?? ''))

  let wanted = Math.max(0, copies - kept - (input.cutCopies?.get(need.threadId) ?? 0))
  const hasUsefulPart = ({ stock }: (typeof sources)[number]) =>
    stock.partStrandTenths >= leastUsefulPart(cut, stock.putUpStrandTenths)
  for (const supply of lotsToUse(supplies, wanted, lotsMatter)) {
    supply.sources.sort(
      (a, b) => Number(hasUsefulPart(b)) - Number(hasUsefulPart(a)) || a.free - b.free || compareExact(a.batch.id, b.batch.id),
    )
    for (const { batch, stock, begun, own, free } of supply.sources) {
      const kits = Math.min(wanted, free)
      if (kits === 0) continue
      const strandTenths = Math.max(own, lengthForKits(stock, cut, begun + kits))
      plan.promises.push({ batchId: batch.id, projectId, strandTenths })
      wanted -= kits
    }
  }
  return wanted * cut
}

/** How many kits' cuts of a batch a project is promised, and how many more are free to it. */
export function kitsFree(
  batch: Batch,
  promises: readonly StockPromise[],
  projectId: string,
  cutStrandTenths: number,
): { promised: number; free: number } {
  const stock = cutStockFor(batch, promises, projectId)
  const promised = kitsPromised(stock, cutStrandTenths, promisedTo(projectId, batch.id, promises))
  return { promised, free: kitsFrom(stock, cutStrandTenths) - promised }
}

const promisedTo = (projectId: string, batchId: string, promises: readonly StockPromise[]): number =>
  promises.reduce(
    (sum, promise) => (promise.batchId === batchId && promise.projectId === projectId ? sum + promise.strandTenths : sum),
    0,
  )
