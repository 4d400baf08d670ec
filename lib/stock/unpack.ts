import { ok, type Result, refused } from '#lib/result'
import { type Batch, compareExact, isOut, knownStrandTenths, type StockPromise } from './batch'
import { planMissing } from './missing'
import { planCorrect, planUse } from './plan-amounts'
import { planReturn } from './plan-place'
import type { BatchAfter, StockChange } from './stock-change'

/**
 * What came of a batch that lay in a bag. `as-it-was`: none of it was used. `left`: so much is left of all of it, measured with a ruler or
 * on the scales, or guessed as a share of a put-up. `stays`: it is not taken out now.
 */
export type UnpackOutcome =
  | { kind: 'as-it-was' }
  | { kind: 'left'; strandTenths: number; certainty: 'measured' | 'guess' }
  | { kind: 'used-up' }
  | { kind: 'not-there' }
  | { kind: 'stays' }

/** Cloth, a chart or a notion: back where it lives, staying, not there, or (notions) used up. */
export const thingOutcomes = ['back', 'stays', 'not-there', 'used-up'] as const
export type ThingOutcome = (typeof thingOutcomes)[number]

export type BatchOutcome = {
  batchId: string
  outcome: UnpackOutcome
  /** Whole put-ups of it that were not in the bag; the outcome is of the others. */
  notThere?: number
  /** What it was used for. */
  projectId: string | null
}

/** Goods on their way home, or staying. */
export type UnpackedGoods = Pick<
  Batch,
  'threadId' | 'ownerId' | 'lot' | 'homePlaceId' | 'wholePutUps' | 'partStrandTenths' | 'partCertainty'
> & { batchId: string; projectId: string | null }

export type UnpackPlan = {
  /** Everything to write, one after-image a batch; what goes back stays where it is until it is put back. */
  change: StockChange
  /** In walking order. */
  back: UnpackedGoods[]
  /** What stays in the bag: it was not to be taken out, or nobody has said where it lives. */
  stays: UnpackedGoods[]
  /** Put-ups of which nothing is left: check whether to buy them again. In the order of thread ids, then lots. */
  usedUp: { threadId: string; lot: string | null; putUps: number }[]
  missing: { batchId: string; threadId: string; projectId: string | null; putUps: number }[]
  /** Put-ups, a part counting as one: pulled = back + used up + missing + staying. */
  check: { pulled: number; back: number; usedUp: number; missing: number; stays: number }
}

export type UnpackRefused =
  | { kind: 'more-left-than-brought'; threadId: string; broughtStrandTenths: number; leftStrandTenths: number }
  | { kind: 'more-missing-than-brought'; threadId: string; wholePutUps: number }

/** Put-ups in a batch as one counts them in the hand: a part is one too. */
export const putUpsIn = (batch: Pick<Batch, 'wholePutUps' | 'partStrandTenths' | 'partCertainty'>): number =>
  batch.wholePutUps + (batch.partStrandTenths > 0 || batch.partCertainty === 'some' ? 1 : 0)

/**
 * Unpack a bag: what was used is used up, what was not there stays *out, last seen here*, and the rest is listed in walking order to be
 * put back. The record has it in the bag until it is ticked home: record and goods move at one moment.
 *
 * What others were promised of a batch does not keep it from having been used: it is gone. Their promise stays and is seen to be broken.
 *
 * @param input.batches        batches in the bag; those without an outcome are passed over
 * @param input.promises       the promises on them
 * @param input.freedProjects  projects whose promises on what goes back are freed; others keep them
 * @param input.mergeInto      for a batch that may be used up, the equal one at home that its empty row goes up in (see `readMergeTargets`)
 * @param input.notFoundPlaceId  where what is missing and has no home goes: in the bag it would count as free
 * @param input.walkRanks      each place's turn in the walk (see `walkRanks`)
 * @param input.newBatchId     an id for a batch that is parted off
 * @returns refused when more is said to be left, or missing, than was brought. Of a part that was a guess more may be left than the record
 *   thought, up to one put-up: the guess is corrected.
 * @throws {RangeError} if an outcome names a batch that is not there, or a length is not a whole number of nought or more
 */
export function planUnpack(input: {
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  outcomes: readonly BatchOutcome[]
  freedProjects?: ReadonlySet<string>
  mergeInto?: ReadonlyMap<string, Batch>
  notFoundPlaceId?: string | null
  walkRanks: ReadonlyMap<string, number>
  newBatchId: () => string
}): Result<UnpackPlan, UnpackRefused> {
  const { promises, freedProjects = new Set<string>(), mergeInto = new Map<string, Batch>(), notFoundPlaceId = null } = input
  const batchOf = new Map(input.batches.map((batch) => [batch.id, batch]))
  const plan: UnpackPlan = {
    change: { batches: [], movements: [], promises: [] },
    ...{ back: [], stays: [], usedUp: [], missing: [] },
    check: { pulled: 0, back: 0, usedUp: 0, missing: 0, stays: 0 },
  }
  const now = new Map<string, BatchAfter>()
  for (const said of [...input.outcomes].sort((a, b) => compareExact(a.batchId, b.batchId))) {
    const batch = batchOf.get(said.batchId)
    if (!batch) throw new RangeError(`planUnpack: batch ${said.batchId} is not in the bag`)
    const own = promises.filter(({ batchId }) => batchId === batch.id)
    const one = unpackOne(batch, said, { ...input, promises: own, freedProjects, notFoundPlaceId })
    if (!one.ok) return one
    const { change, goods, usedUp, missing } = one.value
    for (const after of change.batches) now.set(after.id, after)
    plan.change.movements.push(...change.movements)
    plan.change.promises.push(...change.promises)
    const left = now.get(batch.id)
    if (left && usedUp > 0 && putUpsIn(left) === 0 && isOut(left)) {
      // Nothing is left to carry: its row goes home by itself.
      const target = mergeInto.get(batch.id)
      const atHome = target ? (now.get(target.id) ?? target) : null
      const home = sure(planReturn(left, { atHome, projectId: said.projectId, reason: 'used up' }))
      for (const after of home.batches) now.set(after.id, after)
      plan.change.movements.push(...home.movements)
    }
    plan.check.pulled += putUpsIn(batch)
    if (missing) {
      plan.missing.push(missing)
      plan.check.missing += missing.putUps
    }
    if (usedUp > 0) plan.usedUp.push({ threadId: batch.threadId, lot: batch.lot, putUps: usedUp })
    plan.check.usedUp += usedUp
    if (!goods) continue
    const goesHome = said.outcome.kind !== 'stays' && isOut({ ...goods, currentPlaceId: batch.currentPlaceId })
    ;(goesHome ? plan.back : plan.stays).push(goods)
    plan.check[goesHome ? 'back' : 'stays'] += putUpsIn(goods)
  }
  const rankOf = ({ homePlaceId }: UnpackedGoods) => input.walkRanks.get(homePlaceId ?? '') ?? Number.MAX_SAFE_INTEGER
  plan.back.sort(
    (a, b) => rankOf(a) - rankOf(b) || compareExact(a.homePlaceId, b.homePlaceId) || compareExact(a.batchId, b.batchId),
  )
  plan.usedUp = joinUsedUp(plan.usedUp)
  plan.change.batches = [...now.values()]
  return ok(plan)
}

type One = {
  change: StockChange
  goods: UnpackedGoods | null
  usedUp: number
  missing: UnpackPlan['missing'][number] | null
}

function unpackOne(
  batch: Batch,
  said: BatchOutcome,
  around: {
    promises: readonly StockPromise[]
    freedProjects: ReadonlySet<string>
    notFoundPlaceId: string | null
    newBatchId: () => string
  },
): Result<One, UnpackRefused> {
  const { promises, freedProjects } = around
  const { projectId } = said
  const { threadId } = batch
  const notThere = said.notThere ?? 0
  if (!Number.isSafeInteger(notThere) || notThere < 0) throw new RangeError(`planUnpack: notThere ${notThere}`)
  if (said.outcome.kind === 'stays') return ok({ change: none, goods: goodsOf(batch, projectId), usedUp: 0, missing: null })
  const isNone = notThere > 0 && notThere === putUpsIn(batch)
  const isAllGone = said.outcome.kind === 'not-there' || (isNone && said.outcome.kind === 'as-it-was')
  if (notThere > batch.wholePutUps || (isNone && !isAllGone))
    return refused({ kind: 'more-missing-than-brought', threadId, wholePutUps: batch.wholePutUps })
  const lost = isAllGone
    ? { wholePutUps: batch.wholePutUps, takesPart: batch.partCertainty !== 'none' }
    : { wholePutUps: notThere, takesPart: false }

  const now = new Map<string, BatchAfter>()
  const change: StockChange = { batches: [], movements: [], promises: [] }
  const apply = (part: StockChange) => {
    for (const after of part.batches) now.set(after.id, after)
    change.movements.push(...part.movements)
  }
  let missing: One['missing'] = null
  if (isAllGone || notThere > 0) {
    const toPlaceId = batch.homePlaceId === null ? around.notFoundPlaceId : null
    const reason = 'not there when it was unpacked'
    const parted = planMissing(batch, { ...lost, toPlaceId, projectId, newBatchId: around.newBatchId(), reason, promises })
    if (!parted.ok) throw new RangeError(`planUnpack: ${parted.error.kind} of batch ${batch.id}`)
    apply(parted.value.change)
    change.promises.push(...parted.value.change.promises)
    missing = { batchId: parted.value.missingBatchId, threadId, projectId, putUps: isAllGone ? putUpsIn(batch) : notThere }
  }
  if (isAllGone) return ok({ change: { ...change, batches: [...now.values()] }, goods: null, usedUp: 0, missing })

  const present = now.get(batch.id) ?? batch
  const used = planOutcome(present, said.outcome as Exclude<UnpackOutcome, { kind: 'stays' | 'not-there' }>, projectId)
  if (!used.ok) return used
  if (used.value) apply(used.value)
  const left: Batch = now.get(batch.id) ?? batch
  const usedStrandTenths = Math.max(0, knownStrandTenths(present) - knownStrandTenths(left))
  for (const promise of promises) {
    // A project that has used of it wants no more of it than is left.
    const kept =
      promise.projectId === projectId
        ? Math.min(promise.strandTenths - usedStrandTenths, knownStrandTenths(left))
        : promise.strandTenths
    const strandTenths = freedProjects.has(promise.projectId) ? 0 : Math.max(0, kept)
    if (strandTenths !== promise.strandTenths)
      change.promises.push({ batchId: batch.id, projectId: promise.projectId, strandTenths })
  }
  return ok({
    change: { ...change, batches: [...now.values()] },
    goods: putUpsIn(left) > 0 ? goodsOf(left, projectId) : null,
    usedUp: putUpsIn(present) - putUpsIn(left),
    missing,
  })
}

const none: StockChange = { batches: [], movements: [], promises: [] }

const goodsOf = (batch: Batch, projectId: string | null): UnpackedGoods => ({
  batchId: batch.id,
  threadId: batch.threadId,
  ownerId: batch.ownerId,
  lot: batch.lot,
  homePlaceId: batch.homePlaceId,
  wholePutUps: batch.wholePutUps,
  partStrandTenths: batch.partStrandTenths,
  partCertainty: batch.partCertainty,
  projectId,
})

/** What is to be written of the use; null when the record says so already. */
function planOutcome(
  batch: Batch,
  outcome: Exclude<UnpackOutcome, { kind: 'stays' | 'not-there' }>,
  projectId: string | null,
): Result<StockChange | null, UnpackRefused> {
  if (outcome.kind === 'as-it-was') return ok(null)
  const reason = 'unpacked'
  if (outcome.kind === 'used-up' || outcome.strandTenths === 0)
    return ok(sure(planUse(batch, { strandTenths: 'all', projectId, reason })))
  const { strandTenths: leftStrandTenths, certainty } = outcome
  if (!Number.isSafeInteger(leftStrandTenths) || leftStrandTenths < 0)
    throw new RangeError(`planUnpack: ${leftStrandTenths} left of batch ${batch.id}`)
  const held = knownStrandTenths(batch)
  if (leftStrandTenths < held) {
    const use = sure(planUse(batch, { strandTenths: held - leftStrandTenths, projectId, reason }))
    return ok({
      ...use,
      batches: use.batches.map((after) => (after.partStrandTenths > 0 ? { ...after, partCertainty: certainty } : after)),
    })
  }
  const isUnsure = batch.partCertainty === 'guess' || batch.partCertainty === 'some'
  const partStrandTenths = leftStrandTenths - batch.wholePutUps * batch.putUpStrandTenths
  if (leftStrandTenths > held && !(isUnsure && partStrandTenths <= batch.putUpStrandTenths))
    return refused({ kind: 'more-left-than-brought', threadId: batch.threadId, broughtStrandTenths: held, leftStrandTenths })
  if (partStrandTenths === 0) return ok(null)
  const { wholePutUps } = batch
  const how = certainty === 'measured' ? 'measured when it was unpacked' : 'judged when it was unpacked'
  const corrected = planCorrect(batch, { wholePutUps, partStrandTenths, partCertainty: certainty, reason: how })
  return ok(corrected.ok ? corrected.value : null)
}

function sure<E extends { kind: string }>(result: Result<StockChange, E>): StockChange {
  if (!result.ok) throw new RangeError(`planUnpack: ${result.error.kind}`)
  return result.value
}

function joinUsedUp(rows: UnpackPlan['usedUp']): UnpackPlan['usedUp'] {
  const sums = new Map<string, UnpackPlan['usedUp'][number]>()
  for (const row of rows) {
    const key = JSON.stringify([row.threadId, row.lot])
    const sum = sums.get(key)
    if (sum) sum.putUps += row.putUps
    else sums.set(key, { ...row })
  }
  return [...sums.values()].sort((a, b) => compareExact(a.threadId, b.threadId) || compareExact(a.lot, b.lot))
}
