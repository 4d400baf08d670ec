import 'server-only'
import type { ThreadList } from '#lib/chart/thread-list'
import type { Lab } from '#lib/colour/lab'
import {
  type ExplainedSwap,
  explainAssignment,
  modelSwaps,
  readAssignment,
  type SwapAssignment,
  type SwapCandidate,
  type SwapColour,
  type SwapNeed,
  type SwapTask,
} from '#lib/coverage/assign-swaps'
import { coverDesign } from '#lib/coverage/design-cover'
import { isReadyRank, type LineStatus, statusRanks } from '#lib/coverage/line-status'
import { alternativesOf, SwapPool, swapNeedOf } from '#lib/coverage/swap-candidates'
import { solveMilp } from '#lib/solver/solve-milp'
import { type FreeStock, freeStock } from '#lib/stock/free-stock'
import type { SwapStock, SwapThread } from '#lib/thread/substitution'
import type { Answers } from '../answers/answers'
import type { DesignCoverage } from '../coverage/design-coverage'
import { type Opinion, readOpinionsOf } from '../thread/conversions'
import { readPutUpWeights } from './read-put-up-weights'

export type SwapChoices = {
  ownerIds: readonly string[]
  listId: string
  cloth: Lab | null
  /** By charted thread: the stand-in chosen by hand, or null for working it as charted and buying it. */
  picks: ReadonlyMap<string, string | null>
  merges: readonly (readonly [string, string])[]
  /** Solids for solids, overdyed for overdyed: leave the others out. */
  keepsDyeing: boolean
  /** The project it is for: its promises count as free to it, and its swaps as chosen. */
  project: {
    id: string
    quantity: number
    swaps: readonly { threadId: string; standInThreadId: string; reason: string | null }[]
  } | null
}

/** Who chose a stand-in: this assignment, a person just now, the project before, or a stand-in accepted for good. */
export type ChosenBy = 'assignment' | 'hand' | 'project' | 'stand-in'

export type SwapBoardLine = ExplainedSwap & {
  status: LineStatus
  need: SwapNeed
  /** Null where it is worked as charted and to be bought. */
  chosenBy: ChosenBy | null
  /** A person said that it is to be bought. */
  isBought: boolean
  opinions: Opinion[]
}

/** A thread list with a stand-in for every missing thread that has one. */
export type SwapBoard = {
  list: ThreadList
  task: SwapTask
  assignment: SwapAssignment
  /** In the order of the key. */
  lines: SwapBoardLine[]
  /** False where time ran out: what is shown serves, but a better choice may exist. */
  isProven: boolean
}

const timeLimitSeconds = 1

/**
 * Find stand-ins for every missing thread of a list, all together.
 *
 * @returns null when the design has no such list.
 */
export async function proposeSwaps(
  answers: Answers,
  coverage: DesignCoverage,
  choices: SwapChoices,
  signal?: AbortSignal,
): Promise<SwapBoard | null> {
  const { ownerIds, project } = choices
  const covered = coverage.lists.find(({ list }) => list.id === choices.listId)
  if (!covered) return null
  const { list } = covered
  // First: the answers are to be read in one go.
  const [opinions, weights] = await Promise.all([
    readOpinionsOf(covered.needs.map(({ threadId }) => threadId)),
    readPutUpWeights(),
  ])
  const quantity = project?.quantity ?? 1
  const needs = covered.needs.map((need) => ({
    ...need,
    strandTenths: need.strandTenths * quantity,
    leastStrandTenths: need.leastStrandTenths * quantity,
  }))
  const { world } = answers
  const free = new Map<string, FreeStock>()
  for (const [threadId, batches] of world.stock.batches) {
    const promises = world.stock.promises.get(threadId) ?? []
    free.set(threadId, freeStock({ threadId, batches, promises, ownerIds, forProjectId: project?.id ?? null }))
  }
  const lines = new Map(
    [...world.lineOfThread].flatMap(([threadId, lineId]) => {
      const line = world.lines.get(lineId)
      return line ? [[threadId, line] as const] : []
    }),
  )
  const cover = coverDesign({ needs, free, lines, standIns: world.standIns, isIncomplete: list.isIncomplete })

  const pool = new SwapPool(
    [...world.threads.keys()].flatMap((threadId) => candidateOf(answers, weights, threadId, free.get(threadId)) ?? []),
  )
  const isHeld = (thread: SwapThread) => (free.get(thread.threadId)?.freeStrandTenths ?? 0) > 0

  const chosenBy = new Map<string, ChosenBy>()
  const colours = cover.threads.flatMap((thread, at): SwapColour[] => {
    const need = covered.needs[at]
    const charted = swapThread(answers, weights, thread.threadId)
    if (!need || !charted) return []
    const base = { charted, need: swapNeedOf(need, list, quantity) }
    const swapped = project?.swaps.find(({ threadId }) => threadId === thread.threadId)?.standInThreadId
    const picked = choices.picks.get(thread.threadId)
    const isReady = isReadyRank(statusRanks[thread.status])
    if (isReady && picked === undefined && swapped === undefined) return [{ ...base, state: 'kept' }]
    const own = alternativesOf(
      thread.threadId,
      list,
      coverage.lists.map((other) => other.list),
    )
    const named = [
      ...own,
      ...(opinions.get(thread.threadId) ?? []).map(({ otherThreadId }) => otherThreadId),
      ...(world.standIns.get(thread.threadId) ?? []),
    ]
    const isLike = (near: SwapThread) => isHeld(near) && (!choices.keepsDyeing || near.line.dyeing === charted.line.dyeing)
    const candidates = pool
      .near(charted, named, isLike)
      .map((candidate) => ({ ...candidate, isDesignersOwn: own.includes(candidate.thread.threadId) }))
    if (picked === null || picked === thread.threadId) return [{ ...base, state: 'bought', candidates }]
    const settled: [string | null | undefined, ChosenBy][] = [
      [picked, 'hand'],
      [swapped, 'project'],
      [thread.standInThreadId, 'stand-in'],
    ]
    for (const [threadId, by] of settled) {
      if (!threadId) continue
      const known = candidates.find((candidate) => candidate.thread.threadId === threadId)
      const candidate = known ?? candidateOf(answers, weights, threadId, free.get(threadId))
      if (!candidate) continue
      chosenBy.set(thread.threadId, by)
      return [{ ...base, state: 'chosen', candidate, candidates }]
    }
    return [{ ...base, state: 'missing', candidates }]
  })

  const task: SwapTask = { colours, cloth: choices.cloth, merges: choices.merges }
  const { assignment, isProven } = await assign(task, signal)
  const explained = explainAssignment(task, assignment)
  return {
    list,
    task,
    assignment,
    isProven,
    lines: explained.flatMap((line) => {
      const { threadId } = line.charted
      const colour = colours.find(({ charted }) => charted.threadId === threadId)
      const thread = cover.threads.find((one) => one.threadId === threadId)
      if (!colour || !thread) return []
      return [
        {
          ...line,
          status: thread.status,
          need: colour.need,
          chosenBy: line.chosen ? (chosenBy.get(threadId) ?? 'assignment') : null,
          isBought: colour.state === 'bought',
          opinions: opinions.get(threadId) ?? [],
        },
      ]
    }),
  }
}

async function assign(
  task: SwapTask,
  signal: AbortSignal | undefined,
): Promise<{ assignment: SwapAssignment; isProven: boolean }> {
  const model = modelSwaps(task)
  if (!model) return { assignment: new Map(), isProven: true }
  const answer = await solveMilp(model.lpText, { timeLimitSeconds, signal })
  if (!('columns' in answer)) return { assignment: new Map(), isProven: false }
  return { assignment: readAssignment(model, answer.columns), isProven: answer.status === 'optimal' }
}

/** A thread on record as a swap is judged by; null when it is gone. */
export function swapThread({ world }: Answers, weights: ReadonlyMap<string, number>, threadId: string): SwapThread | null {
  const thread = world.threads.get(threadId)
  const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
  if (!thread || !line) return null
  return { threadId, line: { ...line, putUpMilligrams: weights.get(line.id) ?? null }, lab: thread.lab }
}

export function candidateOf(
  answers: Answers,
  weights: ReadonlyMap<string, number>,
  threadId: string,
  free: FreeStock | undefined,
): SwapCandidate | null {
  const thread = swapThread(answers, weights, threadId)
  return thread && { thread, stock: stockOf(free) }
}

const stockOf = (free: FreeStock | undefined): SwapStock => ({
  freeStrandTenths: free?.freeStrandTenths ?? 0,
  bestLotStrandTenths: free?.lots[0]?.freeStrandTenths ?? 0,
  isSomeHeld: free?.isSomeHeld ?? false,
})
