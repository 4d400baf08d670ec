import { ok, type Result, refused } from '#lib/result'
import { type Batch, compareExact, isOut, knownStrandTenths, type PartCertainty, type StockPromise } from './batch'
import { freeOfBatch } from './free-stock'

export const movementKinds = [
  'receive',
  'use',
  'move',
  'take',
  'return',
  'split',
  'merge',
  'correct',
  'transfer',
  'cut',
  'undo',
] as const
export type MovementKind = (typeof movementKinds)[number]

/** One line of the journal before it is numbered and dated. A batch's amounts are the sums of its deltas. */
export type MovementDraft = {
  kind: MovementKind
  batchId: string
  wholeDelta: number
  partDeltaStrandTenths: number
  fromPlaceId: string | null
  toPlaceId: string | null
  fromOwnerId: string | null
  toOwnerId: string | null
  projectId: string | null
  reason: string | null
}

/** A batch as it is to be written. `isGone` marks one that was merged into another and is shown no more. */
export type BatchAfter = Batch & { isNew: boolean; isGone: boolean; parentId: string | null }

/** What a project is to have promised of a batch: its one promise on it becomes this much; 0 removes it. */
export type PromiseAfter = { batchId: string; projectId: string; strandTenths: number }

export type StockChange = { batches: BatchAfter[]; movements: MovementDraft[]; promises: PromiseAfter[] }

export type NotEnough = { kind: 'not-enough'; batchId: string; heldStrandTenths: number; requestedStrandTenths: number }
export type NotEnoughFree = { kind: 'not-enough-free'; batchId: string; freeStrandTenths: number; requestedStrandTenths: number }
/** Nothing is parted off: no put-up and no part was asked for, or none is there. */
export type NothingParted = { kind: 'nothing-parted'; batchId: string }
export type Promised = { kind: 'promised'; batchId: string; projectIds: string[] }
export type AlreadyTheirs = { kind: 'already-theirs'; ownerId: string }
export type AlreadyThere = { kind: 'already-there'; batchId: string; placeId: string }

type Amounts = Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>

function assertWhole(caller: string, name: string, value: number, least: number): void {
  if (!Number.isSafeInteger(value) || value < least) throw new RangeError(`${caller}: ${name} ${value}`)
}

/** A batch that was there before, as it is after a change. */
export const after = (batch: Batch, change: Partial<Batch> = {}): BatchAfter => ({
  ...batch,
  ...change,
  isNew: false,
  isGone: false,
  parentId: null,
})

/** A line of the journal on one batch that says no more than `change` does. */
export const draft = (kind: MovementKind, batch: Batch, change: Partial<MovementDraft> = {}): MovementDraft => ({
  kind,
  batchId: batch.id,
  wholeDelta: 0,
  partDeltaStrandTenths: 0,
  fromPlaceId: null,
  toPlaceId: null,
  fromOwnerId: null,
  toOwnerId: null,
  projectId: null,
  reason: null,
  ...change,
})

const partCertaintyOrder: PartCertainty[] = ['none', 'measured', 'label', 'guess', 'some']

/**
 * Two part lengths together. Certainty is the weaker of the two. "Some" and a known length make at least the known length, so they
 * are that length as a guess; "some" alone, or twice, stays "some".
 */
function joinParts(a: Amounts, b: Amounts): Pick<Amounts, 'partStrandTenths' | 'partCertainty'> {
  const partStrandTenths = a.partStrandTenths + b.partStrandTenths
  const weaker = Math.max(partCertaintyOrder.indexOf(a.partCertainty), partCertaintyOrder.indexOf(b.partCertainty))
  const partCertainty = partCertaintyOrder[weaker] as PartCertainty
  return { partStrandTenths, partCertainty: partCertainty === 'some' && partStrandTenths > 0 ? 'guess' : partCertainty }
}

/**
 * What is left of a batch when a length is drawn from it: the part first, then whole put-ups opened one by one.
 *
 * The batch must hold the length.
 */
export function leftAfter(
  batch: Amounts & Pick<Batch, 'putUpStrandTenths'>,
  strandTenths: number,
): Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'> {
  const part = batch.partCertainty === 'some' ? 0 : batch.partStrandTenths
  if (strandTenths <= part) {
    const partStrandTenths = part - strandTenths
    return {
      wholePutUps: batch.wholePutUps,
      partStrandTenths,
      partCertainty: partStrandTenths === 0 ? 'none' : batch.partCertainty,
    }
  }
  const opened = Math.ceil((strandTenths - part) / batch.putUpStrandTenths)
  const partStrandTenths = opened * batch.putUpStrandTenths - (strandTenths - part)
  // The leftover is what the label said less what was used after the old part; it is no surer than that part was.
  const leftover = joinParts({ ...batch, partStrandTenths: 0 }, { wholePutUps: 0, partStrandTenths, partCertainty: 'label' })
  const isUsedUp = partStrandTenths === 0 && leftover.partCertainty !== 'some'
  return { wholePutUps: batch.wholePutUps - opened, partStrandTenths, partCertainty: isUsedUp ? 'none' : leftover.partCertainty }
}

const delta = (before: Amounts, now: Amounts): Pick<MovementDraft, 'wholeDelta' | 'partDeltaStrandTenths'> => ({
  wholeDelta: now.wholePutUps - before.wholePutUps,
  partDeltaStrandTenths: now.partStrandTenths - before.partStrandTenths,
})

const promisedOf = (batch: Batch, promises: readonly StockPromise[], belongs: (projectId: string) => boolean): number =>
  promises.reduce(
    (sum, promise) => (promise.batchId === batch.id && belongs(promise.projectId) ? sum + promise.strandTenths : sum),
    0,
  )

/** What two batches must have in common for one row to hold both. */
export const batchMarks = ['threadId', 'ownerId', 'lot', 'putUpWord', 'putUpStrandTenths', 'homePlaceId'] as const
export type BatchMark = (typeof batchMarks)[number]

/** Same thread, owner, lot, kind and length of put-up, and home: one row can hold both. */
export const isEqualBatch = (a: Batch, b: Batch): boolean => batchMarks.every((mark) => a[mark] === b[mark])

const nothing: Amounts = { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' }

const together = (a: Amounts, b: Amounts): Amounts => ({ wholePutUps: a.wholePutUps + b.wholePutUps, ...joinParts(a, b) })

/** What is to be parted off a batch: whole put-ups, the part, or both. */
export type Parting = { wholePutUps: number; takesPart: boolean }

/**
 * A batch in two: what is parted off and what stays.
 *
 * @param promisedStrandTenths  what of the batch is promised and must stay behind
 */
function partOff(
  caller: string,
  batch: Batch,
  { wholePutUps, takesPart }: Parting,
  promisedStrandTenths: number,
): Result<{ parted: Amounts; left: Amounts }, NotEnough | NotEnoughFree | NothingParted> {
  assertWhole(caller, 'wholePutUps', wholePutUps, 0)
  if (wholePutUps === 0 && !takesPart) return refused({ kind: 'nothing-parted', batchId: batch.id })
  const { partStrandTenths, partCertainty } = takesPart ? batch : nothing
  const parted: Amounts = { wholePutUps, partStrandTenths, partCertainty }
  const held = knownStrandTenths(batch)
  const requestedStrandTenths = knownStrandTenths({ ...batch, ...parted })
  if (wholePutUps > batch.wholePutUps || (takesPart && batch.partCertainty === 'none'))
    return refused({ kind: 'not-enough', batchId: batch.id, heldStrandTenths: held, requestedStrandTenths })
  const freeStrandTenths = Math.max(0, held - promisedStrandTenths)
  if (requestedStrandTenths > freeStrandTenths)
    return refused({ kind: 'not-enough-free', batchId: batch.id, freeStrandTenths, requestedStrandTenths })
  const left: Amounts = {
    wholePutUps: batch.wholePutUps - wholePutUps,
    partStrandTenths: batch.partStrandTenths - partStrandTenths,
    partCertainty: takesPart ? 'none' : batch.partCertainty,
  }
  return ok({ parted, left })
}

const isEmpty = (amounts: Amounts): boolean => amounts.wholePutUps === 0 && amounts.partCertainty === 'none'

/**
 * Take thread into stock: as a new batch, or added to `into` when that is an equal batch at its home.
 *
 * @returns `nothing-received` when there is no whole put-up, no part and not even "some"; `not-equal` when `into` is another lot,
 *   owner, put-up or home, or is out.
 * @throws {RangeError} if an amount is not a whole number of nought or more, or the put-up is not above nought.
 */
export function planReceive(input: {
  goods: Omit<Batch, 'id'>
  into?: Batch | null
  newBatchId?: string
  reason?: string | null
}): Result<StockChange, { kind: 'nothing-received' } | { kind: 'not-equal'; batchId: string }> {
  const { goods } = input
  const into = input.into ?? null
  assertWhole('planReceive', 'wholePutUps', goods.wholePutUps, 0)
  assertWhole('planReceive', 'partStrandTenths', goods.partStrandTenths, 0)
  assertWhole('planReceive', 'putUpStrandTenths', goods.putUpStrandTenths, 1)
  if (goods.wholePutUps === 0 && goods.partStrandTenths === 0 && goods.partCertainty !== 'some')
    return refused({ kind: 'nothing-received' })
  const batch: Batch = { ...goods, id: input.newBatchId ?? 'new:1' }
  const change = {
    wholeDelta: goods.wholePutUps,
    partDeltaStrandTenths: goods.partStrandTenths,
    toPlaceId: goods.currentPlaceId,
    toOwnerId: goods.ownerId,
    reason: input.reason ?? null,
  }
  if (!into) {
    return ok({ batches: [{ ...after(batch), isNew: true }], movements: [draft('receive', batch, change)], promises: [] })
  }
  if (!isEqualBatch(into, batch) || into.currentPlaceId !== goods.currentPlaceId || isOut(into)) {
    return refused({ kind: 'not-equal', batchId: into.id })
  }
  const joined = after(into, { wholePutUps: into.wholePutUps + goods.wholePutUps, ...joinParts(into, goods) })
  return ok({ batches: [joined], movements: [draft('receive', into, change)], promises: [] })
}

/**
 * Use up a length of a batch: the part skein first, then whole put-ups opened as needed; what is left of the last is the new part.
 * The project's own promise on the batch goes down by as much.
 *
 * @param use.strandTenths  `all` uses up whatever there is, a part of unknown length too.
 * @param use.promises      The promises of this batch. What other projects were promised is not used.
 * @returns `not-enough` when the batch does not hold it, `not-enough-free` when the rest is promised to others.
 * @throws {RangeError} if the length is not a positive whole number.
 */
export function planUse(
  batch: Batch,
  use: { strandTenths: number | 'all'; projectId?: string | null; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, NotEnough | NotEnoughFree> {
  const projectId = use.projectId ?? null
  const promises = use.promises ?? []
  const held = knownStrandTenths(batch)
  const strandTenths = use.strandTenths === 'all' ? held : use.strandTenths
  if (use.strandTenths !== 'all') assertWhole('planUse', 'strandTenths', strandTenths, 1)
  if (strandTenths > held || isEmpty(batch)) {
    return refused({ kind: 'not-enough', batchId: batch.id, heldStrandTenths: held, requestedStrandTenths: strandTenths })
  }
  const free = Math.max(0, held - promisedOf(batch, promises, (id) => id !== projectId))
  if (strandTenths > free) {
    return refused({ kind: 'not-enough-free', batchId: batch.id, freeStrandTenths: free, requestedStrandTenths: strandTenths })
  }
  const left = use.strandTenths === 'all' ? nothing : leftAfter(batch, strandTenths)
  const own = promisedOf(batch, promises, (id) => id === projectId)
  return ok({
    batches: [after(batch, left)],
    movements: [
      draft('use', batch, { ...delta(batch, left), fromPlaceId: batch.currentPlaceId, projectId, reason: use.reason ?? null }),
    ],
    promises:
      projectId !== null && own > 0 ? [{ batchId: batch.id, projectId, strandTenths: Math.max(0, own - strandTenths) }] : [],
  })
}

/** Move a batch to another place, for a while (it is then out) or to live there (`becomesHome`). */
export function planMove(
  batch: Batch,
  move: { toPlaceId: string; becomesHome: boolean; reason?: string | null },
): Result<StockChange, AlreadyThere> {
  const homePlaceId = move.becomesHome ? move.toPlaceId : batch.homePlaceId
  if (batch.currentPlaceId === move.toPlaceId && batch.homePlaceId === homePlaceId) {
    return refused({ kind: 'already-there', batchId: batch.id, placeId: move.toPlaceId })
  }
  return ok({
    batches: [after(batch, { homePlaceId, currentPlaceId: move.toPlaceId })],
    movements: [
      draft('move', batch, { fromPlaceId: batch.currentPlaceId, toPlaceId: move.toPlaceId, reason: move.reason ?? null }),
    ],
    promises: [],
  })
}

/** Pass all of a batch to another owner; a recorded move between the two. It stays where it is. */
export function planTransfer(
  batch: Batch,
  transfer: { toOwnerId: string; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, AlreadyTheirs | Promised> {
  const { toOwnerId } = transfer
  if (batch.ownerId === toOwnerId) return refused({ kind: 'already-theirs', ownerId: batch.ownerId })
  const promised = (transfer.promises ?? []).filter((promise) => promise.batchId === batch.id)
  if (promised.length > 0) {
    const projectIds = [...new Set(promised.map((promise) => promise.projectId))].sort(compareExact)
    return refused({ kind: 'promised', batchId: batch.id, projectIds })
  }
  return ok({
    batches: [after(batch, { ownerId: toOwnerId })],
    movements: [draft('transfer', batch, { fromOwnerId: batch.ownerId, toOwnerId, reason: transfer.reason ?? null })],
    promises: [],
  })
}

/**
 * Pass some of a batch to another owner: it becomes a batch of its own, theirs, and stays where it is. What the present owner's projects
 * were promised must stay behind.
 *
 * @param transfer.promises  The promises of this batch.
 * @returns as `planTransfer` when it is all there is.
 */
export function planTransferPart(
  batch: Batch,
  transfer: Parting & { toOwnerId: string; newBatchId?: string; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, AlreadyTheirs | Promised | NotEnough | NotEnoughFree | NothingParted> {
  const { toOwnerId, promises = [] } = transfer
  if (batch.ownerId === toOwnerId) return refused({ kind: 'already-theirs', ownerId: batch.ownerId })
  const parts = partOff(
    'planTransferPart',
    batch,
    transfer,
    promisedOf(batch, promises, () => true),
  )
  if (!parts.ok) return parts
  const { parted, left } = parts.value
  if (isEmpty(left)) return planTransfer(batch, transfer)
  const theirs = { ...batch, ...parted, id: transfer.newBatchId ?? 'new:1', ownerId: toOwnerId }
  const between = { fromOwnerId: batch.ownerId, toOwnerId, reason: transfer.reason ?? null }
  return ok({
    batches: [after(batch, left), { ...after(theirs), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...between }),
      draft('transfer', theirs, { ...delta(nothing, parted), ...between }),
    ],
    promises: [],
  })
}

/**
 * Part a batch in two: what is parted off becomes a batch of its own, with a home and a place of its own if they are named. Promises stay
 * with the old one.
 *
 * @param split.homePlaceId     where the new one is to live; left out, where the old one lives
 * @param split.currentPlaceId  where it is now; left out, its new home if one is named, else where the old one is
 * @param split.promises        The promises of this batch, which what stays behind must hold.
 * @returns `nothing-left` when all of the batch is asked for: that is a move.
 */
export function planSplit(
  batch: Batch,
  split: Parting & {
    homePlaceId?: string | null
    currentPlaceId?: string | null
    newBatchId?: string
    reason?: string | null
    promises?: readonly StockPromise[]
  },
): Result<StockChange, NotEnough | NotEnoughFree | NothingParted | { kind: 'nothing-left'; batchId: string }> {
  const parts = partOff(
    'planSplit',
    batch,
    split,
    promisedOf(batch, split.promises ?? [], () => true),
  )
  if (!parts.ok) return parts
  const { parted, left } = parts.value
  if (isEmpty(left)) return refused({ kind: 'nothing-left', batchId: batch.id })
  const homePlaceId = split.homePlaceId === undefined ? batch.homePlaceId : split.homePlaceId
  const here = split.homePlaceId === undefined ? batch.currentPlaceId : split.homePlaceId
  const currentPlaceId = split.currentPlaceId === undefined ? here : split.currentPlaceId
  const own = { ...batch, ...parted, id: split.newBatchId ?? 'new:1', homePlaceId, currentPlaceId }
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: currentPlaceId, reason: split.reason ?? null }
  return ok({
    batches: [after(batch, left), { ...after(own), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...places }),
      draft('split', own, { ...delta(nothing, parted), ...places }),
    ],
    promises: [],
  })
}

/** Why two batches stay two. `place`: they lie apart. `lot-unmarked`: nobody can say that they are of one lot. */
export type MergeRefused =
  | { kind: 'same-batch'; batchId: string }
  | { kind: 'marks-differ'; batchId: string; differs: (BatchMark | 'place')[] }
  | { kind: 'lot-unmarked'; batchId: string }

/**
 * Lay two equal batches lying at one place together: one row holds both, the other is gone, and its promises go over. Both keep their
 * history.
 *
 * @param merge.lotsMatter  of the thread's line: unmarked batches then match only when one was split from the other (`areKin`)
 * @param merge.promises    the promises of both
 */
export function planMerge(
  batch: Batch,
  into: Batch,
  merge: { lotsMatter: boolean; areKin: boolean; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, MergeRefused> {
  if (batch.id === into.id) return refused({ kind: 'same-batch', batchId: into.id })
  const differs: (BatchMark | 'place')[] = batchMarks.filter((mark) => batch[mark] !== into[mark])
  if (batch.currentPlaceId !== into.currentPlaceId) differs.push('place')
  if (differs.length > 0) return refused({ kind: 'marks-differ', batchId: into.id, differs })
  if (merge.lotsMatter && batch.lot === null && !merge.areKin) return refused({ kind: 'lot-unmarked', batchId: into.id })
  const joined = together(into, batch)
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: into.currentPlaceId, reason: merge.reason ?? null }
  return ok({
    batches: [after(into, joined), { ...after(batch, nothing), isGone: true }],
    movements: [
      draft('merge', batch, { ...delta(batch, nothing), ...places }),
      draft('merge', into, { ...delta(into, joined), ...places }),
    ],
    promises: carriedOver(batch, into, merge.promises ?? []),
  })
}

/** The promises on a batch that goes up in another, as promises on that one. */
function carriedOver(batch: Batch, into: Batch, promises: readonly StockPromise[]): PromiseAfter[] {
  const projectIds = new Set<string>()
  for (const promise of promises) if (promise.batchId === batch.id) projectIds.add(promise.projectId)
  return [...projectIds].sort(compareExact).flatMap((projectId) => {
    const moved = promisedOf(batch, promises, (id) => id === projectId)
    const there = promisedOf(into, promises, (id) => id === projectId)
    return [
      { batchId: batch.id, projectId, strandTenths: 0 },
      { batchId: into.id, projectId, strandTenths: there + moved },
    ]
  })
}

/**
 * What to lift out of the drawer for a length: the part skein if there is one, and as many whole put-ups as it still wants.
 *
 * @param leastCutStrandTenths  a part shorter than this is of no use and stays where it is
 * @throws {RangeError} if the batch does not hold the length.
 */
export function pullOf(batch: Batch, strandTenths: number, leastCutStrandTenths = 0): Parting {
  if (strandTenths > knownStrandTenths(batch)) {
    throw new RangeError(`pullOf: ${strandTenths} of batch ${batch.id}, which holds ${knownStrandTenths(batch)}`)
  }
  const known = batch.partCertainty === 'some' ? 0 : batch.partStrandTenths
  const wanted = Math.ceil(strandTenths / batch.putUpStrandTenths)
  if (known < leastCutStrandTenths && wanted <= batch.wholePutUps) return { wholePutUps: wanted, takesPart: false }
  return {
    wholePutUps: Math.ceil(Math.max(0, strandTenths - known) / batch.putUpStrandTenths),
    takesPart: known > 0 && strandTenths > 0,
  }
}

/**
 * Take whole put-ups, the part skein, or both, to another place (a project's bag). The home stays, so what is taken is out. When
 * something stays behind, what is taken becomes a batch of its own with the old one as parent, and as much of the project's promise
 * as it covers goes with it.
 *
 * @param promises  The promises of this batch; what others were promised must stay behind.
 * @returns `not-enough` when so much is not there; `not-enough-free` when too little would stay for the others; `already-there`.
 * @throws {RangeError} if nothing is taken or the put-ups are not a whole number.
 */
export function planTake(
  batch: Batch,
  take: {
    wholePutUps: number
    takesPart: boolean
    toPlaceId: string
    projectId?: string | null
    newBatchId?: string
    reason?: string | null
    promises?: readonly StockPromise[]
  },
): Result<StockChange, NotEnough | NotEnoughFree | NothingParted | AlreadyThere> {
  assertWhole('planTake', 'wholePutUps', take.wholePutUps, take.takesPart ? 0 : 1)
  const projectId = take.projectId ?? null
  const promises = take.promises ?? []
  if (batch.currentPlaceId === take.toPlaceId)
    return refused({ kind: 'already-there', batchId: batch.id, placeId: take.toPlaceId })
  const othersPromised = promisedOf(batch, promises, (id) => id !== projectId)
  const split = partOff('planTake', batch, take, othersPromised)
  if (!split.ok) return split
  const { parted, left } = split.value
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: take.toPlaceId, projectId, reason: take.reason ?? null }
  if (isEmpty(left)) {
    return ok({
      batches: [after(batch, { currentPlaceId: take.toPlaceId })],
      movements: [draft('take', batch, places)],
      promises: [],
    })
  }
  const taken = { ...batch, ...parted, id: take.newBatchId ?? 'new:1' }
  const takenStrandTenths = knownStrandTenths(taken)
  const own = promisedOf(batch, promises, (id) => id === projectId)
  const goesAlong = Math.min(own, takenStrandTenths)
  return ok({
    batches: [after(batch, left), { ...after(taken, { currentPlaceId: take.toPlaceId }), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...places }),
      draft('take', taken, { ...delta(nothing, parted), ...places }),
    ],
    promises:
      projectId !== null && goesAlong > 0
        ? [
            { batchId: batch.id, projectId, strandTenths: own - goesAlong },
            { batchId: taken.id, projectId, strandTenths: goesAlong },
          ]
        : [],
  })
}

/**
 * Put a batch that is out back where it lives. When `atHome` is an equal batch lying there, the two become one row and the returned
 * one is gone; promises on it go over to the other.
 *
 * Unmarked batches are merged only with the caller's word that they belong together: hand in as `atHome` the one it was split from.
 *
 * @param promises  The promises of both batches.
 */
export function planReturn(
  batch: Batch,
  back: { atHome?: Batch | null; projectId?: string | null; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, { kind: 'not-out'; batchId: string } | { kind: 'not-equal'; batchId: string }> {
  if (!isOut(batch)) return refused({ kind: 'not-out', batchId: batch.id })
  const atHome = back.atHome ?? null
  const places = {
    fromPlaceId: batch.currentPlaceId,
    toPlaceId: batch.homePlaceId,
    projectId: back.projectId ?? null,
    reason: back.reason ?? null,
  }
  if (!atHome) {
    return ok({
      batches: [after(batch, { currentPlaceId: batch.homePlaceId })],
      movements: [draft('return', batch, places)],
      promises: [],
    })
  }
  if (atHome.id === batch.id || !isEqualBatch(atHome, batch) || isOut(atHome))
    return refused({ kind: 'not-equal', batchId: atHome.id })
  const joined = together(atHome, batch)
  return ok({
    batches: [after(atHome, joined), { ...after(batch, { ...nothing, currentPlaceId: batch.homePlaceId }), isGone: true }],
    movements: [
      draft('return', batch, { ...delta(batch, nothing), ...places }),
      draft('merge', atHome, { ...delta(atHome, joined), ...places }),
    ],
    promises: carriedOver(batch, atHome, back.promises ?? []),
  })
}

/**
 * Set a batch to what was counted. Promises are left as they are: when less is there than was promised, coverage shows the want.
 *
 * @returns `no-reason` when none is given, `no-change` when the record says so already.
 * @throws {RangeError} if an amount is not a whole number of nought or more, or a part length contradicts its certainty.
 */
export function planCorrect(
  batch: Batch,
  counted: Amounts & { reason: string },
): Result<StockChange, { kind: 'no-reason' } | { kind: 'no-change' }> {
  assertWhole('planCorrect', 'wholePutUps', counted.wholePutUps, 0)
  assertWhole('planCorrect', 'partStrandTenths', counted.partStrandTenths, 0)
  const isLength = counted.partCertainty !== 'none' && counted.partCertainty !== 'some'
  if (isLength !== counted.partStrandTenths > 0) {
    throw new RangeError(`planCorrect: part of ${counted.partStrandTenths} marked ${counted.partCertainty}`)
  }
  const reason = counted.reason.trim()
  if (reason === '') return refused({ kind: 'no-reason' })
  const now: Amounts = {
    wholePutUps: counted.wholePutUps,
    partStrandTenths: counted.partStrandTenths,
    partCertainty: counted.partCertainty,
  }
  const change = delta(batch, now)
  if (change.wholeDelta === 0 && change.partDeltaStrandTenths === 0 && now.partCertainty === batch.partCertainty) {
    return refused({ kind: 'no-change' })
  }
  const movement = draft('correct', batch, { ...change, toPlaceId: batch.currentPlaceId, reason })
  return ok({ batches: [after(batch, now)], movements: [movement], promises: [] })
}

/**
 * Set a batch's lot, what its put-ups are called and their length to what their labels say. Whole put-ups are counted, not measured: there are as many as
 * before, each of the corrected length, so what is known to be held changes with it. The part is a length and stays. Promises are left as
 * they are: when less is there than was promised, coverage shows the want.
 *
 * @returns a correction that moves no amount; `no-reason` when none is given, `no-change` when the record says so already.
 * @throws {RangeError} if the put-up is not a whole number above nought.
 */
export function planRelabel(
  batch: Batch,
  label: Pick<Batch, 'lot' | 'putUpStrandTenths'> & { putUpWord?: string | null; reason: string },
): Result<StockChange, { kind: 'no-reason' } | { kind: 'no-change' }> {
  const { lot, putUpWord = batch.putUpWord, putUpStrandTenths } = label
  assertWhole('planRelabel', 'putUpStrandTenths', putUpStrandTenths, 1)
  const reason = label.reason.trim()
  if (reason === '') return refused({ kind: 'no-reason' })
  const isAsItWas = lot === batch.lot && putUpWord === batch.putUpWord && putUpStrandTenths === batch.putUpStrandTenths
  if (isAsItWas) return refused({ kind: 'no-change' })
  const movement = draft('correct', batch, { toPlaceId: batch.currentPlaceId, reason })
  return ok({ batches: [after(batch, { lot, putUpWord, putUpStrandTenths })], movements: [movement], promises: [] })
}

/**
 * Decide whether a batch can promise a length to a project.
 *
 * The project's own earlier promise on this batch is replaced, so it does not count against the request. What is out can be promised
 * only as far as it already is to the same project.
 *
 * @param batch     Snapshot read inside the caller's transaction.
 * @param promises  The promises of this batch.
 * @returns         What the project is to have promised of the batch, or `not-enough-free` with what is free.
 * @throws {RangeError} if the requested length is not a positive whole number.
 */
export function planPromise(
  batch: Batch,
  request: { projectId: string; strandTenths: number },
  promises: readonly StockPromise[],
): Result<PromiseAfter, NotEnoughFree> {
  assertWhole('planPromise', 'strandTenths', request.strandTenths, 1)
  const free = freeOfBatch(batch, promises, request.projectId).freeStrandTenths
  if (request.strandTenths > free) {
    return refused({
      kind: 'not-enough-free',
      batchId: batch.id,
      freeStrandTenths: free,
      requestedStrandTenths: request.strandTenths,
    })
  }
  return ok({ batchId: batch.id, projectId: request.projectId, strandTenths: request.strandTenths })
}

/** Free everything a project was promised, in the order of its batches. */
export function planRelease(promises: readonly StockPromise[], projectId: string): PromiseAfter[] {
  const batchIds = new Set(promises.filter((promise) => promise.projectId === projectId).map((promise) => promise.batchId))
  return [...batchIds].sort(compareExact).map((batchId) => ({ batchId, projectId, strandTenths: 0 }))
}
