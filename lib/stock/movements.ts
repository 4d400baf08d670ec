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
export type AlreadyThere = { kind: 'already-there'; batchId: string; placeId: string }

type Amounts = Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>

function assertWhole(caller: string, name: string, value: number, least: number): void {
  if (!Number.isSafeInteger(value) || value < least) throw new RangeError(`${caller}: ${name} ${value}`)
}

const after = (batch: Batch, change: Partial<Batch> = {}): BatchAfter => ({
  ...batch,
  ...change,
  isNew: false,
  isGone: false,
  parentId: null,
})

const draft = (kind: MovementKind, batch: Batch, change: Partial<MovementDraft> = {}): MovementDraft => ({
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

/** What is left of a batch when a length is drawn from it: the part first, then whole put-ups opened one by one. */
function draw(batch: Batch, strandTenths: number): Amounts {
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

/** Same thread, owner, lot, put-up and home: one row can hold both. */
export const isEqualBatch = (a: Batch, b: Batch): boolean =>
  a.threadId === b.threadId &&
  a.ownerId === b.ownerId &&
  a.lot === b.lot &&
  a.putUpStrandTenths === b.putUpStrandTenths &&
  a.homePlaceId === b.homePlaceId

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
 * @param promises  The promises of this batch. What other projects were promised is not used.
 * @returns `not-enough` when the batch does not hold it, `not-enough-free` when the rest is promised to others.
 * @throws {RangeError} if the length is not a positive whole number.
 */
export function planUse(
  batch: Batch,
  use: { strandTenths: number; projectId?: string | null; reason?: string | null; promises?: readonly StockPromise[] },
): Result<StockChange, NotEnough | NotEnoughFree> {
  assertWhole('planUse', 'strandTenths', use.strandTenths, 1)
  const projectId = use.projectId ?? null
  const promises = use.promises ?? []
  const held = knownStrandTenths(batch)
  if (use.strandTenths > held) {
    return refused({ kind: 'not-enough', batchId: batch.id, heldStrandTenths: held, requestedStrandTenths: use.strandTenths })
  }
  const free = Math.max(0, held - promisedOf(batch, promises, (id) => id !== projectId))
  if (use.strandTenths > free) {
    return refused({
      kind: 'not-enough-free',
      batchId: batch.id,
      freeStrandTenths: free,
      requestedStrandTenths: use.strandTenths,
    })
  }
  const left = draw(batch, use.strandTenths)
  const own = promisedOf(batch, promises, (id) => id === projectId)
  return ok({
    batches: [after(batch, left)],
    movements: [
      draft('use', batch, { ...delta(batch, left), fromPlaceId: batch.currentPlaceId, projectId, reason: use.reason ?? null }),
    ],
    promises:
      projectId !== null && own > 0 ? [{ batchId: batch.id, projectId, strandTenths: Math.max(0, own - use.strandTenths) }] : [],
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

/** Pass a batch to another owner; a recorded move between the two. */
export function planTransfer(
  batch: Batch,
  transfer: { toOwnerId: string; reason?: string | null; promises?: readonly StockPromise[] },
): Result<
  StockChange,
  { kind: 'already-theirs'; ownerId: string } | { kind: 'promised'; batchId: string; projectIds: string[] }
> {
  if (batch.ownerId === transfer.toOwnerId) return refused({ kind: 'already-theirs', ownerId: batch.ownerId })
  const promised = (transfer.promises ?? []).filter((promise) => promise.batchId === batch.id)
  if (promised.length > 0) {
    const projectIds = [...new Set(promised.map((promise) => promise.projectId))].sort(compareExact)
    return refused({ kind: 'promised', batchId: batch.id, projectIds })
  }
  return ok({
    batches: [after(batch, { ownerId: transfer.toOwnerId })],
    movements: [
      draft('transfer', batch, { fromOwnerId: batch.ownerId, toOwnerId: transfer.toOwnerId, reason: transfer.reason ?? null }),
    ],
    promises: [],
  })
}

/**
 * What to lift out of the drawer for a length: the part skein if there is one, and as many whole put-ups as it still wants.
 *
 * @throws {RangeError} if the batch does not hold the length.
 */
export function pullOf(batch: Batch, strandTenths: number): { wholePutUps: number; takesPart: boolean } {
  if (strandTenths > knownStrandTenths(batch)) {
    throw new RangeError(`pullOf: ${strandTenths} of batch ${batch.id}, which holds ${knownStrandTenths(batch)}`)
  }
  const part = batch.partCertainty === 'some' ? 0 : batch.partStrandTenths
  return {
    wholePutUps: Math.ceil(Math.max(0, strandTenths - part) / batch.putUpStrandTenths),
    takesPart: part > 0 && strandTenths > 0,
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
): Result<StockChange, NotEnough | NotEnoughFree | AlreadyThere> {
  assertWhole('planTake', 'wholePutUps', take.wholePutUps, take.takesPart ? 0 : 1)
  const projectId = take.projectId ?? null
  const promises = take.promises ?? []
  if (batch.currentPlaceId === take.toPlaceId)
    return refused({ kind: 'already-there', batchId: batch.id, placeId: take.toPlaceId })
  const part: Pick<Amounts, 'partStrandTenths' | 'partCertainty'> = take.takesPart
    ? { partStrandTenths: batch.partStrandTenths, partCertainty: batch.partCertainty }
    : { partStrandTenths: 0, partCertainty: 'none' }
  const taken = { ...batch, id: take.newBatchId ?? 'new:1', wholePutUps: take.wholePutUps, ...part }
  const held = knownStrandTenths(batch)
  const takenStrandTenths = knownStrandTenths(taken)
  if (take.wholePutUps > batch.wholePutUps || (take.takesPart && batch.partCertainty === 'none')) {
    return refused({ kind: 'not-enough', batchId: batch.id, heldStrandTenths: held, requestedStrandTenths: takenStrandTenths })
  }
  const free = Math.max(0, held - promisedOf(batch, promises, (id) => id !== projectId))
  if (takenStrandTenths > free) {
    return refused({
      kind: 'not-enough-free',
      batchId: batch.id,
      freeStrandTenths: free,
      requestedStrandTenths: takenStrandTenths,
    })
  }
  const places = { fromPlaceId: batch.currentPlaceId, toPlaceId: take.toPlaceId, projectId, reason: take.reason ?? null }
  const leavesPart = batch.partCertainty !== 'none' && !take.takesPart
  if (take.wholePutUps === batch.wholePutUps && !leavesPart) {
    return ok({
      batches: [after(batch, { currentPlaceId: take.toPlaceId })],
      movements: [draft('take', batch, places)],
      promises: [],
    })
  }
  const left: Amounts = {
    wholePutUps: batch.wholePutUps - take.wholePutUps,
    partStrandTenths: batch.partStrandTenths - part.partStrandTenths,
    partCertainty: take.takesPart ? 'none' : batch.partCertainty,
  }
  const own = promisedOf(batch, promises, (id) => id === projectId)
  const goesAlong = Math.min(own, takenStrandTenths)
  return ok({
    batches: [after(batch, left), { ...after(taken, { currentPlaceId: take.toPlaceId }), isNew: true, parentId: batch.id }],
    movements: [
      draft('split', batch, { ...delta(batch, left), ...places }),
      draft('take', taken, { wholeDelta: taken.wholePutUps, partDeltaStrandTenths: taken.partStrandTenths, ...places }),
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
  const nothing: Amounts = { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' }
  const joined: Amounts = { wholePutUps: atHome.wholePutUps + batch.wholePutUps, ...joinParts(atHome, batch) }
  const projectIds = new Set<string>()
  for (const promise of back.promises ?? []) if (promise.batchId === batch.id) projectIds.add(promise.projectId)
  return ok({
    batches: [after(atHome, joined), { ...after(batch, { ...nothing, currentPlaceId: batch.homePlaceId }), isGone: true }],
    movements: [
      draft('return', batch, { ...delta(batch, nothing), ...places }),
      draft('merge', atHome, { ...delta(atHome, joined), ...places }),
    ],
    promises: [...projectIds].sort(compareExact).flatMap((projectId) => {
      const moved = promisedOf(batch, back.promises ?? [], (id) => id === projectId)
      const there = promisedOf(atHome, back.promises ?? [], (id) => id === projectId)
      return [
        { batchId: batch.id, projectId, strandTenths: 0 },
        { batchId: atHome.id, projectId, strandTenths: there + moved },
      ]
    }),
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
 * Set a batch's lot and the length of its put-ups to what their labels say. Whole put-ups are counted, not measured: there are as many as
 * before, each of the corrected length, so what is known to be held changes with it. The part is a length and stays. Promises are left as
 * they are: when less is there than was promised, coverage shows the want.
 *
 * @returns a correction that moves no amount; `no-reason` when none is given, `no-change` when the record says so already.
 * @throws {RangeError} if the put-up is not a whole number above nought.
 */
export function planRelabel(
  batch: Batch,
  label: { lot: string | null; putUpStrandTenths: number; reason: string },
): Result<StockChange, { kind: 'no-reason' } | { kind: 'no-change' }> {
  const { lot, putUpStrandTenths } = label
  assertWhole('planRelabel', 'putUpStrandTenths', putUpStrandTenths, 1)
  const reason = label.reason.trim()
  if (reason === '') return refused({ kind: 'no-reason' })
  if (lot === batch.lot && putUpStrandTenths === batch.putUpStrandTenths) return refused({ kind: 'no-change' })
  const movement = draft('correct', batch, { toPlaceId: batch.currentPlaceId, reason })
  return ok({ batches: [after(batch, { lot, putUpStrandTenths })], movements: [movement], promises: [] })
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
