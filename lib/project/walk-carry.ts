import { type Batch, isOut, type StockPromise } from '#lib/stock/batch'
import type { Parting } from '#lib/stock/part-off'
import { planMove, planReturn, planTake } from '#lib/stock/plan-place'
import type { BatchAfter, PromiseAfter, StockChange } from '#lib/stock/stock-change'

/** One ticked line of thread. */
export type CarryLine = Parting & {
  lineId: string
  batchId: string
  projectId: string | null
  /** Where it goes: the project's bag; for what is put back, where it is to live if it has no home. */
  toPlaceId: string | null
  /** For what is parted off. */
  newBatchId: string
}

/** Why a ticked line was not carried out: the record has not so much there, others were promised it, or it has no home to go to. */
export type LeftWhy = 'not-enough' | 'promised' | 'gone' | 'no-home'

export type CarryPlan = {
  change: StockChange
  carried: string[]
  left: { lineId: string; why: LeftWhy }[]
}

/** A record that changes line by line, so that each line finds what those before it left. */
class Shelf {
  readonly batches = new Map<string, Batch>()
  readonly written = new Map<string, BatchAfter>()
  readonly movements: StockChange['movements'] = []
  readonly promised = new Map<string, PromiseAfter>()
  private promises: StockPromise[]

  constructor(batches: readonly Batch[], promises: readonly StockPromise[]) {
    for (const batch of batches) this.batches.set(batch.id, batch)
    this.promises = [...promises]
  }

  promisesOn(...batchIds: string[]): StockPromise[] {
    return this.promises.filter(({ batchId }) => batchIds.includes(batchId))
  }

  apply(change: StockChange): void {
    for (const after of change.batches) {
      const isNew = after.isNew || (this.written.get(after.id)?.isNew ?? false)
      this.written.set(after.id, { ...after, isNew, parentId: after.parentId ?? this.written.get(after.id)?.parentId ?? null })
      const { isNew: _isNew, isGone, parentId: _parentId, ...batch } = after
      if (isGone) this.batches.delete(after.id)
      else this.batches.set(after.id, batch)
    }
    this.movements.push(...change.movements)
    for (const promise of change.promises) {
      this.promised.set(`${promise.batchId} ${promise.projectId}`, promise)
      const others = this.promises.filter(
        ({ batchId, projectId }) => batchId !== promise.batchId || projectId !== promise.projectId,
      )
      this.promises = promise.strandTenths > 0 ? [...others, { id: '', ...promise }] : others
    }
  }

  change(): StockChange {
    return { batches: [...this.written.values()], movements: this.movements, promises: [...this.promised.values()] }
  }
}

/**
 * Carry what was pulled into the bags: line by line, each from what those before it left of its batch. A line that cannot be taken as it
 * says stays where it is and says why; the others are carried all the same.
 *
 * @param input.promises  all promises on these batches
 */
export function planCarry(input: {
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  lines: readonly CarryLine[]
}): CarryPlan {
  const shelf = new Shelf(input.batches, input.promises)
  const carried: string[] = []
  const left: CarryPlan['left'] = []
  for (const { lineId, batchId, toPlaceId, ...take } of input.lines) {
    const batch = shelf.batches.get(batchId)
    if (!batch) {
      left.push({ lineId, why: 'gone' })
      continue
    }
    if (toPlaceId === null) throw new RangeError(`planCarry: line ${lineId} goes nowhere`)
    const planned = planTake(batch, { ...take, toPlaceId, promises: shelf.promisesOn(batchId) })
    if (planned.ok) shelf.apply(planned.value)
    if (planned.ok || planned.error.kind === 'already-there') carried.push(lineId)
    else left.push({ lineId, why: planned.error.kind === 'not-enough-free' ? 'promised' : 'not-enough' })
  }
  return { change: shelf.change(), carried, left }
}

/**
 * Put ticked thread back where it lives, laid with the equal batch there. All of a batch goes back when the line asks for as much as it
 * has or more: what was used of it meanwhile is used. Where it asks for less, that much is parted off and the rest stays in the bag.
 * What has no home goes to live where the line says.
 *
 * @param input.mergeInto  by batch, the equal one at its home (`readMergeTargets`)
 * @param input.promises   all promises on these batches and on those at home
 */
export function planHomecoming(input: {
  batches: readonly Batch[]
  promises: readonly StockPromise[]
  mergeInto: ReadonlyMap<string, Batch>
  lines: readonly CarryLine[]
}): CarryPlan {
  const shelf = new Shelf([...input.mergeInto.values(), ...input.batches], input.promises)
  const carried: string[] = []
  const left: CarryPlan['left'] = []
  for (const line of input.lines) {
    const batch = shelf.batches.get(line.batchId)
    if (!batch) {
      left.push({ lineId: line.lineId, why: 'gone' })
      continue
    }
    const planned = planOneHome(batch, line, input.mergeInto.get(line.batchId)?.id ?? null, shelf)
    if (typeof planned === 'string') left.push({ lineId: line.lineId, why: planned })
    else {
      if (planned) shelf.apply(planned)
      carried.push(line.lineId)
    }
  }
  return { change: shelf.change(), carried, left }
}

/** Null when it lies at home already. */
function planOneHome(batch: Batch, line: CarryLine, mergeIntoId: string | null, shelf: Shelf): StockChange | LeftWhy | null {
  const home = batch.homePlaceId ?? line.toPlaceId
  if (home === null) return 'no-home'
  const hasPart = batch.partCertainty !== 'none'
  const isAll = line.wholePutUps >= batch.wholePutUps && (line.takesPart || !hasPart)
  const { projectId } = line
  if (batch.homePlaceId === null) {
    const moved = planMove(batch, { toPlaceId: home, becomesHome: true })
    return moved.ok ? moved.value : null
  }
  if (!isOut(batch)) return null
  if (!isAll) {
    const taken = planTake(batch, { ...line, toPlaceId: home, promises: shelf.promisesOn(batch.id) })
    if (taken.ok) return taken.value
    return taken.error.kind === 'not-enough-free' ? 'promised' : 'not-enough'
  }
  const atHome = (mergeIntoId && shelf.batches.get(mergeIntoId)) || null
  const back = planReturn(batch, {
    atHome,
    projectId,
    promises: shelf.promisesOn(batch.id, ...(atHome ? [atHome.id] : [])),
  })
  return back.ok ? back.value : 'gone'
}
