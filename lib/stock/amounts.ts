import type { Batch, PartCertainty } from './batch'
import type { MovementDraft } from './stock-change'

export type Amounts = Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>

const partCertaintyOrder: PartCertainty[] = ['none', 'measured', 'label', 'guess', 'some']

/**
 * Two part lengths together. Certainty is the weaker of the two. "Some" and a known length make at least the known length, so they
 * are that length as a guess; "some" alone, or twice, stays "some".
 */
export function joinParts(a: Amounts, b: Amounts): Pick<Amounts, 'partStrandTenths' | 'partCertainty'> {
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

export const delta = (before: Amounts, now: Amounts): Pick<MovementDraft, 'wholeDelta' | 'partDeltaStrandTenths'> => ({
  wholeDelta: now.wholePutUps - before.wholePutUps,
  partDeltaStrandTenths: now.partStrandTenths - before.partStrandTenths,
})

export const nothing: Amounts = { wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none' }

export const together = (a: Amounts, b: Amounts): Amounts => ({ wholePutUps: a.wholePutUps + b.wholePutUps, ...joinParts(a, b) })

export const isEmpty = (amounts: Amounts): boolean => amounts.wholePutUps === 0 && amounts.partCertainty === 'none'
