import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { ensurePlace } from '../place/ensure-place'
import { refuseKeptByRecord } from '../place/refuse-kept-by-record'
import { write } from '../write'
import { claimCloth, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

type MoveRefusal = Extract<ClothRefusal, { kind: 'already-there' | 'kept-by-record' | 'changed-meanwhile' }>
export type ReturnClothRefusal = Extract<ClothRefusal, { kind: 'already-there' | 'no-home' | 'changed-meanwhile' }>

/**
 * Lay a piece somewhere else: for a while (it is then out) or to live there. A place that is not known yet is made; a piece without
 * a home finds one wherever it is first laid. What goes from one strange place to the next is out since the day it left home.
 */
export function moveCloth(input: {
  id: string
  version: number
  toPlaceLabel: string
  becomesHome: boolean
  reason?: string | null
}): Promise<Result<null, MoveRefusal>> {
  return write<null, MoveRefusal>(async (open) => {
    const { tx, at } = open
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const { homePlaceId, currentPlaceId, outSince } = held.value
    const mayGo = await refuseKeptByRecord(open, input.toPlaceLabel)
    if (!mayGo.ok) return mayGo
    const toPlaceId = await ensurePlace(open, input.toPlaceLabel)
    const newHomeId = input.becomesHome || homePlaceId === null ? toPlaceId : homePlaceId
    if (toPlaceId === currentPlaceId && newHomeId === homePlaceId) return refused({ kind: 'already-there' })
    const isAway = isOut({ homePlaceId: newHomeId, currentPlaceId: toPlaceId })
    await tx.clothPiece.update({
      where: { id: input.id },
      data: { homePlaceId: newHomeId, currentPlaceId: toPlaceId, outSince: isAway ? (outSince ?? at) : null },
    })
    await journalCloth(open, {
      kind: !isAway && newHomeId === homePlaceId ? 'return' : 'move',
      clothPieceId: input.id,
      fromPlaceId: currentPlaceId,
      toPlaceId,
      reason: input.reason ?? null,
    })
    return ok(null)
  })
}

/** Put a piece that is out back where it lives. */
export function returnCloth(input: { id: string; version: number }): Promise<Result<null, ReturnClothRefusal>> {
  return write<null, ReturnClothRefusal>(async (open) => {
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const { homePlaceId, currentPlaceId } = held.value
    if (homePlaceId === null) return refused({ kind: 'no-home' })
    if (!isOut(held.value)) return refused({ kind: 'already-there' })
    await open.tx.clothPiece.update({ where: { id: input.id }, data: { currentPlaceId: homePlaceId, outSince: null } })
    await journalCloth(open, { kind: 'return', clothPieceId: input.id, fromPlaceId: currentPlaceId, toPlaceId: homePlaceId })
    return ok(null)
  })
}
