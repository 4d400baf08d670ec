import 'server-only'
import type { Lab } from '#lib/colour/lab'
import { SwapPool } from '#lib/coverage/swap-candidates'
import { compareExact } from '#lib/stock/batch'
import { judgeSwap, type SwapStock, type SwapThread, type SwapVerdict } from '#lib/thread/substitution'
import type { Answers } from '../answers/answers'
import { type Opinion, readOpinionsOf } from '../thread/conversions'
import { candidateOf, swapThread } from './propose-swaps'
import { readPutUpWeights } from './read-put-up-weights'

export type ThreadSwap = {
  thread: SwapThread
  stock: SwapStock
  verdict: SwapVerdict
  opinions: Opinion[]
  isAcceptedStandIn: boolean
}

export type ThreadSwaps = { original: SwapThread; apart: SwapThread[]; swaps: ThreadSwap[] }

/**
 * What could stand in for one thread without looking like some others, on a cloth: those that pass first, the nearest before the
 * farther; then those that do not, with why.
 *
 * @param apartThreadIds  threads it must keep away from, each worked as itself; unknown ones are passed over
 * @param among           only what these owners have free, or every thread on record
 * @returns null when there is no such thread.
 */
export async function listThreadSwaps(
  answers: Answers,
  threadId: string,
  asked: { ownerIds: readonly string[]; apartThreadIds: readonly string[]; cloth: Lab | null; among: 'free' | 'all' },
): Promise<ThreadSwaps | null> {
  // First: the answers are to be read in one go.
  const [opinionsOf, weights] = await Promise.all([readOpinionsOf([threadId]), readPutUpWeights()])
  const opinions = opinionsOf.get(threadId) ?? []
  const original = swapThread(answers, weights, threadId)
  if (!original) return null
  const { world } = answers
  const heldIds = new Set([...world.stock.batches.keys()])
  const freeOf = (id: string) => (heldIds.has(id) ? answers.freeOf(id, asked.ownerIds) : undefined)
  const accepted = world.standIns.get(threadId) ?? []
  const pool = new SwapPool([...world.threads.keys()].flatMap((id) => candidateOf(answers, weights, id, freeOf(id)) ?? []))
  const apart = [...new Set(asked.apartThreadIds)]
    .filter((id) => id !== threadId)
    .flatMap((id) => swapThread(answers, weights, id) ?? [])
  const others = apart.map(({ threadId: id, lab }) => ({
    chartedThreadId: id,
    chartedLab: lab,
    chosenThreadId: id,
    chosenLab: lab,
  }))
  const isWanted = ({ threadId: id }: SwapThread) => asked.among === 'all' || (freeOf(id)?.freeStrandTenths ?? 0) > 0
  const swaps = pool
    .near(original, [...opinions.map(({ otherThreadId }) => otherThreadId), ...accepted], isWanted)
    .map(({ thread, stock }) => ({
      thread,
      stock,
      verdict: judgeSwap({ original, candidate: thread, others, cloth: asked.cloth, need: null, stock: null }),
      opinions: opinions.filter(({ otherThreadId }) => otherThreadId === thread.threadId),
      isAcceptedStandIn: accepted.includes(thread.threadId),
    }))
    .sort(
      (a, b) =>
        Number(b.verdict.isAccepted) - Number(a.verdict.isAccepted) ||
        (a.verdict.deltaE ?? Number.POSITIVE_INFINITY) - (b.verdict.deltaE ?? Number.POSITIVE_INFINITY) ||
        compareExact(a.thread.threadId, b.thread.threadId),
    )
  return { original, apart, swaps }
}
