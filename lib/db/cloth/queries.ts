import 'server-only'
import type { ClothPiece, Weave } from '#lib/cloth/cloth-piece'
import type { Lab } from '#lib/colour/lab'
import type { Certainty } from '#lib/quantity/certainty'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { labOf } from '../place/contents'
import { openProjects } from '../place/place-counts'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import type { ClothInput, SizeCertainty } from './add-cloth'

const pieceColumns = {
  id: true,
  ownerId: true,
  label: true,
  name: true,
  colourName: true,
  weave: true,
  endsThreads: true,
  endsPerUm: true,
  picksThreads: true,
  picksPerUm: true,
  widthUm: true,
  heightUm: true,
  isSquared: true,
  sizeCertainty: true,
  isTurnable: true,
  parentId: true,
  homePlaceId: true,
  currentPlaceId: true,
  projects: {
    where: openProjects,
    select: { id: true, status: true, design: { select: { title: true } } },
    orderBy: { id: 'asc' },
  },
} as const satisfies Prisma.ClothPieceSelect

const listColumns = {
  ...pieceColumns,
  makerName: true,
  labL: true,
  labA: true,
  labB: true,
  outSince: true,
  version: true,
  owner: { select: { name: true } },
  homePlace: placeTagColumns,
  currentPlace: placeTagColumns,
} as const satisfies Prisma.ClothPieceSelect

const readPiece = (row: Prisma.ClothPieceGetPayload<{ select: typeof pieceColumns }>): ClothPiece => ({
  id: row.id,
  ownerId: row.ownerId,
  label: row.label,
  name: row.name,
  colourName: row.colourName,
  weave: row.weave as Weave,
  ends: { threads: row.endsThreads, perUm: row.endsPerUm },
  picks: { threads: row.picksThreads, perUm: row.picksPerUm },
  widthUm: row.widthUm,
  heightUm: row.heightUm,
  isSquared: row.isSquared,
  sizeCertainty: row.sizeCertainty as Certainty,
  isTurnable: row.isTurnable,
  isReserved: row.projects.length > 0,
  isOffcut: row.parentId !== null,
  homePlaceId: row.homePlaceId,
  currentPlaceId: row.currentPlaceId,
})

/** A piece with what a list or its own page shows of it. */
export type ClothListed = ClothPiece & {
  version: number
  makerName: string | null
  lab: Lab | null
  ownerName: string
  home: PlaceTag | null
  current: PlaceTag | null
  outSince: Date | null
  reservedBy: { projectId: string; title: string; status: string }[]
}

const readListed = (row: Prisma.ClothPieceGetPayload<{ select: typeof listColumns }>): ClothListed => ({
  ...readPiece(row),
  version: row.version,
  makerName: row.makerName,
  lab: labOf(row),
  ownerName: row.owner.name,
  home: row.homePlace as PlaceTag | null,
  current: (row.currentPlace ?? row.homePlace) as PlaceTag | null,
  outSince: row.outSince,
  reservedBy: row.projects.map(({ id, status, design }) => ({ projectId: id, status, title: design.title })),
})

/** Every piece held by these owners, by id: what fit is judged against. */
export async function listClothPieces(ownerIds: readonly string[]): Promise<ClothPiece[]> {
  const rows = await database().prisma.clothPiece.findMany({
    where: { ownerId: { in: [...ownerIds] }, goneAt: null },
    select: pieceColumns,
    orderBy: { id: 'asc' },
  })
  return rows.map(readPiece)
}

/** Every piece held by these owners, by id, with places and projects. A shop has some 1,500: the list narrows them in memory. */
export async function listCloth(ownerIds: readonly string[]): Promise<ClothListed[]> {
  const rows = await database().prisma.clothPiece.findMany({
    where: { ownerId: { in: [...ownerIds] }, goneAt: null },
    select: listColumns,
    orderBy: { id: 'asc' },
  })
  return rows.map(readListed)
}

export type ClothMovement = {
  id: string
  at: Date
  kind: string
  wholeDelta: number
  from: PlaceTag | null
  to: PlaceTag | null
  fromOwnerName: string | null
  toOwnerName: string | null
  projectTitle: string | null
  who: string | null
  reason: string | null
}

/** A piece that another was cut from or into; `isGone` when nothing is left of it. */
export type ClothKin = { id: string; label: string | null; name: string; widthUm: number; heightUm: number; isGone: boolean }

export type ClothDetail = ClothListed & {
  note: string | null
  isGone: boolean
  parent: ClothKin | null
  offcuts: ClothKin[]
  /** Newest first. */
  history: ClothMovement[]
}

const kinColumns = { id: true, label: true, name: true, widthUm: true, heightUm: true, goneAt: true } as const

const readKin = (row: Prisma.ClothPieceGetPayload<{ select: typeof kinColumns }>): ClothKin => {
  const { goneAt, ...kin } = row
  return { ...kin, isGone: goneAt !== null }
}

/** One piece with its history; pieces that are gone are found too, for what was cut from them. */
export async function findClothPiece(id: string): Promise<ClothDetail | null> {
  const row = await database().prisma.clothPiece.findUnique({
    where: { id },
    select: {
      ...listColumns,
      note: true,
      goneAt: true,
      parent: { select: kinColumns },
      offcuts: { select: kinColumns, orderBy: { id: 'asc' } },
      movements: {
        select: {
          id: true,
          at: true,
          kind: true,
          wholeDelta: true,
          fromPlace: placeTagColumns,
          toPlace: placeTagColumns,
          fromOwner: { select: { name: true } },
          toOwner: { select: { name: true } },
          project: { select: { design: { select: { title: true } } } },
          who: true,
          reason: true,
        },
        orderBy: [{ revision: 'desc' }, { id: 'desc' }],
        take: 200,
      },
    },
  })
  if (!row) return null
  return {
    ...readListed(row),
    note: row.note,
    isGone: row.goneAt !== null,
    parent: row.parent && readKin(row.parent),
    offcuts: row.offcuts.map(readKin),
    history: row.movements.map((movement) => ({
      id: movement.id,
      at: movement.at,
      kind: movement.kind,
      wholeDelta: movement.wholeDelta,
      from: movement.fromPlace as PlaceTag | null,
      to: movement.toPlace as PlaceTag | null,
      fromOwnerName: movement.fromOwner?.name ?? null,
      toOwnerName: movement.toOwner?.name ?? null,
      projectTitle: movement.project?.design.title ?? null,
      who: movement.who,
      reason: movement.reason,
    })),
  }
}

/** What is written on a piece's card, exact, for a form that changes it. */
export async function findClothCard(id: string): Promise<ClothInput | null> {
  const piece = await findClothPiece(id)
  if (!piece) return null
  const { label, makerName, name, colourName, lab, weave, ends, picks, widthUm, heightUm } = piece
  const { isSquared, sizeCertainty, isTurnable, note } = piece
  return {
    ...{ label, makerName, name, colourName, lab, weave, ends, picks, widthUm, heightUm, isSquared, isTurnable, note },
    sizeCertainty: sizeCertainty as SizeCertainty,
  }
}
