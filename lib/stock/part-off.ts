import { ok, type Result, refused } from '#lib/result'
import { type Amounts, nothing } from './amounts'
import { type Batch, knownStrandTenths, type StockPromise } from './batch'
import { assertWhole, type NotEnough, type NotEnoughFree, type NothingParted } from './stock-change'

export const promisedOf = (batch: Batch, promises: readonly StockPromise[], belongs: (projectId: string) => boolean): number =>
  promises.reduce(
    (sum, promise) => (promise.batchId === batch.id && belongs(promise.projectId) ? sum + promise.strandTenths : sum),
    0,
  )

/** What is to be parted off a batch: whole put-ups, the part, or both. */
export type Parting = { wholePutUps: number; takesPart: boolean }

/**
 * A batch in two: what is parted off and what stays.
 *
 * @param promisedStrandTenths  what of the batch is promised and must stay behind
 */
export function partOff(
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
