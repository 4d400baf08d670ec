import { flatLengthUm, type Pitches, pitchedLengthUm } from './stitch-geometry'
import { type Stitch, type StitchTally, stitches, type Working } from './stitches'

const UM_PER_TENTH = 100

/** One stitch's share of the arithmetic. Lengths are of one strand and not whole; nothing here carries the allowance. */
export type ThreadUsePart = {
  stitch: Stitch
  tally: number
  strands: number
  /** The part of one stitch that follows the cloth; the allowance is on this. */
  lengthUm: number
  /** That length in pitches, on cloth the same both ways; null on other cloth. */
  pitches: number | null
  /** The part of one stitch that does not (a knot, a bead's pass); no allowance on this. */
  flatUm: number
  /** tally × lengthUm × strands. */
  strandTenths: number
  /** tally × flatUm × strands. */
  flatStrandTenths: number
}

export type ThreadUse = {
  /** The need: everything below summed, and rounded up once to a whole tenth of a millimetre of one strand. */
  strandTenths: number
  parts: ThreadUsePart[]
  allowance: number
  /** Sum of the parts that follow the cloth, before and after the allowance. */
  bareStrandTenths: number
  allowedStrandTenths: number
  /** Sum of the flat amounts, added after the allowance. */
  flatStrandTenths: number
}

export type ThreadUseRequest = Pitches & {
  tally: StitchTally
  strands: number
  working: Working
  allowance: number
}

/**
 * How much of one thread a tally of stitches takes: allowance × Σ(tally × length of one stitch × strands) + knots and beads' passes.
 * For a blend, call it for each thread with its own strands.
 *
 * @returns the need with its arithmetic, parts in the order of `stitches`, those with no tally left out.
 * @throws {RangeError} if a tally, the strands, the allowance or a pitch cannot be one.
 */
export function threadUse({ tally, strands, working, acrossUm, upUm, allowance }: ThreadUseRequest): ThreadUse {
  if (!Number.isSafeInteger(strands) || strands < 1) throw new RangeError(`threadUse: strands ${strands}`)
  if (!(allowance > 0 && Number.isFinite(allowance))) throw new RangeError(`threadUse: allowance ${allowance}`)
  if (!(acrossUm > 0 && upUm > 0 && Number.isFinite(acrossUm + upUm)))
    throw new RangeError(`threadUse: pitches ${acrossUm}, ${upUm}`)

  const parts: ThreadUsePart[] = []
  let bareStrandTenths = 0
  let flatStrandTenths = 0
  for (const stitch of stitches) {
    const count = tally[stitch] ?? 0
    if (!Number.isSafeInteger(count) || count < 0) throw new RangeError(`threadUse: ${stitch} ${count}`)
    if (count === 0) continue
    const lengthUm = pitchedLengthUm(stitch, working, { acrossUm, upUm })
    const flatUm = flatLengthUm(stitch)
    const part: ThreadUsePart = {
      stitch,
      tally: count,
      strands,
      lengthUm,
      pitches: acrossUm === upUm ? lengthUm / acrossUm : null,
      flatUm,
      strandTenths: (count * lengthUm * strands) / UM_PER_TENTH,
      flatStrandTenths: (count * flatUm * strands) / UM_PER_TENTH,
    }
    bareStrandTenths += part.strandTenths
    flatStrandTenths += part.flatStrandTenths
    parts.push(part)
  }
  const allowedStrandTenths = bareStrandTenths * allowance
  return {
    strandTenths: roundUpTenths(allowedStrandTenths + flatStrandTenths),
    parts,
    allowance,
    bareStrandTenths,
    allowedStrandTenths,
    flatStrandTenths,
  }
}

/**
 * How many stitches of one kind a length of thread is enough for: the most whose `threadUse` is not above it.
 *
 * @param strandTenths  of one strand; a part skein's length times the strands it was parted into.
 * @throws {RangeError} as `threadUse` does, or if the length is negative.
 */
export function stitchesFrom(
  strandTenths: number,
  { stitch, ...how }: Omit<ThreadUseRequest, 'tally'> & { stitch: Stitch },
): number {
  if (!(strandTenths >= 0 && Number.isFinite(strandTenths))) throw new RangeError(`stitchesFrom: length ${strandTenths}`)
  const takes = (count: number) => threadUse({ ...how, tally: { [stitch]: count } })
  const one = takes(1)
  // Off by one at most, where rounding up to a whole tenth tips it.
  let count = Math.floor(strandTenths / (one.allowedStrandTenths + one.flatStrandTenths))
  while (count > 0 && takes(count).strandTenths > strandTenths) count -= 1
  while (takes(count + 1).strandTenths <= strandTenths) count += 1
  return count
}

/** Up to the next whole tenth; a millionth of one above a whole is floating-point noise, not thread. */
export const roundUpTenths = (strandTenths: number): number => Math.max(0, Math.ceil(strandTenths - 1e-6))
