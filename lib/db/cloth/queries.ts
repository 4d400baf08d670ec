import 'server-only'
import type { BleedTest } from '#lib/cloth/care'
import type { ClothPiece, OneWayReason } from '#lib/cloth/cloth-piece'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import type { ClothInput, SizeCertainty } from './add-cloth'
import { pieceColumns, toClothPiece } from './cloth-rows'
import { type KeptBy, readKeptCloth } from './kept-cloth'
import { isEndedByHand } from './restore-cloth'

const listColumns = {
  ...pieceColumns,
  makerName: true,
  countCertainty: true,
  oneWayBecause: true,
  washedOn: true,
  bleedTest: true,
  bleedTestedOn: true,
  outSince: true,
  version: true,
  owner: { select: { name: true } },
  homePlace: placeTagColumns,
  currentPlace: placeTagColumns,
} as const satisfies Prisma.ClothPieceSelect

/** A piece with what a list or its own page shows of it. */
export type ClothListed = ClothPiece & {
  version: number
  makerName: string | null
  countCertainty: SizeCertainty
  /** Why it may not be turned; null where nobody said, or it may. */
  oneWayBecause: OneWayReason | null
  /** yyyy-mm-dd */
  washedOn: string | null
  bleedTest: BleedTest | null
  /** yyyy-mm-dd */
  bleedTestedOn: string | null
  ownerName: string
  home: PlaceTag | null
  current: PlaceTag | null
  outSince: Date | null
  /** Projects that keep it. */
  reservedBy: KeptBy['projects']
  /** Plans of cuts that keep it. */
  plannedIn: KeptBy['plans']
}

const readListed = (row: Prisma.ClothPieceGetPayload<{ select: typeof listColumns }>, kept: KeptBy | undefined): ClothListed => ({
  ...toClothPiece(row, kept !== undefined),
  version: row.version,
  makerName: row.makerName,
  countCertainty: row.countCertainty as SizeCertainty,
  oneWayBecause: row.oneWayBecause as OneWayReason | null,
  washedOn: row.washedOn,
  bleedTest: row.bleedTest as BleedTest | null,
  bleedTestedOn: row.bleedTestedOn,
  ownerName: row.owner.name,
  home: row.homePlace as PlaceTag | null,
  current: (row.currentPlace ?? row.homePlace) as PlaceTag | null,
  outSince: row.outSince,
  reservedBy: kept?.projects ?? [],
  plannedIn: kept?.plans ?? [],
})

const heldBy = (ownerIds: readonly string[]) => ({ ownerId: { in: [...ownerIds] }, goneAt: null })

/** Every piece held by these owners, by id: what fit is judged against. */
export async function listClothPieces(ownerIds: readonly string[]): Promise<ClothPiece[]> {
  const [rows, kept] = await Promise.all([
    database().prisma.clothPiece.findMany({ where: heldBy(ownerIds), select: pieceColumns, orderBy: { id: 'asc' } }),
    readKeptCloth(database().prisma, null),
  ])
  return rows.map((row) => toClothPiece(row, kept.has(row.id)))
}

/** Every piece held by these owners, by id, with places and projects. A shop has some 1,500: the list narrows them in memory. */
export async function listCloth(ownerIds: readonly string[]): Promise<ClothListed[]> {
  const [rows, kept] = await Promise.all([
    database().prisma.clothPiece.findMany({ where: heldBy(ownerIds), select: listColumns, orderBy: { id: 'asc' } }),
    readKeptCloth(database().prisma, null),
  ])
  return rows.map((row) => readListed(row, kept.get(row.id)))
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
  /** Gone because somebody took it off the list: it can be put back. */
  isRestorable: boolean
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
          projectId: true,
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
    ...readListed(row, (await readKeptCloth(database().prisma, [id])).get(id)),
    note: row.note,
    isGone: row.goneAt !== null,
    isRestorable: row.goneAt !== null && isEndedByHand(row.movements.find(({ wholeDelta }) => wholeDelta < 0)),
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
  const { isSquared, sizeCertainty, countCertainty, isTurnable, oneWayBecause, dyeing, washState, washedOn, note } = piece
  return {
    ...{ label, makerName, name, colourName, lab, weave, ends, picks, widthUm, heightUm, isSquared, isTurnable, note },
    ...{ countCertainty, oneWayBecause, dyeing, washState, washedOn },
    sizeCertainty: sizeCertainty as SizeCertainty,
  }
}
