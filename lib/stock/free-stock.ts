import { grouped } from '#lib/grouped'
import { type Certainty, weakestCertainty } from '#lib/quantity/certainty'
import { type Batch, compareExact, isOut, knownStrandTenths, type StockPromise } from './batch'

/** What is held of one dye lot. Batches without a lot mark are each a lot of their own: nobody can say that they match. */
export type FreeLot = { lot: string | null; ownedStrandTenths: number; freeStrandTenths: number; batchIds: string[] }

/** Thread that is owned but not free, and where it is. A batch of which only "some" is out is listed with length 0. */
export type HeldElsewhere = {
  batchId: string
  placeId: string | null
  projectId: string | null
  strandTenths: number
  why: 'out' | 'promised'
}

/** What is owned, out, promised to others and free of one thread, in tenths of a millimetre of one strand. */
export type FreeStock = {
  threadId: string
  ownedStrandTenths: number
  outStrandTenths: number
  /** Promised to others, of what is not out: each skein is taken off once. */
  promisedStrandTenths: number
  freeStrandTenths: number
  /** Most free first; ties by what is owned, then the lot's text (unmarked last), then the first batch. */
  lots: FreeLot[]
  /** A part skein of unknown length is at home too. */
  isSomeHeld: boolean
  /** By batch, then project. */
  elsewhere: HeldElsewhere[]
  /** The weakest certainty among what is free. */
  certainty: Certainty
}

/**
 * How much of one batch is free to `forProjectId` (or to a new project when null).
 *
 * What is promised to that project counts as free to it even when it is out, for then it is in the project's own bag. What others
 * were promised is taken off only of what is at home.
 *
 * @param promises  The promises of this batch; others are passed over.
 */
export function freeOfBatch(
  batch: Batch,
  promises: readonly StockPromise[],
  forProjectId: string | null,
): { ownedStrandTenths: number; outStrandTenths: number; promisedStrandTenths: number; freeStrandTenths: number } {
  const owned = knownStrandTenths(batch)
  let own = 0
  let others = 0
  for (const promise of promises) {
    if (promise.batchId !== batch.id) continue
    if (promise.projectId === forProjectId) own += promise.strandTenths
    else others += promise.strandTenths
  }
  const out = isOut(batch) ? owned - Math.min(owned, own) : 0
  const promised = isOut(batch) ? 0 : Math.min(owned, others)
  return {
    ownedStrandTenths: owned,
    outStrandTenths: out,
    promisedStrandTenths: promised,
    freeStrandTenths: owned - out - promised,
  }
}

const certaintyOf = (batch: Batch): Certainty => {
  if (batch.partStrandTenths === 0 || batch.partCertainty === 'none' || batch.partCertainty === 'some') return 'label'
  if (batch.partCertainty === 'measured') return batch.wholePutUps > 0 ? 'label' : 'measured'
  return batch.partCertainty
}

function listElsewhere(
  batch: Batch,
  promises: readonly StockPromise[],
  amounts: ReturnType<typeof freeOfBatch>,
  forProjectId: string | null,
) {
  const placeId = batch.currentPlaceId ?? batch.homePlaceId
  const others = promises
    .filter((promise) => promise.batchId === batch.id && promise.projectId !== forProjectId)
    .sort((a, b) => compareExact(a.projectId, b.projectId) || compareExact(a.id, b.id))
  if (isOut(batch)) {
    if (amounts.outStrandTenths === 0 && batch.partCertainty !== 'some') return []
    // The bag it is in was filled for whoever was promised it.
    const projectId = others[0]?.projectId ?? null
    return [{ batchId: batch.id, placeId, projectId, strandTenths: amounts.outStrandTenths, why: 'out' as const }]
  }
  let left = amounts.promisedStrandTenths
  const listed: HeldElsewhere[] = []
  for (const promise of others) {
    const strandTenths = Math.min(left, promise.strandTenths)
    if (strandTenths === 0) continue
    left -= strandTenths
    listed.push({ batchId: batch.id, placeId, projectId: promise.projectId, strandTenths, why: 'promised' })
  }
  return listed
}

/**
 * Free stock of one thread: owned − out − promised to others, each skein taken off once.
 *
 * @param batches       Batches of one thread; those of other owners than `ownerIds` are passed over.
 * @param promises      Any promises; those on other batches are passed over.
 * @param forProjectId  What this project was promised still counts for it, also when it is out in its bag.
 * @returns             Never negative; the order of batches and promises makes no difference.
 * @throws {RangeError} if the batches are of several threads.
 */
export function freeStock(input: {
  threadId: string
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  forProjectId?: string | null
  ownerIds: readonly string[]
}): FreeStock {
  const { threadId, promises } = input
  const forProjectId = input.forProjectId ?? null
  const free: FreeStock = {
    threadId,
    ownedStrandTenths: 0,
    outStrandTenths: 0,
    promisedStrandTenths: 0,
    freeStrandTenths: 0,
    lots: [],
    isSomeHeld: false,
    elsewhere: [],
    certainty: 'measured',
  }
  const known: Certainty[] = []
  const lotByMark = new Map<string, FreeLot>()
  const batches = input.batches.filter((batch) => input.ownerIds.includes(batch.ownerId)).sort((a, b) => compareExact(a.id, b.id))
  for (const batch of batches) {
    if (batch.threadId !== threadId)
      throw new RangeError(`freeStock: batch ${batch.id} is of thread ${batch.threadId}, not ${threadId}`)
    const amounts = freeOfBatch(batch, promises, forProjectId)
    free.ownedStrandTenths += amounts.ownedStrandTenths
    free.outStrandTenths += amounts.outStrandTenths
    free.promisedStrandTenths += amounts.promisedStrandTenths
    free.freeStrandTenths += amounts.freeStrandTenths
    free.elsewhere.push(...listElsewhere(batch, promises, amounts, forProjectId))
    if (batch.partCertainty === 'some' && !isOut(batch)) free.isSomeHeld = true
    if (amounts.freeStrandTenths > 0) known.push(certaintyOf(batch))
    if (amounts.ownedStrandTenths === 0) continue
    let lot = batch.lot === null ? undefined : lotByMark.get(batch.lot)
    if (!lot) {
      lot = { lot: batch.lot, ownedStrandTenths: 0, freeStrandTenths: 0, batchIds: [] }
      free.lots.push(lot)
      if (batch.lot !== null) lotByMark.set(batch.lot, lot)
    }
    lot.ownedStrandTenths += amounts.ownedStrandTenths
    lot.freeStrandTenths += amounts.freeStrandTenths
    lot.batchIds.push(batch.id)
  }
  free.lots.sort(
    (a, b) =>
      b.freeStrandTenths - a.freeStrandTenths ||
      b.ownedStrandTenths - a.ownedStrandTenths ||
      compareExact(a.lot, b.lot) ||
      compareExact(a.batchIds[0] as string, b.batchIds[0] as string),
  )
  free.certainty = weakestCertainty(known)
  return free
}

/** Free stock of every thread that has a batch, by thread. */
export function freeStockByThread(input: {
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  forProjectId?: string | null
  ownerIds: readonly string[]
}): Map<string, FreeStock> {
  const promisesByBatch = grouped(input.promises, (promise) => promise.batchId)
  const byThread = new Map<string, FreeStock>()
  for (const [threadId, batches] of grouped(input.batches, (batch) => batch.threadId)) {
    const promises = batches.flatMap((batch) => promisesByBatch.get(batch.id) ?? [])
    byThread.set(threadId, freeStock({ ...input, threadId, batches, promises }))
  }
  return byThread
}
