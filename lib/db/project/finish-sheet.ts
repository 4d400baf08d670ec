import 'server-only'
import { fitOneWay } from '#lib/cloth/fit'
import { clothRequest, workedCloth } from '#lib/coverage/worked-cloth'
import { walkRanks } from '#lib/place/walk-order'
import { planOffcuts } from '#lib/project/plan-offcut'
import { type Batch, compareExact } from '#lib/stock/batch'
import { clothSettings } from '../answers/answers'
import { designColumns, toDesign } from '../chart/design-rows'
import { database } from '../client'
import { pieceColumns, toClothPiece } from '../cloth/cloth-rows'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { getSettings } from '../settings/settings'
import { readThreadTags, type ThreadTag } from '../thread/thread-tag'
import { readWeights } from './finish-leftovers'
import { readKit } from './project-bag'
import { readProject } from './project-row'
import { readPlacesAround } from './queries'
import { needsLeft, readProjectNeed } from './read-need'
import { usableByThread } from './usable-thread'

/** One thread to say the use of. Lengths in strand tenths. */
export type FinishThread = {
  thread: ThreadTag
  needStrandTenths: number
  /** As much as the project can have used: in its bag, or promised to it at home. */
  heldStrandTenths: number
  /** What is in the bag, in the order it was brought. */
  pulled: { batch: Batch; home: PlaceTag | null }[]
  /** What a full put-up of its line weighs; null when nobody has said. */
  putUpMilligrams: number | null
}

export type FinishSheet = {
  /** In walking order of the drawers the leftovers go to. */
  threads: FinishThread[]
  /** What the cut should have left of the cloth, the larger first; empty when the size is not known. */
  expectedOffcuts: { widthUm: number; heightUm: number }[]
  /** Pieces cut or set aside for it besides the one it is worked on. */
  keptCloth: KeptCloth[]
  /** Hoops, needles and what else is in use for it. */
  notions: { id: string; name: string; size: string | null; count: number; home: PlaceTag | null }[]
}

export type KeptCloth = {
  id: string
  label: string | null
  name: string
  colourName: string | null
  widthUm: number
  heightUm: number
  home: PlaceTag | null
}

/** What a person has in her hands when she unpacks a finished project; null when there is no such project. */
export async function readFinishSheet(projectId: string): Promise<FinishSheet | null> {
  const { prisma } = database()
  const read = await readProject(prisma, { projectId })
  if (!read.ok) return null
  const project = read.value
  const settings = await getSettings()
  const [kit, need] = await Promise.all([readKit(prisma, project), readProjectNeed(prisma, project, settings)])
  const threadIds = [...new Set([...kit.batches.map((batch) => batch.threadId), ...need.needs.map(({ threadId }) => threadId)])]
  const [tags, weights, places] = await Promise.all([
    readThreadTags(threadIds),
    readWeights(prisma, threadIds),
    readPlacesAround(
      prisma,
      kit.batches.map((batch) => batch.homePlaceId),
    ),
  ])
  const ranks = walkRanks([...places.values()])
  const usable = usableByThread(projectId, kit.batches, kit.promises)
  const needOf = new Map(needsLeft(need).map(({ threadId, strandTenths }) => [threadId, strandTenths]))
  const threads = threadIds.map((threadId): FinishThread & { rank: number } => {
    const batches = kit.batches.filter((batch) => batch.threadId === threadId)
    return {
      thread: tags.get(threadId) as ThreadTag,
      needStrandTenths: needOf.get(threadId) ?? 0,
      heldStrandTenths: usable.get(threadId) ?? 0,
      pulled: batches
        .filter((batch) => batch.currentPlaceId !== null && batch.currentPlaceId === project.placeId)
        .map((batch) => ({ batch, home: places.get(batch.homePlaceId ?? '') ?? null })),
      putUpMilligrams: weights.get(threadId)?.putUpMilligrams ?? null,
      rank: Math.min(...batches.map((batch) => ranks.get(batch.homePlaceId ?? '') ?? Number.MAX_SAFE_INTEGER)),
    }
  })
  threads.sort(
    (a, b) =>
      a.rank - b.rank ||
      compareExact(a.thread.makerName, b.thread.makerName) ||
      compareExact(a.thread.code, b.thread.code) ||
      compareExact(a.thread.id, b.thread.id),
  )

  const [keptRows, notionRows] = await Promise.all([
    prisma.clothPiece.findMany({
      where: {
        keptForProjectId: projectId,
        goneAt: null,
        ...(project.clothPieceId && { id: { not: project.clothPieceId } }),
      },
      select: {
        ...{ id: true, label: true, name: true, colourName: true, widthUm: true, heightUm: true },
        homePlace: placeTagColumns,
      },
      orderBy: { id: 'asc' },
    }),
    prisma.notion.findMany({
      where: { projectId, goneAt: null },
      select: { id: true, name: true, size: true, count: true, homePlace: placeTagColumns },
      orderBy: { id: 'asc' },
    }),
  ])
  const kept = {
    keptCloth: keptRows.map(({ homePlace, ...row }) => ({ ...row, home: homePlace as PlaceTag | null })),
    notions: notionRows.map(({ homePlace, ...row }) => ({ ...row, home: homePlace as PlaceTag | null })),
  }

  const [designRow, pieceRow] = await Promise.all([
    prisma.design.findUniqueOrThrow({ where: { id: project.designId }, select: designColumns }),
    project.clothPieceId ? prisma.clothPiece.findUnique({ where: { id: project.clothPieceId }, select: pieceColumns }) : null,
  ])
  const design = toDesign(designRow)
  const piece = pieceRow && toClothPiece(pieceRow, true)
  const worked = workedCloth(design, piece, project.over, clothSettings(settings))
  const request = worked && clothRequest(design, worked.over, clothSettings(settings))
  if (!piece || !request) return { threads, expectedOffcuts: [], ...kept }
  const { cut } = fitOneWay(request, piece, worked.isTurned)
  const alongPiece = worked.isTurned ? { widthUm: cut.heightUm, heightUm: cut.widthUm } : cut
  const offcuts = planOffcuts(piece, alongPiece)
  return { threads, expectedOffcuts: offcuts.ok ? offcuts.value : [], ...kept }
}
