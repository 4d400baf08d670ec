import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { layElsewhere } from '../place/lay-elsewhere'
import { write } from '../write'
import { claimCloth, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

type MoveRefusal = Extract<ClothRefusal, { kind: 'already-there' | 'kept-by-record' | 'changed-meanwhile' }>
export type ReturnClothRefusal = Extract<ClothRefusal, { kind: 'already-there' | 'no-home' | 'changed-meanwhile' }>

/** Lay a piece somewhere else, as `layElsewhere` has it. */
export function moveCloth(input: {
  id: string
  version: number
  toPlaceLabel: string
  becomesHome: boolean
  reason?: string | null
}): Promise<Result<null, MoveRefusal>> {
  return write<null, MoveRefusal>(async (open) => {
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const laid = await layElsewhere(open, held.value, input)
    if (!laid.ok) return laid
    const { lies, kind } = laid.value
    await open.tx.clothPiece.update({ where: { id: input.id }, data: lies })
    await journalCloth(open, {
      ...{ kind, clothPieceId: input.id, fromPlaceId: held.value.currentPlaceId, toPlaceId: lies.currentPlaceId },
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
