import 'server-only'
import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ThreadList } from '#lib/chart/thread-list'
import { type ClothAnswer, clothAnswer, withPieceChosen } from '#lib/coverage/cloth-answer'
import { compareThreadLists, coverDesign, type DesignCover, type ListComparison } from '#lib/coverage/design-cover'
import { needOfList, type ThreadNeed, type WorkedCloth } from '#lib/coverage/need'
import { workedCloth } from '#lib/coverage/worked-cloth'
import type { FreeStock } from '#lib/stock/free-stock'
import { allowanceOf } from '#lib/thread/allowance'
import type { Thread, ThreadLine } from '#lib/thread/thread'
import { type Answers, clothSettings } from '../answers/answers'

export type CoveredList = { list: ThreadList; needs: ThreadNeed[]; cover: DesignCover }

/** One design's answers in full, with everything their arithmetic shows. */
export type DesignCoverage = {
  /** In the design's own order. */
  lists: CoveredList[]
  /** Nearest to stitching first. */
  comparison: ListComparison[]
  /** Free stock of every thread in any list, and of the stand-ins accepted for them. */
  free: Map<string, FreeStock>
  threads: Map<string, { thread: Thread; line: ThreadLine }>
  /** What the threads were reckoned on; null for the chart's own advice. */
  workedOn: WorkedCloth | null
  /** With the piece that was chosen, else as the chart advises. */
  cloth: ClothAnswer
}

/**
 * Cover one design from some owners' stock.
 *
 * @param choices.pieceId  reckon the threads on this piece of cloth, which must be these owners'
 * @param choices.over     reckon them over so many threads
 * @returns null when the piece is not among the owners' pieces
 */
export function coverageOfDesign(
  answers: Answers,
  subject: { design: Design; lists: readonly ThreadList[] },
  choices: { ownerIds: readonly string[]; pieceId?: string | null; over?: 1 | 2 | null },
): DesignCoverage | null {
  const { world } = answers
  const { design, lists } = subject
  const settings = clothSettings(world.settings)
  const pieces = world.pieces.filter((piece) => choices.ownerIds.includes(piece.ownerId))
  const piece = choices.pieceId ? (pieces.find(({ id }) => id === choices.pieceId) ?? null) : null
  if (choices.pieceId && !piece) return null
  const workedOn = workedCloth(design, piece, choices.over ?? null, settings)

  const charted = lists.flatMap((list) => list.keyLines.flatMap((line) => line.threads.map(({ threadId }) => threadId)))
  const threadIds = new Set(charted.flatMap((threadId) => [threadId, ...(world.standIns.get(threadId) ?? [])]))
  const lines = new Map<string, ThreadLine>()
  const threads: DesignCoverage['threads'] = new Map()
  const free = new Map<string, FreeStock>()
  for (const threadId of threadIds) {
    const thread = world.threads.get(threadId)
    const line = world.lines.get(world.lineOfThread.get(threadId) ?? '')
    if (!line) continue
    lines.set(threadId, line)
    free.set(threadId, answers.freeOf(threadId, choices.ownerIds))
    if (thread) threads.set(threadId, { thread, line })
  }
  const covered = lists.map((list) => {
    const needs = needOfList({
      list,
      lines,
      advised: design.advised,
      size: stitchSize(design),
      coverKind: design.coverKind,
      settings: { allowance: allowanceOf(design, world.settings) },
      cloth: workedOn,
    })
    return { list, needs, cover: coverDesign({ needs, free, lines, standIns: world.standIns, isIncomplete: list.isIncomplete }) }
  })
  const cloth = clothAnswer(design, pieces, settings)
  return {
    lists: covered,
    comparison: compareThreadLists(covered),
    free,
    threads,
    workedOn,
    cloth: piece && workedOn ? withPieceChosen(cloth, piece, workedOn.over, settings) : cloth,
  }
}
