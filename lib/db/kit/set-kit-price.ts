import 'server-only'
import { ok, type Result } from '#lib/result'
import type { ProjectEdit } from '../project/project-row'
import { write } from '../write'
import { claimKit } from './claim-kit'
import type { KitItemRefusal } from './kit-item-refusal'

type Refused = Extract<KitItemRefusal, { kind: 'no-such-project' | 'kit-closed' | 'changed-meanwhile' }>

/** Say what one kit is sold for, in minor units; null takes the price away. */
export function setKitPrice(input: ProjectEdit & { priceMinor: number | null }): Promise<Result<null, Refused>> {
  return write<null, Refused>(async (writing) => {
    const claimed = await claimKit(writing, input, { kitPriceMinor: input.priceMinor })
    return claimed.ok ? ok(null) : claimed
  })
}
