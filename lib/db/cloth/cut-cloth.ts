import 'server-only'
import { ok, type Result } from '#lib/result'
import { newId } from '../new-id'
import { ensurePlace } from '../place/ensure-place'
import { write } from '../write'
import { claimCloth, claimLabel, journalCloth, refuseReserved } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'
import { sizeChange } from './edit-cloth'
import { type PieceSize, planCut } from './plan-cut'
import { goneNow } from './remove-cloth'

/** A piece that was cut off: labelled, measured, and put somewhere (where its parent lives, when no place is given). */
export type OffcutInput = PieceSize & { label: string | null; placeLabel: string | null }

export type CutInput = {
  id: string
  version: number
  /** What the piece itself is now; null when nothing of it is left. */
  remaining: PieceSize | null
  offcuts: readonly OffcutInput[]
  /** The project it was cut for: only that one may cut a piece it keeps. */
  projectId: string | null
  note: string | null
}

type Refusal = Extract<
  ClothRefusal,
  { kind: 'nothing-cut' | 'more-than-it-was' | 'part-too-large' | 'label-taken' | 'reserved' | 'changed-meanwhile' }
>

/**
 * Confirm a cut that was made. The piece becomes smaller or is gone; each offcut is a new piece with the old one as its parent and
 * the same weave, counts and colour, measured just now. Together they are never more cloth than there was.
 */
export function cutCloth(input: CutInput): Promise<Result<{ offcutIds: string[]; wasteUm2: number }, Refusal>> {
  return write<{ offcutIds: string[]; wasteUm2: number }, Refusal>(async (open) => {
    const { tx, at, touch } = open
    const { id, remaining, offcuts, projectId } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const free = await refuseReserved(open, { pieceId: id, forProjectId: projectId })
    if (!free.ok) return free
    const plan = planCut(held.value, remaining, offcuts)
    if (!plan.ok) return plan

    const { isSquared, homePlaceId, currentPlaceId } = held.value
    await tx.clothPiece.update({
      where: { id },
      data: remaining === null ? goneNow(at) : { ...remaining, sizeCertainty: 'measured' },
    })
    await journalCloth(open, {
      kind: 'cut',
      clothPieceId: id,
      wholeDelta: remaining === null ? -1 : 0,
      fromPlaceId: currentPlaceId,
      toPlaceId: remaining === null ? null : currentPlaceId,
      projectId,
      reason: [remaining && sizeChange(held.value, { ...remaining, isSquared }), input.note].filter(Boolean).join('; ') || null,
    })

    const parent = await tx.clothPiece.findUniqueOrThrow({ where: { id }, select: kindColumns })
    const offcutIds: string[] = []
    for (const { label, placeLabel, widthUm, heightUm } of offcuts) {
      const labelKey = await claimLabel(open, { label, ownerId: parent.ownerId, pieceId: null })
      if (!labelKey.ok) return labelKey
      const placeId = placeLabel === null ? (homePlaceId ?? currentPlaceId) : await ensurePlace(open, placeLabel)
      const offcutId = newId()
      await tx.clothPiece.create({
        data: {
          ...parent,
          id: offcutId,
          label,
          labelKey: labelKey.value,
          widthUm,
          heightUm,
          isSquared,
          sizeCertainty: 'measured',
          parentId: id,
          homePlaceId: placeId,
          currentPlaceId: placeId,
        },
      })
      await journalCloth(open, {
        kind: 'cut',
        clothPieceId: offcutId,
        wholeDelta: 1,
        fromPlaceId: currentPlaceId,
        toPlaceId: placeId,
        toOwnerId: parent.ownerId,
        projectId,
        reason: held.value.label,
      })
      touch('cloth', offcutId)
      offcutIds.push(offcutId)
    }
    return ok({ offcutIds, wasteUm2: plan.value.wasteUm2 })
  })
}

/** What an offcut has from its parent. */
const kindColumns = {
  ownerId: true,
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
} as const
