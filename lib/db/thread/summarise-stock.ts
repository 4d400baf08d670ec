import 'server-only'
import { type Batch, isOut, type StockPromise } from '#lib/stock/batch'
import { type FreeStock, freeOfBatch, freeStock } from '#lib/stock/free-stock'

export const stockStates = ['held', 'none', 'low', 'out'] as const
/** `low`: fewer whole put-ups are free than the thread's own minimum. `out`: some of it is not at its home. */
export type StockState = (typeof stockStates)[number]

export type StockSummary = Omit<FreeStock, 'lots' | 'elsewhere'> & {
  /** Whole put-ups that are free, each counted in its own batch. */
  freePutUps: number
  /** Whole put-ups held, out ones too. */
  wholePutUps: number
  /** A part of unknown length is held somewhere, home or out. */
  isSomeOwned: boolean
  states: StockState[]
}

/** What is held of one thread, and which lists it belongs on. */
export function summariseStock(input: {
  threadId: string
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  ownerIds: readonly string[]
  minimumPutUps: number | null
}): StockSummary {
  const { lots: _lots, elsewhere: _elsewhere, ...free } = freeStock(input)
  const batches = input.batches.filter((batch) => input.ownerIds.includes(batch.ownerId))
  let freePutUps = 0
  let wholePutUps = 0
  let isSomeOwned = false
  let hasOut = false
  for (const batch of batches) {
    const { freeStrandTenths } = freeOfBatch(batch, input.promises, null)
    freePutUps += Math.min(batch.wholePutUps, Math.floor(freeStrandTenths / batch.putUpStrandTenths))
    wholePutUps += batch.wholePutUps
    const isHeld = batch.wholePutUps > 0 || batch.partCertainty !== 'none'
    if (batch.partCertainty === 'some') isSomeOwned = true
    if (isHeld && isOut(batch)) hasOut = true
  }
  const states: StockState[] = [free.ownedStrandTenths > 0 || isSomeOwned ? 'held' : 'none']
  if (input.minimumPutUps !== null && freePutUps < input.minimumPutUps) states.push('low')
  if (hasOut) states.push('out')
  return { ...free, freePutUps, wholePutUps, isSomeOwned, states }
}
