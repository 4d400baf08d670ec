import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { write } from '../write'
import { claimLabel, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

type Refusal = Extract<ClothRefusal, { kind: 'label-taken' | 'worked-up' | 'changed-meanwhile' }>

/**
 * Bring back a piece that was taken out of the larder by hand, where it was. A place that was taken away meanwhile is not its place any
 * more. What was cut up, or used for a project, is in other pieces now and stays gone.
 */
export function restoreCloth(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, at, touch } = open
    const { id, version } = input
    const piece = await tx.clothPiece.findFirst({
      where: { id, version, goneAt: { not: null } },
      select: {
        ownerId: true,
        label: true,
        homePlace: standingPlace,
        currentPlace: standingPlace,
        movements: { where: { wholeDelta: { lt: 0 } }, orderBy: { revision: 'desc' }, take: 1, select: endingColumns },
      },
    })
    if (!piece) return refused({ kind: 'changed-meanwhile' })
    if (!isEndedByHand(piece.movements[0])) return refused({ kind: 'worked-up' })
    const { ownerId, label } = piece
    const labelKey = await claimLabel(open, { label, ownerId, pieceId: id })
    if (!labelKey.ok) return labelKey
    const standing = (place: { id: string; goneAt: Date | null } | null) => (place && place.goneAt === null ? place.id : null)
    const homePlaceId = standing(piece.homePlace)
    const currentPlaceId = standing(piece.currentPlace) ?? homePlaceId
    await tx.clothPiece.update({
      where: { id },
      data: {
        goneAt: null,
        labelKey: labelKey.value,
        homePlaceId,
        currentPlaceId,
        outSince: isOut({ homePlaceId, currentPlaceId }) ? at : null,
        version: { increment: 1 },
      },
    })
    touch('cloth', id)
    await journalCloth(open, { kind: 'undo', clothPieceId: id, wholeDelta: 1, toPlaceId: currentPlaceId, toOwnerId: ownerId })
    return ok(null)
  })
}

const standingPlace = { select: { id: true, goneAt: true } } as const
const endingColumns = { kind: true, projectId: true } as const

/** Whether the movement a piece went with was somebody taking it off the list, and not a cut, a project or an import undone. */
export const isEndedByHand = (ending: { kind: string; projectId: string | null } | undefined): boolean =>
  ending !== undefined && ending.projectId === null && ['use', 'transfer', 'correct'].includes(ending.kind)
