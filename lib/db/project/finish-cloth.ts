import 'server-only'
import { checkCut } from '#lib/cloth/check-cut'
import { ok, type Result, refused } from '#lib/result'
import { addOffcuts, type OffcutInput } from '../cloth/add-offcuts'
import { journalCloth } from '../cloth/claim-cloth'
import type { ClothRefusal } from '../cloth/cloth-refusal'
import { goneNow } from '../cloth/remove-cloth'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'

/** The piece was cut for the work and is used; or the work was made on other cloth and the piece goes back. */
export type ClothOutcome = { kind: 'used'; offcuts: readonly OffcutInput[] } | { kind: 'not-used' }

export type FinishClothRefused =
  | ChangedMeanwhile
  /** It is not kept for this project. */
  | { kind: 'not-kept'; clothPieceId: string }
  | Extract<ClothRefusal, { kind: 'nothing-cut' | 'more-than-it-was' | 'part-too-large' | 'label-taken' | 'kept-by-record' }>

/**
 * The piece a project was worked on is used up; every offcut is a new piece with it as parent, measured just now, and lives where the
 * person says (where the piece lived, when no place is given).
 */
export async function closeCloth(
  write: Write,
  clothPieceId: string,
  used: { projectId: string; offcuts: readonly OffcutInput[]; who?: string | null },
): Promise<Result<{ offcutIds: string[] }, FinishClothRefused>> {
  const { tx, at, touch } = write
  const { projectId, offcuts, who = null } = used
  const piece = await tx.clothPiece.findFirst({
    where: { id: clothPieceId, goneAt: null },
    select: { ownerId: true, widthUm: true, heightUm: true, homePlaceId: true, currentPlaceId: true },
  })
  if (!piece) return refused({ kind: 'changed-meanwhile' })
  const { ownerId, homePlaceId, currentPlaceId } = piece
  const cut = checkCut(piece, null, offcuts)
  if (!cut.ok) return cut

  await tx.clothPiece.update({ where: { id: clothPieceId }, data: { ...goneNow(at), version: { increment: 1 } } })
  touch('cloth', clothPieceId)
  await journalCloth(write, {
    kind: 'use',
    clothPieceId,
    wholeDelta: -1,
    fromPlaceId: currentPlaceId,
    fromOwnerId: ownerId,
    projectId,
    who,
  })
  return addOffcuts(write, offcuts, {
    ...{ parentId: clothPieceId, isSquared: true, homePlaceId, fromPlaceId: currentPlaceId, projectId, who },
  })
}

/**
 * The pieces kept for a project besides the one it is worked on: those that were used are used up, the others are kept for it no more.
 */
export async function closeKeptCloth(
  write: Write,
  project: { id: string; clothPieceId: string | null },
  { usedIds, who = null }: { usedIds: readonly string[]; who?: string | null | undefined },
): Promise<Result<{ freedIds: string[] }, FinishClothRefused>> {
  const { tx, at, touch } = write
  const kept = await tx.clothPiece.findMany({
    where: { keptForProjectId: project.id, goneAt: null, ...(project.clothPieceId && { id: { not: project.clothPieceId } }) },
    select: { id: true, ownerId: true, currentPlaceId: true },
    orderBy: { id: 'asc' },
  })
  const stranger = usedIds.find((id) => !kept.some((piece) => piece.id === id))
  if (stranger !== undefined) return refused({ kind: 'not-kept', clothPieceId: stranger })
  const freedIds: string[] = []
  for (const { id, ownerId, currentPlaceId } of kept) {
    const isUsed = usedIds.includes(id)
    const data = isUsed ? goneNow(at) : { keptForProjectId: null }
    await tx.clothPiece.update({ where: { id }, data: { ...data, version: { increment: 1 } } })
    touch('cloth', id)
    if (!isUsed) {
      freedIds.push(id)
      continue
    }
    const use = { kind: 'use', clothPieceId: id, wholeDelta: -1, fromPlaceId: currentPlaceId, fromOwnerId: ownerId }
    await journalCloth(write, { ...use, projectId: project.id, who })
  }
  return ok({ freedIds })
}
