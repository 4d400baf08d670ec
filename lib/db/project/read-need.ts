import 'server-only'
import type { AdvisedCloth, CoverKind, Design, DesignSize } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import type { ThreadList } from '#lib/chart/thread-list'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import { type ClothRequest, fitPiece } from '#lib/cloth/fit'
import { needOfList, type ThreadNeed, type WorkedCloth } from '#lib/coverage/need'
import type { Settings } from '#lib/settings/settings'
import { type StitchTally, stitches, type Working } from '#lib/thread/stitches'
import type { Dyeing, ThreadLine } from '#lib/thread/thread'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { clothColumns, toClothPiece } from './read-cloth'

export const designColumns = {
  id: true,
  chartId: true,
  title: true,
  widthStitches: true,
  heightStitches: true,
  measuredWidthUm: true,
  measuredHeightUm: true,
  advisedThreads: true,
  advisedPerUm: true,
  advisedOver: true,
  advisedWeave: true,
  insistsOnWeave: true,
  advisedCloth: true,
  coverKind: true,
} as const satisfies Prisma.DesignSelect

export function toDesign(row: Prisma.DesignGetPayload<{ select: typeof designColumns }>): Design {
  return {
    id: row.id,
    chartId: row.chartId,
    title: row.title,
    size: sizeOf(row),
    advised: advisedOf(row),
    coverKind: row.coverKind as CoverKind | null,
  }
}

type SizeRow = { widthStitches: number | null; heightStitches: number | null } & {
  measuredWidthUm: number | null
  measuredHeightUm: number | null
}

function sizeOf({ widthStitches, heightStitches, measuredWidthUm, measuredHeightUm }: SizeRow): DesignSize {
  if (widthStitches !== null && heightStitches !== null) return { kind: 'stitches', width: widthStitches, height: heightStitches }
  if (measuredWidthUm !== null && measuredHeightUm !== null)
    return { kind: 'measured', widthUm: measuredWidthUm, heightUm: measuredHeightUm }
  return { kind: 'unknown' }
}

function advisedOf(row: Prisma.DesignGetPayload<{ select: typeof designColumns }>): AdvisedCloth | null {
  if (row.advisedThreads === null || row.advisedPerUm === null || row.advisedOver === null) return null
  return {
    count: { threads: row.advisedThreads, perUm: row.advisedPerUm },
    over: row.advisedOver as 1 | 2,
    weave: row.advisedWeave as Weave | null,
    insists: row.insistsOnWeave,
    name: row.advisedCloth,
  }
}

const listColumns = {
  id: true,
  designId: true,
  name: true,
  keyLines: {
    orderBy: { position: 'asc' },
    select: {
      id: true,
      symbol: true,
      hasTally: true,
      full: true,
      half: true,
      quarter: true,
      threeQuarter: true,
      tent: true,
      backstitch: true,
      backstitchDiagonal: true,
      doubleRunning: true,
      knotOneWrap: true,
      knotTwoWrap: true,
      bead: true,
      threads: {
        orderBy: { position: 'asc' },
        select: { threadId: true, strands: true, statedHundredths: true, statedPutUpStrandTenths: true },
      },
    },
  },
} as const satisfies Prisma.ThreadListSelect

function toThreadList(row: Prisma.ThreadListGetPayload<{ select: typeof listColumns }>): ThreadList {
  return {
    id: row.id,
    designId: row.designId,
    name: row.name,
    keyLines: row.keyLines.map((line) => ({
      id: line.id,
      symbol: line.symbol,
      tally: line.hasTally ? (Object.fromEntries(stitches.map((stitch) => [stitch, line[stitch]])) as StitchTally) : null,
      threads: line.threads.map((thread) => ({
        threadId: thread.threadId,
        strands: thread.strands,
        stated:
          thread.statedHundredths === null || thread.statedPutUpStrandTenths === null
            ? null
            : { hundredths: thread.statedHundredths, putUpStrandTenths: thread.statedPutUpStrandTenths },
      })),
    })),
  }
}

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
    select: { id: true, line: { include: { maker: { select: { name: true } } } } },
  })
  return new Map(
    rows.map(({ id, line: { maker, nameKey: _nameKey, version: _version, ...line } }) => [
      id,
      { ...line, makerName: maker.name, dyeing: line.dyeing as Dyeing, working: line.working as Working },
    ]),
  )
}

/** The choices of a project that change what it needs. */
export type WorkChoices = {
  designId: string
  threadListId: string | null
  clothPieceId: string | null
  over: 1 | 2 | null
  quantity: number
}

export type ProjectNeed = { needs: ThreadNeed[]; lines: Map<string, ThreadLine> }

/** What a design asks of cloth with these settings' margins; null when its size is not known. */
export function clothRequest(design: Design, over: 1 | 2, settings: Settings): ClothRequest | null {
  const size = stitchSize(design)
  if (!size) return null
  const { margins, finishing, shrinkPercent, roundingUm } = settings
  return { ...size, over, margins: margins[finishing], shrinkPercent, roundingUm }
}

/**
 * The cloth a project is worked on: its piece, the way round it fits best, over what the project or else the chart says. Without a
 * piece, the advised count over what the project says; null when it says nothing either, for then the chart's own figures stand.
 */
export function workedCloth(
  design: Design,
  piece: ClothPiece | null,
  over: 1 | 2 | null,
  settings: Settings,
): WorkedCloth | null {
  if (!piece) {
    if (over === null || design.advised === null) return null
    return { ends: design.advised.count, picks: design.advised.count, over, isTurned: false }
  }
  const chosenOver = over ?? design.advised?.over ?? (piece.weave === 'block' ? 1 : 2)
  const request = clothRequest(design, chosenOver, settings)
  const isTurned = request !== null && fitPiece(request, piece).isTurned
  return { ends: piece.ends, picks: piece.picks, over: chosenOver, isTurned }
}

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
    settings: { allowance: settings.allowance },
    cloth,
  })
  return needs.map((need) => ({
    ...need,
    strandTenths: need.strandTenths * quantity,
    leastStrandTenths: need.leastStrandTenths * quantity,
  }))
}

/** What a project needs of each thread, on its own cloth; nothing when it has no thread list. */
export async function readProjectNeed(tx: Transaction, work: WorkChoices, settings: Settings): Promise<ProjectNeed> {
  const row = await tx.design.findUniqueOrThrow({ where: { id: work.designId }, select: designColumns })
  const listRow = work.threadListId
    ? await tx.threadList.findFirst({ where: { id: work.threadListId, designId: work.designId }, select: listColumns })
    : null
  if (!listRow) return { needs: [], lines: new Map() }
  const design = toDesign(row)
  const list = toThreadList(listRow)
  const pieceRow = work.clothPieceId
    ? await tx.clothPiece.findUnique({ where: { id: work.clothPieceId }, select: clothColumns })
    : null
  const lines = await readLines(tx, threadIdsOf([list]))
  const cloth = workedCloth(design, pieceRow && toClothPiece(pieceRow), work.over, settings)
  return { needs: needForQuantity({ design, list, lines, cloth, settings }, work.quantity), lines }
}

/** Every thread of these lists, each once. */
export const threadIdsOf = (lists: readonly ThreadList[]): string[] => [
  ...new Set(lists.flatMap((list) => list.keyLines.flatMap((line) => line.threads.map((thread) => thread.threadId)))),
]
