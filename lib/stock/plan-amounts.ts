import { ok, type Result, refused } from '#lib/result'
import { type Amounts, delta, isEmpty, joinParts, leftAfter, nothing } from './amounts'
import { type Batch, isOut, knownStrandTenths, type StockPromise } from './batch'
import { promisedOf } from './part-off'
import { after, assertWhole, draft, isEqualBatch, type NotEnough, type NotEnoughFree, type StockChange } from './stock-change'

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
