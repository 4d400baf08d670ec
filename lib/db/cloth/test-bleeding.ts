import 'server-only'
import type { BleedTest } from '#lib/cloth/care'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { claimCloth, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'

export type BleedTestInput = {
  id: string
  version: number
  result: BleedTest
  /** yyyy-mm-dd */
  testedOn: string
  note: string | null
}

/** How a piece did when it was tried wet on white. The last test is the one that counts. */
export function recordBleedTest(
  input: BleedTestInput,
): Promise<Result<null, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>> {
  return write<null, Extract<ClothRefusal, { kind: 'changed-meanwhile' }>>(async (open) => {
    const { id, result, testedOn, note } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    await open.tx.clothPiece.update({ where: { id }, data: { bleedTest: result, bleedTestedOn: testedOn } })
    const words = result === 'bled' ? 'the dye ran' : 'no dye ran'
    const reason = [`tried wet on white ${testedOn}: ${words}`, note].filter((part) => part !== null).join('; ')
    await journalCloth(open, { kind: 'correct', clothPieceId: id, reason })
    return ok(null)
  })
}
