import { labToHex } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import type { Hex } from '#trade/winding'

/** A recorded colour as the drawings of a thread take it; none when there is none on record. */
export const hexesOf = (lab: Lab | null): Hex[] => (lab ? [labToHex(lab) as Hex] : [])
