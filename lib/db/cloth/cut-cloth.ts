import 'server-only'
import { checkCut, type PieceSize } from '#lib/cloth/check-cut'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { addOffcuts, type OffcutInput } from './add-offcuts'
import { claimCloth, journalCloth, refuseReserved } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'
import { sizeChange } from './edit-cloth'
import { goneNow } from './remove-cloth'

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
  {
    kind:
      | 'nothing-cut'
      | 'more-than-it-was'
      | 'part-too-large'
      | 'label-taken'
      | 'kept-by-record'
      | 'reserved'
      | 'planned'
      | 'changed-meanwhile'
  }
>

/**
 * Confirm a cut that was made. The piece becomes smaller or is gone; each offcut is a new piece with the old one as its parent and
 * the same weave, counts and colour, measured just now. Together they are never more cloth than there was.
 */
export function cutCloth(input: CutInput): Promise<Result<{ offcutIds: string[]; wasteUm2: number }, Refusal>> {
  return write<{ offcutIds: string[]; wasteUm2: number }, Refusal>(async (open) => {
    const { tx, at } = open
    const { id, remaining, offcuts, projectId } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const free = await refuseReserved(open, { pieceId: id, forProjectId: projectId })
    if (!free.ok) return free
    const plan = checkCut(held.value, remaining, offcuts)
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

    const added = await addOffcuts(open, offcuts, {
      ...{ parentId: id, isSquared, homePlaceId: homePlaceId ?? currentPlaceId, fromPlaceId: currentPlaceId, projectId },
    })
    return added.ok ? ok({ ...added.value, wasteUm2: plan.value.wasteUm2 }) : added
  })
}
