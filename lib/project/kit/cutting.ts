import { cutOf, kitsFrom, leastUsefulPart } from '#lib/coverage/kit-cuts'
import { type Batch, compareExact, isOut, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import { after, draft, type MovementDraft, type PromiseAfter, type StockChange } from '#lib/stock/stock-change'
import { bagsWithCut, type KitLot, lotsOverBags, rangesOf } from './record'
import { cutStockFor } from './stock'

/** A thread of the master list: how long each bag's cut is, in strand tenths, and whether all bags are to have it of one lot. */
export type ThreadToCut = {
  threadId: string
  cutStrandTenths: number
  /** Of the thread's line: a longer cut is joined of whole put-ups and a rest, a shorter one never. */
  linePutUpStrandTenths: number
  needsOneLot: boolean
}

export type CutsOfThread = {
  threadId: string
  /** What is to be cut now, in the order of the bags. */
  runs: KitLot[]
  /** Bags for which there is none. */
  short: number[]
  /** Every lot the bags have it of once these are cut, those before it counted in. */
  lots: ReturnType<typeof lotsOverBags>
  /** It should be of one lot and is not. */
  isMixed: boolean
}

export type KitCutting = { threads: CutsOfThread[]; change: StockChange }

/** What lies of an opened batch that is too short for another cut of its own put-up. */
export const remnantWord = 'remnant'

type Source = { batch: Batch; kits: number; hasUsefulPart: boolean; isPromised: boolean }
type Supply = { key: string; lot: string | null; sources: Source[]; kits: number }

type CuttingInput = {
  projectId: string
  /** Whose stock may be cut. */
  ownerId: string
  threads: readonly ThreadToCut[]
  /** Every bag there is to be, in order. */
  bags: readonly number[]
  /** What was cut before. */
  lots: readonly KitLot[]
  batches: readonly Batch[]
  /** All promises on these batches. */
  promises: readonly StockPromise[]
  newBatchId: () => string
}

/**
 * Cut thread for the bags of a batch of kits that have none of it yet, in the order of the bags: no cut is joined, and where one lot is
 * enough all bags have it of that one, first of all of a lot that other bags have. What the project was promised comes first; free stock
 * of its owner is only opened where that is not enough, or where a thread that wants one lot finds it there.
 *
 * What is left over stays thread: the longest piece as the batch's part, shorter ones split off as remnants, each of its own length, so
 * that nobody counts on two of them as one. Once every bag has its cut, what is still promised of that thread is freed.
 *
 * Source: the project's trade notes, 3.2 "Length cuts for kits" and "Same-lot rule".
 */
export function planKitCutting(input: CuttingInput): KitCutting {
  const change: StockChange = { batches: [], movements: [], promises: [] }
  const threads = input.threads.map((thread): CutsOfThread => {
    const { threadId } = thread
    const done = bagsWithCut(input.lots, threadId)
    const bags = input.bags.filter((bag) => !done.has(bag))
    const runs: KitLot[] = []
    let at = 0
    for (const { batch, kits } of thread.cutStrandTenths > 0 ? shareOut(input, thread, bags.length) : []) {
      const mine = bags.slice(at, at + kits)
      at += kits
      for (const range of rangesOf(mine)) runs.push({ threadId, batchId: batch.id, lot: batch.lot, ...range })
      addChange(change, cutBatch(batch, thread.cutStrandTenths, kits, input))
    }
    const short = thread.cutStrandTenths > 0 ? bags.slice(at) : []
    if (short.length === 0) freePromises(change, input, threadId)
    const lots = lotsOverBags([...input.lots, ...runs], threadId)
    return { threadId, runs, short, lots, isMixed: thread.needsOneLot && lots.length > 1 }
  })
  return { threads, change }
}

/** How many cuts to take from which batch. */
function shareOut(input: CuttingInput, thread: ThreadToCut, wanted: number): { batch: Batch; kits: number }[] {
  if (wanted === 0) return []
  const sources = input.batches
    .filter((batch) => batch.threadId === thread.threadId && batch.ownerId === input.ownerId && isLongEnough(batch, thread))
    .map((batch): Source => {
      const stock = cutStockFor(batch, input.promises, input.projectId)
      return {
        batch,
        kits: kitsFrom(stock, thread.cutStrandTenths),
        hasUsefulPart: stock.partStrandTenths >= leastUsefulPart(thread.cutStrandTenths, batch.putUpStrandTenths),
        isPromised: input.promises.some(({ batchId, projectId }) => batchId === batch.id && projectId === input.projectId),
      }
    })
    .filter(({ kits }) => kits > 0)
  const promised = suppliesOf(sources.filter(({ isPromised }) => isPromised))
  const all = suppliesOf(sources)
  const used = lotsOverBags(input.lots, thread.threadId)
  const single = (supplies: readonly Supply[]) => oneLot(supplies, wanted, used.length === 1 ? keyOf(used[0]) : null)
  const isEnough = promised.reduce((sum, { kits }) => sum + kits, 0) >= wanted
  const chosen =
    single(promised) ??
    (thread.needsOneLot || !isEnough ? single(all) : null) ??
    (isEnough ? promised : byMost(all, used.map(keyOf)))
  const shares: { batch: Batch; kits: number }[] = []
  let left = wanted
  for (const supply of chosen) {
    for (const { batch, kits } of supply.sources) {
      const taken = Math.min(left, kits)
      if (taken > 0) shares.push({ batch, kits: taken })
      left -= taken
    }
  }
  return shares
}

/** A batch of short put-ups, as remnants are, gives no cut longer than one of them, unless the thread is always sold so short. */
const isLongEnough = ({ putUpStrandTenths }: Batch, { cutStrandTenths, linePutUpStrandTenths }: ThreadToCut): boolean =>
  cutStrandTenths <= putUpStrandTenths || cutStrandTenths > linePutUpStrandTenths

const lotKey = (lot: string | null, batchId: string | undefined): string => (lot === null ? `unmarked ${batchId}` : `lot ${lot}`)
const keyOf = (lot: { lot: string | null; batchIds: string[] } | undefined): string => lotKey(lot?.lot ?? null, lot?.batchIds[0])

function suppliesOf(sources: readonly Source[]): Supply[] {
  const supplies = new Map<string, Supply>()
  for (const source of sources) {
    const key = lotKey(source.batch.lot, source.batch.id)
    const supply = supplies.get(key) ?? { key, lot: source.batch.lot, sources: [], kits: 0 }
    supply.sources.push(source)
    supply.kits += source.kits
    supplies.set(key, supply)
  }
  for (const { sources: own } of supplies.values()) {
    own.sort(
      (a, b) =>
        Number(b.isPromised) - Number(a.isPromised) ||
        Number(b.hasUsefulPart) - Number(a.hasUsefulPart) ||
        a.kits - b.kits ||
        compareExact(a.batch.id, b.batch.id),
    )
  }
  return byMost([...supplies.values()], [])
}

/** Lots the bags have already first, then those that give most. */
const byMost = (supplies: readonly Supply[], used: readonly string[]): Supply[] =>
  [...supplies].sort(
    (a, b) =>
      Number(used.includes(b.key)) - Number(used.includes(a.key)) ||
      b.kits - a.kits ||
      compareExact(a.lot, b.lot) ||
      compareExact(a.key, b.key),
  )

/** The one lot to cut all from: what the other bags have, else the smallest that is enough; null where none is. */
function oneLot(supplies: readonly Supply[], wanted: number, usedKey: string | null): Supply[] | null {
  const enough = supplies.filter(({ kits }) => kits >= wanted)
  const same = enough.find(({ key }) => key === usedKey)
  if (same) return [same]
  const [smallest] = [...enough].sort((a, b) => a.kits - b.kits || compareExact(a.lot, b.lot) || compareExact(a.key, b.key))
  return smallest ? [smallest] : null
}

/** The pieces a batch is in once so many cuts were made of it: the old part, then whole put-ups opened one by one. */
function piecesAfter(batch: Batch, cutStrandTenths: number, kits: number) {
  const { whole, rest, perPutUp } = cutOf(cutStrandTenths, batch.putUpStrandTenths)
  const part = batch.partCertainty === 'some' ? 0 : batch.partStrandTenths
  const fromPart = Math.min(kits, Math.floor(part / rest))
  const fromPutUps = kits - fromPart
  const opened = Math.ceil(fromPutUps / perPutUp)
  const ofLast = fromPutUps - (opened - 1) * perPutUp
  const full = batch.putUpStrandTenths - perPutUp * rest
  const last = opened === 0 ? 0 : batch.putUpStrandTenths - ofLast * rest
  const isLastFull = opened > 0 && ofLast === perPutUp
  return {
    wholePutUps: batch.wholePutUps - kits * whole - opened,
    partStrandTenths: part - fromPart * rest,
    /** What is left of each put-up that gave all it could. */
    fullStrandTenths: full,
    fullCount: full === 0 ? 0 : isLastFull ? opened : Math.max(0, opened - 1),
    lastStrandTenths: isLastFull ? 0 : last,
  }
}

function cutBatch(batch: Batch, cutStrandTenths: number, kits: number, input: CuttingInput): StockChange {
  const { projectId, promises } = input
  const pieces = piecesAfter(batch, cutStrandTenths, kits)
  const { fullStrandTenths } = pieces
  // The longest piece is the batch's part; ties go to the old one.
  const longest = Math.max(pieces.partStrandTenths, pieces.fullCount > 0 ? fullStrandTenths : 0, pieces.lastStrandTenths)
  const isOldPart = longest > 0 && pieces.partStrandTenths === longest
  const isLast = !isOldPart && longest > 0 && pieces.lastStrandTenths === longest
  const fullCount = pieces.fullCount - (longest > 0 && !isOldPart && !isLast ? 1 : 0)
  // At most one of the two is left beside the longest, for the last put-up's rest is longer than a full one's.
  const odd = (isOldPart ? 0 : pieces.partStrandTenths) + (isLast ? 0 : pieces.lastStrandTenths)
  const oddCertainty = odd === 0 ? 'none' : isOldPart ? 'label' : batch.partCertainty
  const hasSome = batch.partCertainty === 'some'
  const partCertainty = longest > 0 ? (isOldPart ? batch.partCertainty : hasSome ? 'guess' : 'label') : hasSome ? 'some' : 'none'
  const left = { wholePutUps: pieces.wholePutUps, partStrandTenths: longest, partCertainty } as const
  const splitStrandTenths = fullCount * fullStrandTenths + odd

  const movements: MovementDraft[] = [
    draft('use', batch, {
      wholeDelta: left.wholePutUps - batch.wholePutUps,
      partDeltaStrandTenths: longest + splitStrandTenths - batch.partStrandTenths,
      fromPlaceId: batch.currentPlaceId,
      projectId,
      reason: `cut for ${kits} ${kits === 1 ? 'kit' : 'kits'}`,
    }),
  ]
  const batches = [after(batch, left)]
  const remnantId = splitStrandTenths > 0 ? input.newBatchId() : null
  if (remnantId !== null) {
    const remnant: Batch = {
      ...batch,
      id: remnantId,
      putUpWord: remnantWord,
      putUpStrandTenths: fullCount > 0 ? fullStrandTenths : batch.putUpStrandTenths,
      wholePutUps: fullCount,
      partStrandTenths: odd,
      partCertainty: oddCertainty,
    }
    const { currentPlaceId } = batch
    const places = { fromPlaceId: currentPlaceId, toPlaceId: currentPlaceId, projectId, reason: 'remnants of cutting' }
    batches.push({ ...after(remnant), isNew: true, parentId: batch.id })
    movements.push(
      draft('split', batch, { partDeltaStrandTenths: -splitStrandTenths, ...places }),
      // In the project's bag, as what was taken there, so that unpacking it brings them home.
      draft(isOut(batch) ? 'take' : 'split', remnant, { wholeDelta: fullCount, partDeltaStrandTenths: odd, ...places }),
    )
  }
  const stays = knownStrandTenths({ ...batch, ...left })
  const used = kits * cutStrandTenths
  return {
    batches,
    movements,
    promises: promisesAfter(batch, { used, stays, remnantId, splitStrandTenths }, { projectId, promises }),
  }
}

/**
 * The promises on a batch that was cut, those that change. What others were promised of more than stays goes over to the remnants; the
 * project's own kits cannot use those.
 */
function promisesAfter(
  batch: Batch,
  cut: { used: number; stays: number; remnantId: string | null; splitStrandTenths: number },
  { projectId, promises }: Pick<CuttingInput, 'projectId' | 'promises'>,
): PromiseAfter[] {
  const isOwn = (promise: { projectId: string }) => promise.projectId === projectId
  const before = promises
    .filter(({ batchId }) => batchId === batch.id)
    .sort((a, b) => Number(isOwn(b)) - Number(isOwn(a)) || compareExact(a.id, b.id))
  const kept = before.map((promise) => (isOwn(promise) ? Math.max(0, promise.strandTenths - cut.used) : promise.strandTenths))
  const sum = kept.reduce((total, strandTenths) => total + strandTenths, 0)
  let over = cut.remnantId === null ? 0 : Math.min(Math.max(0, sum - cut.stays), cut.splitStrandTenths)
  return before.flatMap((promise, at) => {
    const wanted = kept[at] ?? 0
    const moved = Math.min(wanted, over)
    over -= moved
    const strandTenths = wanted - moved
    const stays = strandTenths === promise.strandTenths ? [] : [{ batchId: batch.id, projectId: promise.projectId, strandTenths }]
    const goes =
      moved > 0 && cut.remnantId !== null && !isOwn(promise)
        ? [{ batchId: cut.remnantId, projectId: promise.projectId, strandTenths: moved }]
        : []
    return [...stays, ...goes]
  })
}

function addChange(change: StockChange, more: StockChange): void {
  change.batches.push(...more.batches)
  change.movements.push(...more.movements)
  change.promises.push(...more.promises)
}

/** What the project is still promised of a thread that every bag has its cut of. */
function freePromises(change: StockChange, input: CuttingInput, threadId: string): void {
  const ofThread = new Set(
    [...input.batches, ...change.batches].flatMap((batch) => (batch.threadId === threadId ? [batch.id] : [])),
  )
  const isOurs = ({ batchId, projectId }: { batchId: string; projectId: string }) =>
    projectId === input.projectId && ofThread.has(batchId)
  change.promises = change.promises.filter((promise) => !isOurs(promise))
  for (const { batchId, projectId } of input.promises) {
    if (isOurs({ batchId, projectId })) change.promises.push({ batchId, projectId, strandTenths: 0 })
  }
}

/** Which bags are cut from which stock, as text: what somebody saw of a plan is the plan as long as this is the same. */
export const cuttingKey = ({ threads }: Pick<KitCutting, 'threads'>): string =>
  threads.flatMap(({ runs }) => runs.map(({ batchId, fromBag, toBag }) => `${batchId}:${fromBag}-${toBag}`)).join(' ')
