import 'server-only'
import type { Weave } from '#lib/cloth/cloth-piece'
import { countByRuler, type RulerReading, type RulerRefusal } from '#lib/cloth/ruler-count'
import { formatClothLength, type LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { claimCloth, journalCloth } from './claim-cloth'
import type { ClothRefusal } from './cloth-refusal'
import { countChange } from './edit-cloth'

export type CountInput = {
  id: string
  version: number
  across: readonly RulerReading[]
  up: readonly RulerReading[]
  /** What the ruler is marked in. */
  unit: LengthUnit
  /** Whether it may be turned from now on; null leaves that as it was. */
  isTurnable: boolean | null
  note: string | null
}

type Refusal = RulerRefusal | Extract<ClothRefusal, { kind: 'changed-meanwhile' }>

/** A piece's threads as they were counted along a ruler: from now on it is judged by this. The readings stay in the journal. */
export function countCloth(input: CountInput): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { id, across, up, unit, isTurnable, note } = input
    const held = await claimCloth(open, input)
    if (!held.ok) return held
    const counted = countByRuler({ across, up }, { weave: held.value.weave as Weave, unit })
    if (!counted.ok) return counted
    const [ends, picks] = [counted.value.ends.count, counted.value.picks.count]
    await open.tx.clothPiece.update({
      where: { id },
      data: {
        ...{ endsThreads: ends.threads, endsPerUm: ends.perUm, picksThreads: picks.threads, picksPerUm: picks.perUm },
        ...{ countCertainty: 'measured', isCountStale: false },
        ...(isTurnable === null ? {} : turning(isTurnable, held.value.oneWayBecause)),
      },
    })
    const words = countChange(held.value, { ends, picks }) ?? `still ${formatCount(ends, picks)}`
    await journalCloth(open, {
      kind: 'correct',
      clothPieceId: id,
      reason: [`${countedWords({ across, up, unit })}: ${words}`, note].filter((part) => part !== null).join('; '),
    })
    return ok(null)
  })
}

/** A piece that was worked one way only for another reason keeps it. */
const turning = (isTurnable: boolean, because: string | null) => ({
  isTurnable,
  oneWayBecause: isTurnable ? null : (because ?? 'count'),
})

/** The readings as the journal keeps them: "counted 64 and 63 in 2 in across and 61 in 2 in up". */
export const countedWords = ({ across, up, unit }: Pick<CountInput, 'across' | 'up' | 'unit'>): string =>
  `counted ${describeReadings(across, unit)} across and ${describeReadings(up, unit)} up`

/** `64, 63 and 64 in 2 in`, or each with its own length. */
function describeReadings(readings: readonly RulerReading[], unit: LengthUnit): string {
  const joined = (parts: readonly string[]) =>
    parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`
  const [first] = readings
  if (first && readings.every(({ lengthUm }) => lengthUm === first.lengthUm))
    return `${joined(readings.map(({ threads }) => String(threads)))} in ${formatClothLength(first.lengthUm, unit)}`
  return joined(readings.map(({ threads, lengthUm }) => `${threads} in ${formatClothLength(lengthUm, unit)}`))
}
