import 'server-only'
import type { PieceSize } from '#lib/cloth/check-cut'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import type { CutPlan } from '#lib/cloth/cut-plan'
import type { AskedCut } from '#lib/coverage/asked-cut'
import { database } from '../client'
import { pieceColumns, toClothPiece } from '../cloth/cloth-rows'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { keptAskedSchema, keptPlanSchema, type PlannedWish } from './cut-plan-rows'

/** `kept` until it is carried out or given up. */
export const cutPlanStatuses = ['kept', 'cut', 'dropped'] as const
export type CutPlanStatus = (typeof cutPlanStatuses)[number]

export type CutPlanListed = {
  id: string
  title: string
  status: CutPlanStatus
  version: number
  createdAt: Date
  closedAt: Date | null
  pieces: { id: string; label: string | null; name: string }[]
}

const listColumns = { id: true, title: true, status: true, version: true, createdAt: true, closedAt: true } as const

/** Closed plans shown beside the kept ones. */
const closedShown = 50

/** Plans that cut from these owners' pieces: all that are kept, then those carried out or given up last. The newest first. */
export async function listCutPlans(ownerIds: readonly string[]): Promise<CutPlanListed[]> {
  const { prisma } = database()
  const theirs = { pieces: { some: { clothPiece: { ownerId: { in: [...ownerIds] } } } } }
  const select = {
    ...listColumns,
    pieces: { select: { clothPiece: { select: { id: true, label: true, name: true } } } },
  }
  const [kept, closed] = await Promise.all([
    prisma.cutPlan.findMany({
      where: { ...theirs, status: 'kept' },
      select,
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      take: 500,
    }),
    prisma.cutPlan.findMany({
      where: { ...theirs, status: { not: 'kept' } },
      select,
      orderBy: [{ closedAt: 'desc' }, { id: 'desc' }],
      take: closedShown,
    }),
  ])
  return [...kept, ...closed].map(({ pieces, status, ...plan }) => ({
    ...plan,
    status: status as CutPlanStatus,
    pieces: pieces.map(({ clothPiece }) => clothPiece),
  }))
}

/** A piece that is cut, as it is now. */
export type CutPiece = Pick<ClothPiece, 'id' | 'label' | 'name' | 'colourName' | 'ends' | 'picks' | 'isSquared' | 'homePlaceId'> &
  PieceSize & { ownerName: string; isGone: boolean; home: PlaceTag | null; current: PlaceTag | null }

/** These pieces, by id; those that are gone too. */
export async function readCutPieces(ids: readonly string[]): Promise<Map<string, CutPiece>> {
  const rows = await database().prisma.clothPiece.findMany({
    where: { id: { in: [...ids] } },
    select: {
      ...pieceColumns,
      goneAt: true,
      owner: { select: { name: true } },
      homePlace: placeTagColumns,
      currentPlace: placeTagColumns,
    },
  })
  return new Map(
    rows.map((row) => {
      const { id, label, name, colourName, ends, picks, isSquared, homePlaceId, widthUm, heightUm } = toClothPiece(row, false)
      const home = row.homePlace as PlaceTag | null
      const current = (row.currentPlace ?? row.homePlace) as PlaceTag | null
      const piece = { id, label, name, colourName, ends, picks, isSquared, homePlaceId, widthUm, heightUm }
      return [id, { ...piece, ownerName: row.owner.name, isGone: row.goneAt !== null, home, current }]
    }),
  )
}

export type CutPlanDetail = Omit<CutPlanListed, 'pieces'> & {
  asked: AskedCut
  wishes: PlannedWish[]
  plan: CutPlan
  /** In the order the plan cuts them; `planned` is what each measured when the plan was made. */
  pieces: (CutPiece & { planned: PieceSize })[]
  /** What was cut, once it was. */
  made: { id: string; parentId: string | null; label: string | null; widthUm: number; heightUm: number; isGone: boolean }[]
}

/** A plan of cuts, kept, carried out or given up; null when there is none with that id. */
export async function findCutPlan(id: string): Promise<CutPlanDetail | null> {
  const { prisma } = database()
  const row = await prisma.cutPlan.findUnique({
    where: { id },
    select: {
      ...listColumns,
      ...{ askedJson: true, planJson: true },
      pieces: { select: { clothPieceId: true, widthUm: true, heightUm: true } },
    },
  })
  if (!row) return null
  const { askedJson, planJson, pieces: planned, status, ...facts } = row
  const { asked, wishes } = keptAskedSchema.parse(JSON.parse(askedJson))
  const plan = keptPlanSchema.parse(JSON.parse(planJson))
  const pieces = await readCutPieces(planned.map(({ clothPieceId }) => clothPieceId))
  const made = await prisma.movement.findMany({
    where: { cutPlanId: id, wholeDelta: { gt: 0 } },
    select: {
      clothPiece: { select: { id: true, parentId: true, label: true, widthUm: true, heightUm: true, goneAt: true } },
    },
    orderBy: { id: 'asc' },
  })
  return {
    ...{ ...facts, status: status as CutPlanStatus, asked, wishes, plan },
    pieces: plan.layouts.flatMap(({ pieceId }) => {
      const size = planned.find(({ clothPieceId }) => clothPieceId === pieceId)
      const piece = pieces.get(pieceId)
      return size && piece ? [{ ...piece, planned: { widthUm: size.widthUm, heightUm: size.heightUm } }] : []
    }),
    made: made.flatMap(({ clothPiece }) => {
      if (!clothPiece) return []
      const { goneAt, ...piece } = clothPiece
      return [{ ...piece, isGone: goneAt !== null }]
    }),
  }
}
