import 'server-only'
import type { AdvisedCloth } from '#lib/chart/design'
import { choosePiece, type RankedPiece } from '#lib/cloth/choose-piece'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { compareAnswers, coverDesign, type DesignCover } from '#lib/coverage/design-cover'
import { clothRequest } from '#lib/coverage/worked-cloth'
import type { Settings } from '#lib/settings/settings'
import { freeStockByThread } from '#lib/stock/free-stock'
import { clothSettings } from '../answers/answers'
import { designColumns, toDesign } from '../chart/design-rows'
import { database } from '../client'
import { readKeptCloth } from '../cloth/kept-cloth'
import { listClothPieces } from '../cloth/queries'
import { readBatches } from '../stock/apply-stock-change'
import { needForQuantity, readLines, readThreadLists, threadIdsOf } from './read-need'

export type StartChoices = {
  design: { id: string; title: string; chartId: string; chartTitle: string; chartKind: string; designers: string[] }
  advised: AdvisedCloth | null
  /** The nearest to stitching first. */
  lists: { id: string; name: string; cover: DesignCover }[]
  /** Pieces nobody keeps that can be used, best first: of the kind the chart advises, and of another. Empty when its size is not known. */
  cloth: { advised: RankedPiece[]; other: RankedPiece[] }
}

/**
 * What there is to choose from when a design is started from this owner's stock; null when there is no such design.
 *
 * @param forProjectId  a project that is there already: the pieces kept for it alone are to be had too
 */
export async function readStartChoices(
  designId: string,
  ownerId: string,
  settings: Settings,
  forProjectId: string | null = null,
): Promise<StartChoices | null> {
  const { prisma } = database()
  const row = await prisma.design.findFirst({
    where: { id: designId, chart: { goneAt: null } },
    select: {
      ...designColumns,
      chart: {
        select: {
          title: true,
          kind: true,
          designers: { orderBy: { position: 'asc' }, select: { designer: { select: { name: true } } } },
        },
      },
    },
  })
  if (!row) return null
  const design = toDesign(row)
  const lists = await readThreadLists(prisma, designId)
  const threadIds = threadIdsOf(lists)
  const [lines, stock, held, kept] = await Promise.all([
    readLines(prisma, threadIds),
    readBatches(prisma, { threadId: { in: threadIds }, ownerId }),
    listClothPieces([ownerId]),
    forProjectId === null ? null : readKeptCloth(prisma, null),
  ])
  const isTheirs = (pieceId: string) => {
    const by = kept?.get(pieceId)
    return by !== undefined && by.plans.length === 0 && by.projects.every(({ projectId }) => projectId === forProjectId)
  }
  const pieces = held.map((piece) => (isTheirs(piece.id) ? { ...piece, isReserved: false } : piece))
  const free = freeStockByThread({ ...stock, ownerIds: [ownerId] })
  const covered = lists.map((list) => ({
    id: list.id,
    name: list.name,
    cover: coverDesign({
      needs: needForQuantity({ design, list, lines, cloth: null, settings }, 1),
      free,
      lines,
      standIns: new Map(),
    }),
  }))
  covered.sort((a, b) => compareAnswers(a.cover, b.cover))

  const { advised } = design
  const isAdvised = (piece: ClothPiece) => advised !== null && isAdvisedCloth(piece, advised)
  const request = clothRequest(design, advised?.over ?? 2, clothSettings(settings))
  const choose = (some: ClothPiece[]) => (request ? choosePiece({ ...request, buyCount: null }, some).ranked : [])
  const { title, kind, designers } = row.chart
  return {
    design: {
      id: design.id,
      title: design.title,
      chartId: design.chartId,
      chartTitle: title,
      chartKind: kind,
      designers: designers.map(({ designer }) => designer.name),
    },
    advised,
    lists: covered,
    cloth: { advised: choose(pieces.filter(isAdvised)), other: choose(pieces.filter((piece) => !isAdvised(piece))) },
  }
}
