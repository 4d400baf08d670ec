import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { claimCloth, claimLabel, journalCloth, refuseReserved } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

type Refusal = Extract<
  ClothRefusal,
  { kind: 'no-such-owner' | 'already-theirs' | 'label-taken' | 'reserved' | 'planned' | 'changed-meanwhile' }
>

/** Pass a piece to another owner; it stays where it is. Refused while a project keeps it. */
export function transferCloth(input: {
  id: string
  version: number
  toOwnerId: string
  reason: string | null
}): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, toOwnerId, reason } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const owner = await open.tx.owner.findUnique({ where: { id: toOwnerId }, select: { id: true } })
    if (!owner) return refused({ kind: 'no-such-owner', ownerId: toOwnerId })
    if (held.value.ownerId === toOwnerId) return refused({ kind: 'already-theirs' })
    const free = await refuseReserved(open, { pieceId: id, forProjectId: null })
    if (!free.ok) return free
    const labelKey = await claimLabel(open, { label: held.value.label, ownerId: toOwnerId, pieceId: id })
    if (!labelKey.ok) return labelKey
    await open.tx.clothPiece.update({ where: { id }, data: { ownerId: toOwnerId } })
    await journalCloth(open, { kind: 'transfer', clothPieceId: id, fromOwnerId: held.value.ownerId, toOwnerId, reason })
    return ok(null)
  })
}
