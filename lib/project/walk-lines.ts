import { compareLabels } from '#lib/place/walk-order'
import { type Batch, compareExact, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import { type Parting, pullOf } from '#lib/stock/part-off'
import { planTake } from '#lib/stock/plan-place'
import type { StockChange } from '#lib/stock/stock-change'
import { compareCodes } from '#lib/thread/code-order'
import { putUpsFor } from '#lib/thread/put-ups'
import { thingKey, type WalkThing } from './walk'

/** What a project is to have of a batch: a length it was promised, or what is in hand for it already. */
export type PullWant = { projectId: string } & ({ strandTenths: number; leastCutStrandTenths: number } | { inHand: Parting })

type Taken = { change: StockChange; pull: Parting }

/**
 * Take a promised length out of a batch for a project: the part skein first, then as many whole put-ups as it takes; whole put-ups alone
 * where the part is others'. Null when neither can be had.
 */
export function takePromised(
  batch: Batch,
  take: {
    strandTenths: number
    leastCutStrandTenths: number
    toPlaceId: string
    projectId: string
    newBatchId: string
    promises: readonly StockPromise[]
  },
): Taken | null {
  const { leastCutStrandTenths, ...rest } = take
  const wanted = Math.min(take.strandTenths, knownStrandTenths(batch))
  const pulls = [
    pullOf(batch, wanted, leastCutStrandTenths),
    // Leaving the part skein for others may spare them what they were promised.
    { wholePutUps: putUpsFor(wanted, batch.putUpStrandTenths), takesPart: false },
  ]
  for (const pull of pulls) {
    if (pull.wholePutUps === 0 && !pull.takesPart) continue
    const planned = planTake(batch, { ...rest, ...pull })
    if (planned.ok) return { change: planned.value, pull }
  }
  return null
}

/**
 * What to lift out of one batch for each project, in the order of `wants`: each finds what those before it left. What is in hand already
 * is not lifted again, only left out of what there is.
 *
 * @param promises  the promises of this batch
 */
export function pullsOf(
  batch: Batch,
  wants: readonly PullWant[],
  promises: readonly StockPromise[],
): { pulls: (Parting & { projectId: string })[]; leftThere: string[] } {
  const pulls: (Parting & { projectId: string })[] = []
  const leftThere: string[] = []
  let left: Batch | null = batch
  let promised = promises
  const inHandFirst = [...wants.filter((want) => 'inHand' in want), ...wants.filter((want) => !('inHand' in want))]
  for (const want of inHandFirst) {
    const { projectId } = want
    const taking = { toPlaceId: `the bag of ${projectId}`, projectId, newBatchId: `for ${projectId}`, promises: promised }
    const taken: Taken | null = left && takeWanted(left, want, taking)
    if (!taken) {
      if (!('inHand' in want)) leftThere.push(projectId)
      continue
    }
    if (!('inHand' in want)) pulls.push({ projectId, ...taken.pull })
    const stays: Batch | undefined = taken.change.batches.find(({ id }) => id === batch.id)
    left = stays && stays.currentPlaceId === batch.currentPlaceId ? stays : null
    promised = promised.map((promise) => {
      const now = taken.change.promises.find((one) => one.batchId === batch.id && one.projectId === promise.projectId)
      return now ? { ...promise, strandTenths: now.strandTenths } : promise
    })
  }
  return { pulls, leftThere }
}

function takeWanted(
  batch: Batch,
  want: PullWant,
  taking: { toPlaceId: string; projectId: string; newBatchId: string; promises: readonly StockPromise[] },
): Taken | null {
  if (!('inHand' in want)) return takePromised(batch, { ...want, ...taking })
  const planned = planTake(batch, { ...want.inHand, ...taking })
  return planned.ok ? { change: planned.value, pull: want.inHand } : null
}

/** One thing to take, or to put back, before it is written; `placeId` is where one goes for it. */
export type WalkStop = WalkThing & {
  projectId: string | null
  placeId: string | null
  /** As the label says, for order within a place; of cloth, chart and notion their name. */
  maker: string
  code: string
}

const turnOf = (stop: WalkStop): number => (stop.batchId ? 0 : stop.clothPieceId ? 1 : stop.chartId ? 2 : 3)

/**
 * Things in the order one walks past them: place by place, in a place threads by maker and number, then cloth, charts and notions by
 * name. Bags of one thing in the order of `projectIds`. What has no place comes last.
 */
export function inWalkingOrder<Stop extends WalkStop>(
  stops: readonly Stop[],
  { rankOf, projectIds }: { rankOf: ReadonlyMap<string, number>; projectIds: readonly string[] },
): Stop[] {
  const rank = ({ placeId }: Stop) => (placeId === null ? null : rankOf.get(placeId)) ?? Number.MAX_SAFE_INTEGER
  const bagTurn = new Map(projectIds.map((id, turn) => [id, turn]))
  const bag = ({ projectId }: Stop) => (projectId === null ? -1 : (bagTurn.get(projectId) ?? projectIds.length))
  return [...stops].sort(
    (a, b) =>
      rank(a) - rank(b) ||
      turnOf(a) - turnOf(b) ||
      compareExact(a.maker, b.maker) ||
      (a.batchId ? compareCodes(a.code, b.code) : compareLabels(a.code, b.code)) ||
      compareExact(thingKey(a), thingKey(b)) ||
      bag(a) - bag(b) ||
      compareExact(a.projectId, b.projectId),
  )
}
