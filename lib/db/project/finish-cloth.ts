import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { claimLabel, journalCloth } from '../cloth/claim-cloth'
import type { ClothRefusal } from '../cloth/cloth-refusal'
import type { OffcutInput } from '../cloth/cut-cloth'
import { planCut } from '../cloth/plan-cut'
import { goneNow } from '../cloth/remove-cloth'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'

/** The piece was cut for the work and is used; or the work was made on other cloth and the piece goes back. */
export type ClothOutcome = { kind: 'used'; offcuts: readonly OffcutInput[] } | { kind: 'not-used' }

export type FinishClothRefused =
  | ChangedMeanwhile
  | Extract<ClothRefusal, { kind: 'nothing-cut' | 'more-than-it-was' | 'part-too-large' | 'label-taken' }>

const parentColumns = {
  ownerId: true,
  label: true,
  makerName: true,
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
  isTurnable: true,
  widthUm: true,
  heightUm: true,
  homePlaceId: true,
  currentPlaceId: true,
} as const

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
  const row = await tx.clothPiece.findFirst({ where: { id: clothPieceId, goneAt: null }, select: parentColumns })
  if (!row) return refused({ kind: 'changed-meanwhile' })
  const { label: parentLabel, widthUm, heightUm, homePlaceId, currentPlaceId, ...kind } = row
  const cut = planCut({ widthUm, heightUm }, null, offcuts)
  if (!cut.ok) return cut

  await tx.clothPiece.update({ where: { id: clothPieceId }, data: { ...goneNow(at), version: { increment: 1 } } })
  touch('cloth', clothPieceId)
  await journalCloth(write, {
    kind: 'use',
    clothPieceId,
    wholeDelta: -1,
    fromPlaceId: currentPlaceId,
    fromOwnerId: kind.ownerId,
    projectId,
    who,
  })
  const offcutIds: string[] = []
  for (const { label, placeLabel, ...size } of offcuts) {
    const labelKey = await claimLabel(write, { label, ownerId: kind.ownerId, pieceId: null })
    if (!labelKey.ok) return labelKey
    const placeId = placeLabel === null ? homePlaceId : await ensurePlace(write, placeLabel)
    const id = newId()
    await tx.clothPiece.create({
      data: {
        ...kind,
        ...size,
        id,
        label,
        labelKey: labelKey.value,
        isSquared: true,
        sizeCertainty: 'measured',
        parentId: clothPieceId,
        homePlaceId: placeId,
        currentPlaceId: placeId,
      },
    })
    await journalCloth(write, {
      kind: 'cut',
      clothPieceId: id,
      wholeDelta: 1,
      fromPlaceId: currentPlaceId,
      toPlaceId: placeId,
      toOwnerId: kind.ownerId,
      projectId,
      who,
      reason: parentLabel,
    })
    touch('cloth', id)
    offcutIds.push(id)
  }
  return ok({ offcutIds })
}
