import 'server-only'
import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ThreadList } from '#lib/chart/thread-list'
import { needOfList, swapNeeds, type ThreadNeed, type WorkedCloth } from '#lib/coverage/need'
import { workedCloth } from '#lib/coverage/worked-cloth'
import type { Settings } from '#lib/settings/settings'
import { allowanceOf } from '#lib/thread/allowance'
import type { ThreadLine } from '#lib/thread/thread'
import { clothSettings } from '../answers/answers'
import { designColumns, listColumns, toDesign, toThreadList } from '../chart/design-rows'
import type { Transaction } from '../client'
import { pieceColumns, toClothPiece } from '../cloth/cloth-rows'
import { lineColumns, lineOf } from '../thread/list-lines'

/** The thread lists of a design, in their order. */
export async function readThreadLists(tx: Transaction, designId: string): Promise<ThreadList[]> {
  const rows = await tx.threadList.findMany({
    where: { designId },
    select: listColumns,
    orderBy: [{ position: 'asc' }, { id: 'asc' }],
  })
  return rows.map(toThreadList)
}

/** The line of every one of these threads, by thread. */
export async function readLines(tx: Transaction, threadIds: readonly string[]): Promise<Map<string, ThreadLine>> {
  const rows = await tx.thread.findMany({
    where: { id: { in: [...threadIds] } },
    select: { id: true, line: { select: lineColumns } },
  })
  return new Map(rows.map(({ id, line }) => [id, lineOf(line)]))
}

/** The choices of a project that change what it needs, beside its swaps. */
export type WorkChoices = {
  id: string
  designId: string
  threadListId: string | null
  clothPieceId: string | null
  over: 1 | 2 | null
  quantity: number
}

export type ProjectNeed = {
  /** Of all copies together, by the threads it is worked in. */
  needs: ThreadNeed[]
  /** The same by the threads of the key, before any swap. */
  charted: ThreadNeed[]
  /** Charted → worked in. */
  swaps: ReadonlyMap<string, string>
  /** Of every thread needed, charted ones that are swapped too. */
  lines: Map<string, ThreadLine>
  copies: number
}

/** The length each copy has cut for it, by thread; none for a single piece, whose thread may be pieced together. */
export const cutsOf = ({ needs, copies }: ProjectNeed): Map<string, number> =>
  new Map(copies > 1 ? needs.map(({ threadId, strandTenths }) => [threadId, strandTenths / copies]) : [])

/** One list's needs for all of a kit batch: each thread's need of one piece times their number. */
export function needForQuantity(
  input: {
    design: Design
    list: ThreadList
    lines: ReadonlyMap<string, ThreadLine>
    cloth: WorkedCloth | null
    settings: Settings
  },
  quantity: number,
): ThreadNeed[] {
  const { design, list, lines, cloth, settings } = input
  const needs = needOfList({
    list,
    lines,
    advised: design.advised,
    size: stitchSize(design),
    coverKind: design.coverKind,
    settings: { allowance: allowanceOf(design, settings) },
    cloth,
  })
  return needs.map((need) => ({
    ...need,
    strandTenths: need.strandTenths * quantity,
    leastStrandTenths: need.leastStrandTenths * quantity,
  }))
}

/** What a project needs of each thread, on its own cloth and with its own swaps; nothing when it has no thread list. */
export async function readProjectNeed(tx: Transaction, work: WorkChoices, settings: Settings): Promise<ProjectNeed> {
  const row = await tx.design.findUniqueOrThrow({ where: { id: work.designId }, select: designColumns })
  const listRow = work.threadListId
    ? await tx.threadList.findFirst({ where: { id: work.threadListId, designId: work.designId }, select: listColumns })
    : null
  if (!listRow) return { needs: [], charted: [], swaps: new Map(), lines: new Map(), copies: work.quantity }
  const design = toDesign(row)
  const list = toThreadList(listRow)
  const pieceRow = work.clothPieceId
    ? await tx.clothPiece.findUnique({ where: { id: work.clothPieceId }, select: pieceColumns })
    : null
  const swapRows = await tx.projectSwap.findMany({
    where: { projectId: work.id },
    select: { threadId: true, standInThreadId: true },
    orderBy: { id: 'asc' },
  })
  const swaps = new Map(swapRows.map(({ threadId, standInThreadId }) => [threadId, standInThreadId]))
  const lines = await readLines(tx, [...new Set([...threadIdsOf([list]), ...swaps.values()])])
  const cloth = workedCloth(design, pieceRow && toClothPiece(pieceRow, true), work.over, clothSettings(settings))
  const charted = needForQuantity({ design, list, lines, cloth, settings }, work.quantity)
  return { needs: swapNeeds(charted, swaps), charted, swaps, lines, copies: work.quantity }
}

/** Every thread of these lists, each once. */
export const threadIdsOf = (lists: readonly ThreadList[]): string[] => [
  ...new Set(lists.flatMap((list) => list.keyLines.flatMap((line) => line.threads.map((thread) => thread.threadId)))),
]
