import { type Batch, compareExact, knownStrandTenths, type StockPromise } from './batch'

/** Why a promise does not hold: the batch is gone, it has another owner now, or it holds less than was promised of it. */
export type BrokenWhy = 'gone' | 'other-owner' | 'not-enough'

/** A promise that stock no longer supports. Lengths in strand tenths. */
export type BrokenPromise = {
  promiseId: string
  batchId: string
  projectId: string
  promisedStrandTenths: number
  /** What of it the batch still has; nought when it is gone or somebody else's. */
  supportedStrandTenths: number
  why: BrokenWhy
}

/** A broken promise with the names a screen tells it by. */
export type BrokenPromiseNamed = BrokenPromise & {
  lot: string | null
  project: { id: string; title: string; forWhom: string | null }
  thread: { id: string; makerName: string; code: string; name: string | null; strands: number }
}

/**
 * The promises that stock no longer supports: stock was corrected down, used, lost or passed on after it had been promised.
 *
 * What a batch still holds is handed out in turn: first to the project in whose bag it lies, then to the oldest promise; who comes too
 * late is hit. Age is read from promises' ids, which sort by it; a promise that is changed keeps its id. A batch that is out is still
 * there, so that alone breaks nothing.
 *
 * @param batches   Those there are; a promised batch that is not among them is gone.
 * @param promises  All promises on the batches asked about: leave one out and another seems supported.
 * @param projects  Every project a promise is for; promises for others are passed over.
 * @returns in the order of the promises' age
 */
export function findBrokenPromises(input: {
  batches: readonly Pick<
    Batch,
    'id' | 'ownerId' | 'currentPlaceId' | 'putUpStrandTenths' | 'wholePutUps' | 'partStrandTenths' | 'partCertainty'
  >[]
  promises: readonly StockPromise[]
  projects: readonly { id: string; ownerId: string; placeId: string | null }[]
}): BrokenPromise[] {
  const batchOf = new Map(input.batches.map((batch) => [batch.id, batch]))
  const projectOf = new Map(input.projects.map((project) => [project.id, project]))
  const left = new Map(input.batches.map((batch) => [batch.id, knownStrandTenths(batch)]))
  const isInBag = ({ batchId, projectId }: StockPromise) => {
    const placeId = batchOf.get(batchId)?.currentPlaceId ?? null
    return placeId !== null && placeId === projectOf.get(projectId)?.placeId
  }
  const inTurn = input.promises
    .filter((promise) => projectOf.has(promise.projectId))
    .sort((a, b) => Number(isInBag(b)) - Number(isInBag(a)) || compareExact(a.id, b.id))
  const broken: BrokenPromise[] = []
  for (const { id: promiseId, batchId, projectId, strandTenths: promisedStrandTenths } of inTurn) {
    const batch = batchOf.get(batchId)
    const facts = { promiseId, batchId, projectId, promisedStrandTenths }
    if (!batch) {
      broken.push({ ...facts, supportedStrandTenths: 0, why: 'gone' })
      continue
    }
    if (batch.ownerId !== projectOf.get(projectId)?.ownerId) {
      broken.push({ ...facts, supportedStrandTenths: 0, why: 'other-owner' })
      continue
    }
    const supportedStrandTenths = Math.min(left.get(batchId) as number, promisedStrandTenths)
    left.set(batchId, (left.get(batchId) as number) - supportedStrandTenths)
    if (supportedStrandTenths < promisedStrandTenths) broken.push({ ...facts, supportedStrandTenths, why: 'not-enough' })
  }
  return broken.sort((a, b) => compareExact(a.promiseId, b.promiseId))
}
