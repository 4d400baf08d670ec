import 'server-only'
import type { ClothDyeing, ClothPiece, WashState, Weave } from '#lib/cloth/cloth-piece'
import type { Certainty } from '#lib/quantity/certainty'
import type { Prisma } from '../generated/sqlite/client'
import { labOf } from '../lab-of'

/** What a piece looks like, and how large it is. */
export const clothLookColumns = {
  label: true,
  name: true,
  colourName: true,
  labL: true,
  labA: true,
  labB: true,
  weave: true,
  endsThreads: true,
  endsPerUm: true,
  picksThreads: true,
  picksPerUm: true,
  widthUm: true,
  heightUm: true,
} as const satisfies Prisma.ClothPieceSelect

export const pieceColumns = {
  id: true,
  ownerId: true,
  ...clothLookColumns,
  isSquared: true,
  sizeCertainty: true,
  isTurnable: true,
  dyeing: true,
  washState: true,
  isCountStale: true,
  parentId: true,
  homePlaceId: true,
  currentPlaceId: true,
} as const satisfies Prisma.ClothPieceSelect

/** A row as the planners take it; `isReserved` is for the caller to say, who knows what for. */
export const toClothPiece = (
  row: Prisma.ClothPieceGetPayload<{ select: typeof pieceColumns }>,
  isReserved: boolean,
): ClothPiece => ({
  id: row.id,
  ownerId: row.ownerId,
  label: row.label,
  name: row.name,
  colourName: row.colourName,
  lab: labOf(row),
  weave: row.weave as Weave,
  ends: { threads: row.endsThreads, perUm: row.endsPerUm },
  picks: { threads: row.picksThreads, perUm: row.picksPerUm },
  widthUm: row.widthUm,
  heightUm: row.heightUm,
  isSquared: row.isSquared,
  sizeCertainty: row.sizeCertainty as Certainty,
  isTurnable: row.isTurnable,
  dyeing: row.dyeing as ClothDyeing | null,
  washState: row.washState as WashState,
  isCountStale: row.isCountStale,
  isReserved,
  isOffcut: row.parentId !== null,
  homePlaceId: row.homePlaceId,
  currentPlaceId: row.currentPlaceId,
})
