import 'server-only'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { claimCloth, journalCloth, refuseReserved } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

/** Why a piece is no longer held: used up, passed out of the house (sold, given), or never rightly there (lost, a slip). */
export const clothEndings = ['used', 'passed on', 'lost', 'slip'] as const
export type ClothEnding = (typeof clothEndings)[number]

type Refusal = Extract<ClothRefusal, { kind: 'reserved' | 'planned' | 'changed-meanwhile' }>

/** A piece leaves the larder; its history stays. Refused while a project keeps it. */
export function removeCloth(input: {
  id: string
  version: number
  ending: ClothEnding
  note: string | null
}): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, ending, note } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const free = await refuseReserved(open, { pieceId: id, forProjectId: null })
    if (!free.ok) return free
    await open.tx.clothPiece.update({ where: { id }, data: goneNow(open.at) })
    await journalCloth(open, {
      kind: ending === 'used' ? 'use' : ending === 'passed on' ? 'transfer' : 'correct',
      clothPieceId: id,
      wholeDelta: -1,
      fromPlaceId: held.value.currentPlaceId,
      fromOwnerId: held.value.ownerId,
      reason: note === null ? ending : `${ending}: ${note}`,
    })
    return ok(null)
  })
}

/** Columns of a piece that is gone. Its label is free for another. */
export const goneNow = (at: Date) => ({ goneAt: at, labelKey: null, outSince: null })
