import 'server-only'
import type { NotionCard, NotionKind } from '#lib/notion/notion'
import { byKindAndSize } from '#lib/notion/size'
import type { MovementKind } from '#lib/stock/stock-change'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { readForKits } from '../kit/read-kit-items'
import { openProjects } from '../place/place-counts'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import { cardColumns } from './claim-notion'

const listColumns = {
  id: true,
  version: true,
  ownerId: true,
  ...cardColumns,
  count: true,
  outSince: true,
  goneAt: true,
  owner: { select: { name: true } },
  homePlace: placeTagColumns,
  currentPlace: placeTagColumns,
  project: { select: { id: true, design: { select: { title: true } } } },
} as const satisfies Prisma.NotionSelect

/** A notion with what a list or its own page shows of it. */
export type NotionListed = NotionCard & {
  id: string
  version: number
  ownerId: string
  ownerName: string
  count: number
  home: PlaceTag | null
  current: PlaceTag | null
  outSince: Date | null
  /** The project it is in use for. */
  usedBy: { id: string; title: string } | null
  /** Wanted for kits under way, and not taken for them yet. */
  forKits: number
}

function readListed(
  row: Prisma.NotionGetPayload<{ select: typeof listColumns }>,
  forKits: ReadonlyMap<string, number>,
): NotionListed {
  const { goneAt: _goneAt, owner, homePlace, currentPlace, project, kind, ...card } = row
  return {
    ...card,
    kind: kind as NotionKind,
    ownerName: owner.name,
    home: homePlace as PlaceTag | null,
    current: (currentPlace ?? homePlace) as PlaceTag | null,
    usedBy: project && { id: project.id, title: project.design.title },
    forKits: forKits.get(row.id) ?? 0,
  }
}

/** Every notion of these owners, by kind and size. A shop has some hundreds: lists narrow them in memory. */
export async function listNotions(ownerIds: readonly string[]): Promise<NotionListed[]> {
  const where = { ownerId: { in: [...ownerIds] }, goneAt: null }
  const [rows, forKits] = await Promise.all([
    database().prisma.notion.findMany({ where, select: listColumns }),
    readForKits(ownerIds),
  ])
  return rows.map((row) => readListed(row, forKits)).sort(byKindAndSize)
}

/** What is in use for a project. */
export async function listNotionsUsedBy(projectId: string): Promise<NotionListed[]> {
  const rows = await database().prisma.notion.findMany({ where: { projectId, goneAt: null }, select: listColumns })
  return rows.map((row) => readListed(row, new Map())).sort(byKindAndSize)
}

export type NotionMovement = {
  id: string
  at: Date
  kind: MovementKind
  wholeDelta: number
  /** It was taken off the list. */
  isOffList: boolean
  from: PlaceTag | null
  to: PlaceTag | null
  projectTitle: string | null
  reason: string | null
}

export type NotionDetail = NotionListed & {
  isGone: boolean
  /** Gone because somebody took it off the list: it can be put back on it. */
  isRestorable: boolean
  /** Newest first. */
  history: NotionMovement[]
}

/** Lines of its history that a page shows. */
const historyShown = 200

/** One notion with its history; what is gone is found too. */
export async function findNotion(id: string): Promise<NotionDetail | null> {
  const row = await database().prisma.notion.findUnique({
    where: { id },
    select: {
      ...listColumns,
      movements: {
        select: {
          id: true,
          at: true,
          kind: true,
          wholeDelta: true,
          fromOwnerId: true,
          fromPlace: placeTagColumns,
          toPlace: placeTagColumns,
          project: { select: { design: { select: { title: true } } } },
          reason: true,
        },
        orderBy: [{ revision: 'desc' }, { id: 'desc' }],
        take: historyShown,
      },
    },
  })
  if (!row) return null
  const { movements, ...listed } = row
  return {
    ...readListed(listed, await readForKits([row.ownerId])),
    isGone: row.goneAt !== null,
    isRestorable: row.goneAt !== null && movements[0]?.kind === 'correct',
    history: movements.map(({ kind, fromOwnerId, fromPlace, toPlace, project, ...movement }) => ({
      ...movement,
      kind: kind as MovementKind,
      isOffList: kind === 'correct' && fromOwnerId !== null,
      from: fromPlace as PlaceTag | null,
      to: toPlace as PlaceTag | null,
      projectTitle: project?.design.title ?? null,
    })),
  }
}

/** Projects that a notion of this owner can be taken for, by title. */
export async function listProjectsFor(ownerId: string): Promise<{ id: string; title: string; status: string }[]> {
  const rows = await database().prisma.project.findMany({
    where: { ...openProjects, ownerId },
    select: { id: true, status: true, design: { select: { title: true } } },
    orderBy: [{ design: { titleKey: 'asc' } }, { id: 'asc' }],
  })
  return rows.map(({ id, status, design }) => ({ id, title: design.title, status }))
}
