import { ok, type Result, refused } from '#lib/result'
import { type Batch, compareExact, isOut, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import { planUse } from '#lib/stock/plan-amounts'
import { planReturn } from '#lib/stock/plan-place'
import { planRelease } from '#lib/stock/plan-promise'
import type { BatchAfter, StockChange } from '#lib/stock/stock-change'

/** What goes back into a drawer. */
type PutBack = {
  batchId: string
  threadId: string
  lot: string | null
  placeId: string
  wholePutUps: number
  partStrandTenths: number
  isSome: boolean
}

export type FinishPlan = {
  /** Everything to write, one after-image a batch, movements in order. */
  change: StockChange
  /** In walking order. */
  putBack: PutBack[]
  /** Put-ups that came out and do not go back: check whether to buy them again. In the order of thread ids. */
  usedUp: { threadId: string; putUps: number }[]
  /** What was pulled and is not in the bag: it stays out, last seen there. */
  missing: { batchId: string; threadId: string; lastSeenPlaceId: string; putUps: number }[]
  /** Put-ups, a part counting as one: pulled = back + used up + missing. */
  check: { pulled: number; back: number; usedUp: number; missing: number }
}

export type FinishRefused = { kind: 'not-enough'; threadId: string; heldStrandTenths: number; requestedStrandTenths: number }

/** How a leftover was found out; it is then known as `measured`. */
export const leftoverHows = ['measured', 'weighed'] as const
export type LeftoverHow = (typeof leftoverHows)[number]

export type LeftoverRefused =
  | { kind: 'nothing-in-bag'; threadId: string }
  | { kind: 'more-left-than-brought'; threadId: string; broughtStrandTenths: number; leftStrandTenths: number }

/**
 * What was used of a thread, by what is left of all that was in the bag of it.
 *
 * @param pulled    The thread's batches that were pulled.
 * @param missingIds  Those of them that were not in the bag.
 * @returns the use, and whether it can be learnt from: not where a batch is missing, or a part was only guessed before.
 */
export function usedByLeftover(
  pulled: readonly Batch[],
  leftover: { threadId: string; leftStrandTenths: number; missingIds: ReadonlySet<string> },
): Result<{ usedStrandTenths: number; isReading: boolean }, LeftoverRefused> {
  const { threadId, leftStrandTenths, missingIds } = leftover
  const present = pulled.filter((batch) => !missingIds.has(batch.id))
  if (present.length === 0) return refused({ kind: 'nothing-in-bag', threadId })
  const broughtStrandTenths = present.reduce((sum, batch) => sum + knownStrandTenths(batch), 0)
  const isUnsure = (batch: Batch) => batch.partCertainty === 'guess' || batch.partCertainty === 'some'
  if (leftStrandTenths > broughtStrandTenths)
    return refused({ kind: 'more-left-than-brought', threadId, broughtStrandTenths, leftStrandTenths })
  return ok({
    usedStrandTenths: broughtStrandTenths - leftStrandTenths,
    isReading: present.length === pulled.length && !present.some(isUnsure),
  })
}

const putUpsIn = (batch: Batch): number =>
  batch.wholePutUps + (batch.partStrandTenths > 0 || batch.partCertainty === 'some' ? 1 : 0)

/** Parts before whole put-ups, what is in the bag before what still lies at home. */
const byUse = (a: Batch, b: Batch): number =>
  Number(isOut(b)) - Number(isOut(a)) ||
  Number(b.partStrandTenths > 0) - Number(a.partStrandTenths > 0) ||
  knownStrandTenths(a) - knownStrandTenths(b) ||
  compareExact(a.id, b.id)

/**
 * Close a project's stock: what was used is used up, what is left goes home or onto the list to be put back, its promises are freed.
 *
 * @param batches    All that lies in the project's bag, and all at home that was promised to it.
 * @param promises   The promises on those batches. What others were promised is never used.
 * @param needs      What the design needs of each thread; taken as used, as far as it is there, where `used` says nothing.
 * @param used       Strand tenths of a thread that were really used; 0 for none.
 * @param missingBatchIds  Pulled, and not found in the bag.
 * @param measuredThreadIds  Threads whose leftover was measured or weighed: where it is all in one batch, its part is known to be measured.
 * @param mergeInto  For a batch in the bag, the equal one at home that its leftover joins.
 * @param returns    `now`: what is left is put back at this moment; `listed`: it stays in the bag until it is ticked home from the list.
 * @param walkRanks  Each place's turn in the walk (see `walkRanks`).
 * @returns `not-enough` when more is said to be used than was there.
 */
export function planFinish(input: {
  projectId: string
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  needs: readonly { threadId: string; strandTenths: number }[]
  used?: ReadonlyMap<string, number>
  missingBatchIds?: readonly string[]
  measuredThreadIds?: ReadonlySet<string>
  mergeInto?: ReadonlyMap<string, Batch>
  returns?: 'now' | 'listed'
  walkRanks: ReadonlyMap<string, number>
}): Result<FinishPlan, FinishRefused> {
  const { projectId, promises, used = new Map<string, number>(), mergeInto = new Map<string, Batch>() } = input
  const missingIds = new Set(input.missingBatchIds ?? [])
  const pulled = input.batches.filter(isOut).sort((a, b) => compareExact(a.id, b.id))
  const present = input.batches.filter((batch) => !missingIds.has(batch.id))
  const now = new Map<string, BatchAfter>()
  const change: StockChange = { batches: [], movements: [], promises: planRelease(promises, projectId) }
  const latest = (batch: Batch): Batch => now.get(batch.id) ?? batch
  const apply = (part: StockChange) => {
    for (const batch of part.batches) now.set(batch.id, batch)
    change.movements.push(...part.movements)
  }

  const threadIds = [...new Set(present.map((batch) => batch.threadId))].sort(compareExact)
  for (const threadId of new Set([...threadIds, ...used.keys()])) {
    const stated = used.get(threadId)
    const needed = input.needs.reduce((sum, need) => (need.threadId === threadId ? sum + need.strandTenths : sum), 0)
    const usable = present
      .filter((batch) => batch.threadId === threadId)
      .sort(byUse)
      .map((batch) => ({ batch, strandTenths: usableOf(batch, promises, projectId) }))
    const held = usable.reduce((sum, { strandTenths }) => sum + strandTenths, 0)
    if (stated !== undefined && stated > held) {
      return refused({ kind: 'not-enough', threadId, heldStrandTenths: held, requestedStrandTenths: stated })
    }
    let left = stated ?? Math.min(needed, held)
    for (const { batch, strandTenths } of usable) {
      const here = Math.min(left, strandTenths)
      if (here === 0) continue
      const use = planUse(batch, { strandTenths: here, projectId })
      if (!use.ok) throw new Error(`planFinish: ${here} of batch ${batch.id} refused`)
      apply(use.value)
      left -= here
    }
    const inBag = present.filter((batch) => batch.threadId === threadId && isOut(batch))
    const [only] = inBag
    if (only && inBag.length === 1 && input.measuredThreadIds?.has(threadId)) {
      const known = now.get(only.id)
      if (known && known.partStrandTenths > 0) now.set(only.id, { ...known, partCertainty: 'measured' })
    }
  }

  const plan: FinishPlan = { change, putBack: [], usedUp: [], missing: [], check: { pulled: 0, back: 0, usedUp: 0, missing: 0 } }
  const usedUp = new Map<string, number>()
  for (const before of pulled) {
    const batch = latest(before)
    const putUps = putUpsIn(before)
    plan.check.pulled += putUps
    if (missingIds.has(batch.id)) {
      plan.missing.push({ batchId: batch.id, threadId: batch.threadId, lastSeenPlaceId: batch.currentPlaceId as string, putUps })
      plan.check.missing += putUps
      continue
    }
    const back = putUpsIn(batch)
    plan.check.back += back
    plan.check.usedUp += putUps - back
    if (putUps > back) usedUp.set(batch.threadId, (usedUp.get(batch.threadId) ?? 0) + putUps - back)
    if (back > 0) {
      plan.putBack.push({
        batchId: batch.id,
        threadId: batch.threadId,
        lot: batch.lot,
        placeId: batch.homePlaceId as string,
        wholePutUps: batch.wholePutUps,
        partStrandTenths: batch.partStrandTenths,
        isSome: batch.partCertainty === 'some',
      })
    }
    // An empty row has nothing to be carried: it goes home by itself.
    if (back > 0 && input.returns === 'listed') continue
    const target = mergeInto.get(batch.id)
    const home = planReturn(batch, {
      atHome: target ? latest(target) : null,
      projectId,
      promises: othersThan(projectId, promises),
    })
    if (!home.ok) throw new RangeError(`planFinish: batch ${batch.id} cannot join ${target?.id}: ${home.error.kind}`)
    apply(home.value)
    change.promises.push(...home.value.promises)
  }
  const rankOf = (placeId: string) => input.walkRanks.get(placeId) ?? Number.MAX_SAFE_INTEGER
  plan.putBack.sort(
    (a, b) => rankOf(a.placeId) - rankOf(b.placeId) || compareExact(a.placeId, b.placeId) || compareExact(a.batchId, b.batchId),
  )
  plan.usedUp = [...usedUp]
    .map(([threadId, putUps]) => ({ threadId, putUps }))
    .sort((a, b) => compareExact(a.threadId, b.threadId))
  change.batches = [...now.values()]
  return ok(plan)
}

const othersThan = (projectId: string, promises: readonly StockPromise[]): StockPromise[] =>
  promises.filter((promise) => promise.projectId !== projectId)

/** Of a batch in the bag, all that others were not promised; of one at home, what the project was. */
function usableOf(batch: Batch, promises: readonly StockPromise[], projectId: string): number {
  const promisedTo = (isOwn: boolean) =>
    promises.reduce(
      (sum, promise) =>
        promise.batchId === batch.id && (promise.projectId === projectId) === isOwn ? sum + promise.strandTenths : sum,
      0,
    )
  const free = Math.max(0, knownStrandTenths(batch) - promisedTo(false))
  return isOut(batch) ? free : Math.min(free, promisedTo(true))
}
