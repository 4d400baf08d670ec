import type { MovementKind } from './stock-change'

/** What a movement did to a thread's stock: a loss is negative. */
export type UseMovement = {
  at: Date
  kind: MovementKind
  strandTenths: number
  projectId: string | null
  reason: string | null
}

const weekMs = 7 * 24 * 60 * 60 * 1_000

export const salesWeeks = 26
/** Of fewer weeks no spread worth the name can be had. */
export const fewestSalesWeeks = 4

/** Sold over the counter: used for no project, or marked sold as the reason. */
export const isCounterSale = ({ kind, strandTenths, projectId, reason }: UseMovement): boolean =>
  strandTenths < 0 &&
  ((kind === 'use' && projectId === null) || ((kind === 'use' || kind === 'correct') && /\bsold\b/i.test(reason ?? '')))

/** Counter sales by the week, in put-ups. */
export type WeeklySales = {
  weeks: number
  soldPutUps: number
  /** Mean of all weeks, also those without a sale, and the spread about it, in hundredths. */
  demandHundredths: number
  spreadHundredths: number
}

/**
 * Mean and spread of weekly counter sales over the last whole weeks up to `until`. The spread is the sample's standard deviation
 * (divided by one less than the weeks).
 *
 * @param input.heldSince  when the thread first came in; weeks before that are left out. Null: it never did.
 * @returns null when it was held for too few weeks, or nothing was sold.
 */
export function weeklySales(input: {
  movements: readonly UseMovement[]
  putUpStrandTenths: number
  until: Date
  heldSince: Date | null
  weeks?: number
}): WeeklySales | null {
  const { movements, putUpStrandTenths, until, heldSince, weeks: most = salesWeeks } = input
  const heldWeeks = heldSince === null ? 0 : Math.floor((until.getTime() - heldSince.getTime()) / weekMs)
  const weeks = Math.min(most, heldWeeks)
  if (weeks < fewestSalesWeeks) return null
  const byWeek = new Array<number>(weeks).fill(0)
  for (const movement of movements) {
    const ageMs = until.getTime() - movement.at.getTime()
    const week = Math.floor(ageMs / weekMs)
    if (ageMs < 0 || week >= weeks || !isCounterSale(movement)) continue
    byWeek[week] = (byWeek[week] as number) - movement.strandTenths / putUpStrandTenths
  }
  const soldPutUps = byWeek.reduce((sum, sold) => sum + sold, 0)
  if (soldPutUps === 0) return null
  const mean = soldPutUps / weeks
  const spread = Math.sqrt(byWeek.reduce((sum, sold) => sum + (sold - mean) ** 2, 0) / (weeks - 1))
  return {
    weeks,
    soldPutUps,
    demandHundredths: Math.round(mean * 100),
    spreadHundredths: Math.round(spread * 100),
  }
}
