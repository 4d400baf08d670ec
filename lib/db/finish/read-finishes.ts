import 'server-only'
import { stitchSize } from '#lib/chart/design-size'
import { finishedSize } from '#lib/cloth/finished-size'
import { type FrameSize, frameSizeOf } from '#lib/cloth/frame-opening'
import type { Framing } from '#lib/cloth/framing'
import { sharePieces } from '#lib/cloth/piece-price'
import { workedCloth } from '#lib/coverage/worked-cloth'
import { type CostItem, type FinishCost, reckonCost } from '#lib/project/finish-cost'
import { type FinishYear, sumYear } from '#lib/project/finish-year'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { LeftoverHow } from '#lib/project/plan-finish'
import type { Settings } from '#lib/settings/settings'
import { clothSettings } from '../answers/answers'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { designColumns, toDesign } from '../chart/design-rows'
import { database } from '../client'
import { pieceColumns, toClothPiece } from '../cloth/cloth-rows'
import type { Prisma } from '../generated/sqlite/client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { getSettings } from '../settings/settings'
import { type ThreadTag, threadTagColumns, threadTagOf } from '../thread/thread-tag'
import { readDaysOfWork } from '../work/days-of-work'
import { type FinishScope, readUsed } from './read-used'

/** A time with a framer, finisher or model stitcher: days are yyyy-mm-dd. */
export type Sent = {
  loanId: string
  place: PlaceTag
  fromOn: string
  dueOn: string | null
  /** Null while it is there. */
  closedOn: string | null
  priceMinor: number | null
}

type Size = { widthUm: number; heightUm: number }

/** The frame a finished piece takes, with what it is reckoned from. */
type ReckonedFrame = FrameSize & {
  /** In stitches, and as large as they come out on the cloth. */
  stitched: { width: number; height: number; widthUm: number; heightUm: number }
  framing: Framing
}

export type FinishRecord = {
  id: string
  version: number
  status: ProjectStatus
  title: string
  designers: string[]
  quantity: number
  startedOn: string | null
  finishedOn: string | null
  stitches: number
  hoursTenths: number
  finishing: string | null
  forWhom: string | null
  place: PlaceTag | null
  photoFile: string | null
  widthStitches: number | null
  heightStitches: number | null
  /** What was really used of each thread, the most first. */
  colours: { thread: ThreadTag; strandTenths: number; how: LeftoverHow | null }[]
  /** The cloth that was used, by name. */
  cloth: { id: string; label: string | null; name: string; colourName: string | null }[]
  /** The latest first. */
  sent: Sent[]
  frame: {
    /** Outside, as it was measured. */
    measured: Size | null
    /** By its size on its cloth; null where that is not known. */
    reckoned: ReckonedFrame | null
  }
  otherCostMinor: number | null
  cost: FinishCost
}

const columns = {
  ...{ id: true, version: true, status: true, quantity: true, spares: true, startedOn: true, finishedOn: true, over: true },
  ...{ stitchesDone: true, hoursTenths: true, finishing: true, forWhom: true, photoFile: true },
  ...{ frameWidthUm: true, frameHeightUm: true, otherCostMinor: true, clothPieceId: true },
  place: placeTagColumns,
  clothPiece: { select: pieceColumns },
  design: {
    select: {
      ...designColumns,
      chart: {
        select: {
          ...{ id: true, priceMinor: true, _count: { select: { designs: true } } },
          designers: { orderBy: { position: 'asc' }, select: { designer: { select: { name: true } } } },
        },
      },
    },
  },
} as const satisfies Prisma.ProjectSelect

const idsAtOnce = 900

async function readTags(threadIds: readonly string[]): Promise<Map<string, ThreadTag>> {
  const tags = new Map<string, ThreadTag>()
  for (const some of chunks(threadIds, idsAtOnce)) {
    const rows = await database().prisma.thread.findMany({ where: { id: { in: some } }, select: threadTagColumns })
    for (const row of rows) tags.set(row.id, threadTagOf(row))
  }
  return tags
}

async function readRecords(scope: FinishScope, where: Prisma.ProjectWhereInput): Promise<FinishRecord[]> {
  const { prisma } = database()
  const [settings, ids, used, loans] = await Promise.all([
    getSettings(),
    prisma.project.findMany({ where, select: { id: true }, orderBy: [{ finishedOn: 'asc' }, { id: 'asc' }] }),
    readUsed(scope),
    prisma.loan.findMany({
      where: { kind: 'send', project: where },
      select: {
        ...{ id: true, projectId: true, fromOn: true, dueOn: true, closedOn: true, priceMinor: true },
        place: placeTagColumns,
      },
      orderBy: [{ fromOn: 'desc' }, { id: 'desc' }],
    }),
  ])
  const usedClothIds = [...new Set([...used.clothIds.values()].flat())]
  const rows: Prisma.ProjectGetPayload<{ select: typeof columns }>[] = []
  const cloth = new Map<string, FinishRecord['cloth'][number]>()
  for (const some of chunks(ids, idsAtOnce))
    rows.push(
      ...(await prisma.project.findMany({
        where: { id: { in: some.map(({ id }) => id) } },
        select: columns,
        orderBy: [{ finishedOn: 'asc' }, { id: 'asc' }],
      })),
    )
  for (const some of chunks(usedClothIds, idsAtOnce))
    for (const piece of await prisma.clothPiece.findMany({
      where: { id: { in: some } },
      select: { id: true, label: true, name: true, colourName: true },
    }))
      cloth.set(piece.id, piece)
  const tags = await readTags([...new Set([...used.threads.values()].flat().map(({ threadId }) => threadId))])
  const shareOf = sharePieces(used.pieces)
  return rows.map((row): FinishRecord => {
    const {
      design: designRow,
      clothPiece,
      frameWidthUm,
      frameHeightUm,
      stitchesDone,
      spares,
      over,
      clothPieceId,
      ...project
    } = row
    const { chart } = designRow
    const design = toDesign(designRow)
    const threads = (used.threads.get(row.id) ?? []).toSorted((a, b) => b.strandTenths / b.strands - a.strandTenths / a.strands)
    const clothIds = used.clothIds.get(row.id) ?? []
    const sent = loans.filter(({ projectId }) => projectId === row.id)
    const copies = Math.max(1, project.quantity - spares)
    const items: CostItem[] = [
      ...threads.map(({ threadId, strandTenths, putUpStrandTenths, putUpPriceMinor }) => ({
        ...{ kind: 'thread' as const, threadId, strandTenths, putUpStrandTenths, putUpPriceMinor },
      })),
      ...clothIds.map((pieceId) => ({ kind: 'cloth' as const, pieceId, ...shareOf(pieceId) })),
      {
        ...{ kind: 'chart' as const, chartId: chart.id, copies: project.quantity > 1 ? copies : 1 },
        ...{ designs: Math.max(1, chart._count.designs), priceMinor: chart.priceMinor },
      },
      ...sent.map(({ id: loanId, priceMinor }) => ({ kind: 'sent' as const, loanId, priceMinor })),
      ...(row.otherCostMinor === null ? [] : [{ kind: 'other' as const, priceMinor: row.otherCostMinor }]),
    ]
    return {
      ...project,
      status: project.status as ProjectStatus,
      place: project.place as PlaceTag | null,
      title: design.title,
      designers: chart.designers.map(({ designer }) => designer.name),
      stitches: stitchesDone,
      widthStitches: designRow.widthStitches,
      heightStitches: designRow.heightStitches,
      colours: threads.flatMap(({ threadId, strandTenths, how }) => {
        const thread = tags.get(threadId)
        return thread ? [{ thread, strandTenths, how }] : []
      }),
      cloth: clothIds.flatMap((id) => cloth.get(id) ?? []),
      sent: sent.map(({ id, projectId: _, place, ...terms }) => ({ loanId: id, place: place as PlaceTag, ...terms })),
      frame: {
        measured: frameWidthUm === null || frameHeightUm === null ? null : { widthUm: frameWidthUm, heightUm: frameHeightUm },
        reckoned: reckonFrame(design, clothPiece && toClothPiece(clothPiece, false), over as 1 | 2 | null, settings),
      },
      cost: reckonCost(items),
    }
  })
}

/** What frame it takes: by its size on the cloth it was worked on, or else on the cloth its chart advises. */
function reckonFrame(
  design: ReturnType<typeof toDesign>,
  piece: ReturnType<typeof toClothPiece> | null,
  over: 1 | 2 | null,
  settings: Settings,
): ReckonedFrame | null {
  const { advised } = design
  const size = stitchSize(design)
  const onAdvised = advised && { ends: advised.count, picks: advised.count, over: over ?? advised.over, isTurned: false }
  const cloth = workedCloth(design, piece, over, clothSettings(settings)) ?? onAdvised
  if (!size || !cloth) return null
  const { shrinkPercent, roundingUm, framing } = settings
  const finished = finishedSize({ ...size, ...cloth })
  const { uncertaintyUm } = size
  return {
    ...frameSizeOf(finished, framing, { shrinkPercent, roundingUm, uncertaintyUm }),
    stitched: { ...size, widthUm: finished.widthUm, heightUm: finished.heightUm },
    framing,
  }
}

/** All that is on record of one piece of work once it is stitched: colours, cost, frame, with whom it is. Null when there is none. */
export async function findFinish(projectId: string): Promise<FinishRecord | null> {
  const [record] = await readRecords({ projectId }, { id: projectId, goneAt: null })
  return record ?? null
}

export type YearOfWork = { year: string; sum: FinishYear; finishes: FinishRecord[] }

/** One year's finishes, the earliest first, and what they come to. @param year  four figures */
export async function readYear(ownerIds: readonly string[], year: string): Promise<YearOfWork> {
  const [finishes, logged] = await Promise.all([
    readRecords(
      { ownerIds, year },
      {
        ...{ ownerId: { in: [...ownerIds] }, status: 'finished', goneAt: null },
        finishedOn: { gte: `${year}-01-01`, lte: `${year}-12-31` },
      },
    ),
    readDaysOfWork(ownerIds, `${year}-01-01`),
  ])
  const sum = sumYear(
    year,
    finishes.map(({ colours, finishedOn, ...finish }) => ({
      ...finish,
      finishedOn: finishedOn as string,
      colours: colours.map(({ thread, strandTenths }) => ({ threadId: thread.id, strandTenths, strands: thread.strands })),
    })),
    logged,
  )
  return { year, sum, finishes }
}
