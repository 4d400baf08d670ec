import 'server-only'
import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ThreadList } from '#lib/chart/thread-list'
import { lengthForKits } from '#lib/coverage/kit-cuts'
import { needOfList, swapNeeds, type ThreadNeed, type WorkedCloth } from '#lib/coverage/need'
import { workedCloth } from '#lib/coverage/worked-cloth'
import { bagsWithCut } from '#lib/project/kit/record'
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
  /** How many copies have their cut of a thread already, which is off the stock; threads nobody cut of are not in it. */
  cutCopies: ReadonlyMap<string, number>
}

/** The needs of those copies that have no cut yet. */
export const needsLeft = ({ needs, copies, cutCopies }: ProjectNeed): ThreadNeed[] =>
  needs.flatMap((need) => {
    const left = copies - Math.min(copies, cutCopies.get(need.threadId) ?? 0)
    if (left === copies) return [need]
    const ofLeft = (strandTenths: number) => (strandTenths / copies) * left
    const { strandTenths, leastStrandTenths } = need
    return left === 0 ? [] : [{ ...need, strandTenths: ofLeft(strandTenths), leastStrandTenths: ofLeft(leastStrandTenths) }]
  })

/**
 * The same as what is to be had for them: a kit's cut has no join, so of every put-up of its line that is opened the remnant counts too,
 * of the last one only what is cut from it.
 */
export const needsToHave = (need: ProjectNeed): ThreadNeed[] =>
  needsLeft(need).map((left) => {
    const { copies, cutCopies, lines } = need
    const putUpStrandTenths = lines.get(left.threadId)?.putUpStrandTenths
    const kits = copies - (cutCopies.get(left.threadId) ?? 0)
    if (copies === 1 || putUpStrandTenths === undefined || left.strandTenths === 0) return left
    const fresh = { putUpStrandTenths, wholePutUps: 0, partStrandTenths: 0 }
    return { ...left, strandTenths: lengthForKits(fresh, left.strandTenths / kits, kits) }
  })

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
  if (!listRow) return { needs: [], charted: [], swaps: new Map(), lines: new Map(), copies: work.quantity, cutCopies: new Map() }
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
  const cutCopies = await readCutCopies(tx, work)
  return { needs: swapNeeds(charted, swaps), charted, swaps, lines, copies: work.quantity, cutCopies }
}

/** How many kits of a batch have their cut, by thread. */
async function readCutCopies(tx: Transaction, { id, quantity }: WorkChoices): Promise<Map<string, number>> {
  if (quantity === 1) return new Map()
  const lots = await tx.kitLot.findMany({
    where: { projectId: id },
    select: { threadId: true, batchId: true, lot: true, fromBag: true, toBag: true },
    orderBy: { id: 'asc' },
  })
  const threadIds = new Set(lots.map(({ threadId }) => threadId))
  return new Map([...threadIds].map((threadId) => [threadId, Math.min(quantity, bagsWithCut(lots, threadId).size)]))
}

/** Every thread of these lists, each once. */
export const threadIdsOf = (lists: readonly ThreadList[]): string[] => [
  ...new Set(lists.flatMap((list) => list.keyLines.flatMap((line) => line.threads.map((thread) => thread.threadId)))),
]
