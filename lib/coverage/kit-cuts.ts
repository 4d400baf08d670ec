import type { Batch } from '#lib/stock/batch'

/**
 * How one kit's length comes out of put-ups: so many whole ones, and a cut without a join that so many come out of one put-up. A kit's
 * length up to a put-up is one cut.
 *
 * Source: the project's trade notes, 3.2 "Length cuts for kits": cuts per put-up = floor(put-up ÷ cut).
 */
export function cutOf(cutStrandTenths: number, putUpStrandTenths: number) {
  const whole = Math.ceil(cutStrandTenths / putUpStrandTenths) - 1
  const rest = cutStrandTenths - whole * putUpStrandTenths
  return { whole, rest, perPutUp: Math.floor(putUpStrandTenths / rest) }
}

/** What of a batch there is to cut from; a part nobody has judged is no length. */
export type CutStock = Pick<Batch, 'putUpStrandTenths' | 'wholePutUps' | 'partStrandTenths'>

/** The shortest part of a put-up that serves a kit: shorter ones are left where they are. A cut of nought is no kit's: any part serves. */
export const leastUsefulPart = (cutStrandTenths: number, putUpStrandTenths: number): number =>
  cutStrandTenths === 0 ? 0 : cutOf(cutStrandTenths, putUpStrandTenths).rest

/** Whole put-ups that so many kits open, beside the part. */
export function putUpsFor(stock: CutStock, cutStrandTenths: number, kits: number): number {
  const { whole, rest, perPutUp } = cutOf(cutStrandTenths, stock.putUpStrandTenths)
  const fromPart = Math.floor(stock.partStrandTenths / rest)
  return kits * whole + Math.ceil(Math.max(0, kits - fromPart) / perPutUp)
}

/** The greatest whole number from 0 to `most` that holds; all below it hold too. */
function greatest(most: number, holds: (value: number) => boolean): number {
  let [low, high] = [0, most]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (holds(middle)) low = middle
    else high = middle - 1
  }
  return low
}

/**
 * How many kits can be cut from one batch, each kit's length without a join but where it is longer than a put-up. The part is taken to
 * be one piece.
 *
 * @throws {RangeError} if the cut is not above nought.
 */
export function kitsFrom(stock: CutStock, cutStrandTenths: number): number {
  if (!(cutStrandTenths > 0)) throw new RangeError(`kitsFrom: a cut of ${cutStrandTenths}`)
  const { rest, perPutUp } = cutOf(cutStrandTenths, stock.putUpStrandTenths)
  const most = Math.floor(stock.partStrandTenths / rest) + stock.wholePutUps * perPutUp
  return greatest(most, (kits) => putUpsFor(stock, cutStrandTenths, kits) <= stock.wholePutUps)
}

/**
 * The length of a batch to set aside for so many kits, such that lifting out the part (if it serves) and as many whole put-ups as the
 * length still wants brings enough: every put-up but the last in full, of the last what is cut from it. With each put-up's remnant it is
 * often more than the kits' own length.
 */
export function lengthForKits(stock: CutStock, cutStrandTenths: number, kits: number): number {
  const { putUpStrandTenths, partStrandTenths } = stock
  const { rest, perPutUp } = cutOf(cutStrandTenths, putUpStrandTenths)
  const fromPart = Math.min(kits, Math.floor(partStrandTenths / rest))
  const putUps = putUpsFor(stock, cutStrandTenths, kits)
  if (putUps === 0) return fromPart * rest
  const part = fromPart > 0 ? partStrandTenths : 0
  const fromPutUps = kits - fromPart
  if (fromPutUps === 0) return part + putUps * putUpStrandTenths
  const ofLast = fromPutUps - (Math.ceil(fromPutUps / perPutUp) - 1) * perPutUp
  return part + (putUps - 1) * putUpStrandTenths + ofLast * rest
}

/** How many kits what was promised of a batch will serve. */
export const kitsPromised = (stock: CutStock, cutStrandTenths: number, promisedStrandTenths: number): number =>
  greatest(kitsFrom(stock, cutStrandTenths), (kits) => lengthForKits(stock, cutStrandTenths, kits) <= promisedStrandTenths)
