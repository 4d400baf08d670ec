import 'server-only'
import type { PieceSize } from '#lib/cloth/check-cut'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { claimCloth, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'
import { sizeChange } from './edit-cloth'

export type WashInput = {
  id: string
  version: number
  /** yyyy-mm-dd */
  washedOn: string
  /** What it measured when it was dry and pressed; null when nobody measured it. */
  measured: (PieceSize & { isSquared: boolean }) | null
  note: string | null
}

/**
 * A piece was washed: no more is allowed for its shrinking. Its threads lie closer now, so its count is to be taken again; until then it
 * stays as it was, marked.
 */
export function washCloth(input: WashInput): Promise<Result<null, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>> {
  return write<null, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>(async (open) => {
    const { id, washedOn, measured, note } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    await open.tx.clothPiece.update({
      where: { id },
      data: { washState: 'washed', washedOn, isCountStale: true, ...(measured && { ...measured, sizeCertainty: 'measured' }) },
    })
    const reason = [`washed ${washedOn}`, measured && sizeChange(held.value, measured), note].filter((part) => part !== null)
    await journalCloth(open, { kind: 'correct', clothPieceId: id, reason: reason.join('; ') })
    return ok(null)
  })
}
