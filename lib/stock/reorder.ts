import type { Certainty } from '#lib/quantity/certainty'
import { type Batch, isOut, knownStrandTenths, type StockPromise } from './batch'
import { freeOfBatch } from './free-stock'

/**
 * When to buy a thread again.
 *
 * `minimum`: as soon as fewer whole put-ups are free. `point`: by what goes over the counter in a week and how long an order takes;
 * demand and spread in hundredths of a put-up a week.
 */
export type ReorderRule = { packPutUps: number } & (
  | { kind: 'minimum'; minimumPutUps: number }
  | { kind: 'point'; demandHundredths: number; spreadHundredths: number; leadWeeks: number; coverWeeks: number }
)

/** Whose rule it is: the owner's own, the thread's for whoever holds it, or the usual one for a line whose lots matter. */
export type RuleSource = 'owner' | 'thread' | 'lots'
export type ChosenRule = { rule: ReorderRule; source: RuleSource }

/** Spreads kept in hand against a busy lead time: 1.65 is enough in 95 of 100, demand being normally spread. */
export const defaultServiceFactor = 1.65
/** How long an order lasts beyond the reorder point. Common practice, no published source. */
export const defaultCoverWeeks = 4
/** Hand-dyed thread sells too slowly for the formula: two are kept instead. Common practice, no published source. */
export const lotsMinimumPutUps = 2

/**
 * The rule that holds for a thread in one owner's stock, or null when none does.
 *
 * @param given.usesDefault  whether a line whose lots matter is kept to the usual minimum where nothing else is said
 */
export function chooseRule(given: {
  own: ReorderRule | null
  threadMinimumPutUps: number | null
  lotsMatter: boolean
  usesDefault: boolean
}): ChosenRule | null {
  if (given.own) return { rule: given.own, source: 'owner' }
  if (given.threadMinimumPutUps !== null) {
    return { rule: { kind: 'minimum', minimumPutUps: given.threadMinimumPutUps, packPutUps: 1 }, source: 'thread' }
  }
  if (!given.lotsMatter || !given.usesDefault) return null
  return { rule: { kind: 'minimum', minimumPutUps: lotsMinimumPutUps, packPutUps: 1 }, source: 'lots' }
}

/** Whole put-ups of one thread, each counted as long as its own batch has it. */
export type PutUpStock = {
  ownedPutUps: number
  outPutUps: number
  /** At home, but promised to projects. */
  promisedPutUps: number
  freePutUps: number
  /** Promised beyond what is there: to be bought before anything else is free. */
  unmetPutUps: number
}

/** Count one owner's stock of one thread in whole put-ups; a part is no put-up to sell. */
export function stockInPutUps(batches: readonly Batch[], promises: readonly StockPromise[]): PutUpStock {
  const stock: PutUpStock = { ownedPutUps: 0, outPutUps: 0, promisedPutUps: 0, freePutUps: 0, unmetPutUps: 0 }
  for (const batch of batches) {
    const onBatch = promises.filter((promise) => promise.batchId === batch.id)
    const { freeStrandTenths } = freeOfBatch(batch, onBatch, null)
    const free = Math.min(batch.wholePutUps, Math.floor(freeStrandTenths / batch.putUpStrandTenths))
    const promisedStrandTenths = onBatch.reduce((sum, promise) => sum + promise.strandTenths, 0)
    stock.ownedPutUps += batch.wholePutUps
    stock.freePutUps += free
    if (isOut(batch)) stock.outPutUps += batch.wholePutUps
    else stock.promisedPutUps += batch.wholePutUps - free
    stock.unmetPutUps += Math.ceil(Math.max(0, promisedStrandTenths - knownStrandTenths(batch)) / batch.putUpStrandTenths)
  }
  return stock
}

/** Up to the next whole put-up; a billionth above a whole is floating-point noise. */
const roundUp = (putUps: number): number => Math.max(0, Math.ceil(putUps - 1e-9))

export type ReorderPoint = {
  /** Put-ups sold while an order is on its way. */
  leadPutUps: number
  /** Kept in hand for a busy lead time: z × spread × √lead. */
  safetyPutUps: number
  /** Their sum, rounded up. */
  putUps: number
}

/**
 * Reorder point: demand × lead + z × spread × √lead, rounded up to a whole put-up. The textbook formula for demand that varies and a
 * lead time that does not.
 *
 * @throws {RangeError} if a figure is negative or not finite.
 */
export function reorderPoint(
  rule: Pick<Extract<ReorderRule, { kind: 'point' }>, 'demandHundredths' | 'spreadHundredths' | 'leadWeeks'>,
  serviceFactor: number = defaultServiceFactor,
): ReorderPoint {
  const { demandHundredths, spreadHundredths, leadWeeks } = rule
  for (const figure of [demandHundredths, spreadHundredths, leadWeeks, serviceFactor]) {
    if (!(figure >= 0 && Number.isFinite(figure))) throw new RangeError(`reorderPoint: ${figure}`)
  }
  const leadPutUps = (demandHundredths * leadWeeks) / 100
  const safetyPutUps = (serviceFactor * spreadHundredths * Math.sqrt(leadWeeks)) / 100
  return { leadPutUps, safetyPutUps, putUps: roundUp(leadPutUps + safetyPutUps) }
}

/** Whether to order, with every figure that led there. Put-ups throughout. */
export type ReorderCheck = PutUpStock & {
  rule: ReorderRule
  source: RuleSource
  onOrderPutUps: number
  /** Free, less what was promised beyond the stock, and what is on order. */
  positionPutUps: number
  /** The formula's parts; null for a minimum. */
  point: ReorderPoint | null
  serviceFactor: number
  /** A point is due at this figure, a minimum below it. */
  thresholdPutUps: number
  isDue: boolean
  /** What an order is to bring the position up to; and how far it is from there. */
  upToPutUps: number
  wantedPutUps: number
  /** Whole packs to order; 0 when nothing is due. */
  packs: number
  orderPutUps: number
  /** `estimated` by a formula, `assumed` by the usual minimum nobody set. */
  certainty: Certainty
}

/**
 * Hold one thread's stock against its rule. Kits are known beforehand and promised, so they are off what is free and no part of the
 * counter's demand.
 *
 * @throws {RangeError} if the pack is not a whole number of at least 1, or as `reorderPoint`.
 */
export function checkReorder(input: {
  chosen: ChosenRule
  stock: PutUpStock
  onOrderPutUps: number
  serviceFactor?: number
}): ReorderCheck {
  const { chosen, stock, onOrderPutUps, serviceFactor = defaultServiceFactor } = input
  const { rule, source } = chosen
  if (!Number.isSafeInteger(rule.packPutUps) || rule.packPutUps < 1) {
    throw new RangeError(`checkReorder: pack of ${rule.packPutUps}`)
  }
  const positionPutUps = stock.freePutUps - stock.unmetPutUps + onOrderPutUps
  const point = rule.kind === 'point' ? reorderPoint(rule, serviceFactor) : null
  const thresholdPutUps = rule.kind === 'minimum' ? rule.minimumPutUps : (point as ReorderPoint).putUps
  const isDue = rule.kind === 'minimum' ? positionPutUps < thresholdPutUps : positionPutUps <= thresholdPutUps
  const upToPutUps =
    rule.kind === 'minimum' ? thresholdPutUps : roundUp(thresholdPutUps + (rule.demandHundredths * rule.coverWeeks) / 100)
  const wantedPutUps = Math.max(0, upToPutUps - positionPutUps)
  // At the point itself with no weeks to cover, the sum is nought: what is due is at least one pack.
  const packs = isDue ? Math.max(1, Math.ceil(wantedPutUps / rule.packPutUps)) : 0
  return {
    ...stock,
    rule,
    source,
    onOrderPutUps,
    positionPutUps,
    point,
    serviceFactor,
    thresholdPutUps,
    isDue,
    upToPutUps,
    wantedPutUps,
    packs,
    orderPutUps: packs * rule.packPutUps,
    certainty: source === 'lots' ? 'assumed' : rule.kind === 'point' ? 'estimated' : 'label',
  }
}
