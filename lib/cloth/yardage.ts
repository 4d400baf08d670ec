import { roundUpUm, UM_PER_INCH } from '#lib/quantity/cloth-length'
import type { CutWay } from './cut-plan'
import { squaringLossUm } from './fit'
import { type LaidBox, mostFrom } from './most-from'

/** Cloth as it is sold off the bolt: its width, the selvedge lost each side, what straightening takes of a length, the step it is sold in. */
export type Bolt = { widthUm: number; selvedgeUm: number; straighteningUm: number; stepUm: number }

export type YardageRequest = {
  /** How many are wanted, a whole number above nought. */
  copies: number
  /** How one may lie: its size as it is cut, one way or two, in whole micrometres. */
  ways: readonly CutWay[]
  bolt: Bolt
  /** Cloth lost along each cut, where edges are pinked or torn. */
  gapUm: number
}

/** Rows across the bolt, all in one way. */
export type Strip = { way: CutWay; across: number; rows: number }

/** Rows that give as many as are wanted, and what to buy for them. Lengths run along the selvedge. */
export type StripPlan = {
  strips: Strip[]
  /** Without straightening. */
  lengthUm: number
  toBuyUm: number
  /** What comes out of the length bought, laid in rows: those wanted, and some over. */
  gives: number
  boxes: LaidBox[]
}

export type YardagePlan = {
  usableWidthUm: number
  /** Every row upright, or every row turned; null where the piece may not lie so, or is wider than the cloth. */
  upright: StripPlan | null
  turned: StripPlan | null
  /** Some rows upright and some turned, where that needs less length than either alone. */
  mixed: StripPlan | null
  /** What to buy: the shortest of them, in the shop's steps; or less still, where not all lie in rows. Null when none fits the width. */
  best: (Omit<StripPlan, 'strips'> & { kind: 'upright' | 'turned' | 'mixed' | 'apart' }) | null
  /** Proved that one step less is too short, however it is cut from edge to edge. */
  isProved: boolean
}

/** Bolts as they are sold: 54 to 60 in, 137 to 152 cm. Common practice, no published source. */
export const usualBoltWidthsUm: readonly number[] = [54, 55, 56, 57, 58, 59, 60].map((inches) => inches * UM_PER_INCH)

const usableWidthOf = ({ widthUm, selvedgeUm }: Bolt): number => Math.max(0, widthUm - 2 * selvedgeUm)

/** What is left to cut from of a length as it is bought. */
const usableLengthOf = ({ straighteningUm }: Bolt, boughtUm: number): number => Math.max(0, boughtUm - straighteningUm)

/** ⌊(usable width + gap) ÷ (width + gap)⌋: the last one loses nothing to a cut. */
const acrossOf = ({ widthUm }: CutWay, usableWidthUm: number, gapUm: number): number =>
  Math.floor((usableWidthUm + gapUm) / (widthUm + gapUm))

/**
 * How much to buy off the bolt for so many pieces of one size.
 *
 * In rows of one way: as many across as the usable width holds, ⌈copies ÷ across⌉ rows, and their length with what straightening takes,
 * rounded up to the shop's step. Upright rows and turned rows one after another may need less, and every number of upright rows is
 * tried, so no rows are shorter. Cutting that is not in rows may save a further step: each step below the rows' is tried with
 * `mostFrom`, which is exact up to its own limit, from the least that has the area. So `best` is the fewest steps that any cutting
 * from edge to edge needs whenever `isProved` says so, and otherwise the best of the rows.
 *
 * @throws {RangeError} if the number wanted or a bolt's figure makes no sense
 */
export function planYardage(request: YardageRequest): YardagePlan {
  const { copies, ways, bolt, gapUm } = request
  if (!(Number.isSafeInteger(copies) && copies > 0)) throw new RangeError(`planYardage: ${copies} copies`)
  if (!(Number.isSafeInteger(bolt.stepUm) && bolt.stepUm > 0)) throw new RangeError(`planYardage: step ${bolt.stepUm}`)
  const usableWidthUm = usableWidthOf(bolt)
  const inRows = (isTurned: boolean): StripPlan | null => {
    const way = ways.find((one) => one.isTurned === isTurned)
    const across = way ? acrossOf(way, usableWidthUm, gapUm) : 0
    return way && across > 0 ? stripPlan([{ way, across, rows: Math.ceil(copies / across) }], request) : null
  }
  const [upright, turned] = [inRows(false), inRows(true)]
  const mixed = upright && turned && mixedRows(upright, turned, request)
  const rows = [
    ...(upright ? [{ kind: 'upright' as const, ...upright }] : []),
    ...(turned ? [{ kind: 'turned' as const, ...turned }] : []),
    ...(mixed ? [{ kind: 'mixed' as const, ...mixed }] : []),
  ].sort((a, b) => a.toBuyUm - b.toBuyUm)
  const [shortest] = rows
  if (!shortest) return { usableWidthUm, upright, turned, mixed, best: null, isProved: true }
  const { plan, isProved } = notInRows(shortest, usableWidthUm, request)
  const { strips: _, ...best } = shortest
  return { usableWidthUm, upright, turned, mixed, best: plan ?? best, isProved }
}

/** The same for each width of a bolt, its other figures as they are. */
export const yardageByWidth = (
  request: YardageRequest,
  widthsUm: readonly number[] = usualBoltWidthsUm,
): { widthUm: number; plan: YardagePlan }[] =>
  widthsUm.map((widthUm) => ({ widthUm, plan: planYardage({ ...request, bolt: { ...request.bolt, widthUm } }) }))

const lengthOf = (strips: readonly Strip[], gapUm: number): number =>
  strips.reduce((sum, { way, rows }) => sum + rows * (way.heightUm + gapUm), -gapUm)

function stripPlan(strips: Strip[], { copies, bolt, gapUm }: YardageRequest): StripPlan {
  const lengthUm = lengthOf(strips, gapUm)
  const toBuyUm = roundUpUm(lengthUm + bolt.straighteningUm, bolt.stepUm)
  const spareUm = usableLengthOf(bolt, toBuyUm) - lengthUm
  // The step may leave room for more rows of whichever way gives most.
  const more = Math.max(...strips.map(({ way, across }) => Math.floor(spareUm / (way.heightUm + gapUm)) * across))
  const gives = strips.reduce((sum, { across, rows }) => sum + across * rows, 0) + more
  return { strips, lengthUm, toBuyUm, gives, boxes: boxesOf(strips, copies, gapUm) }
}

function boxesOf(strips: readonly Strip[], copies: number, gapUm: number): LaidBox[] {
  const boxes: LaidBox[] = []
  let yUm = 0
  for (const { way, across, rows } of strips) {
    const { widthUm, heightUm, isTurned } = way
    for (let row = 0; row < rows; row++, yUm += heightUm + gapUm)
      for (let at = 0; at < across && boxes.length < copies; at++)
        boxes.push({ xUm: at * (widthUm + gapUm), yUm, widthUm, heightUm, isTurned })
  }
  return boxes
}

/** The shortest that has both upright and turned rows; null when one way alone is as short. */
function mixedRows(upright: StripPlan, turned: StripPlan, request: YardageRequest): StripPlan | null {
  const [up, across] = [upright.strips[0] as Strip, turned.strips[0] as Strip]
  let best: { strips: Strip[]; lengthUm: number } | null = null
  for (let rows = 1; rows < up.rows; rows++) {
    const rest = Math.ceil((request.copies - rows * up.across) / across.across)
    const strips = [
      { ...up, rows },
      { ...across, rows: rest },
    ]
    const lengthUm = lengthOf(strips, request.gapUm)
    if (best === null || lengthUm < best.lengthUm) best = { strips, lengthUm }
  }
  return best && best.lengthUm < Math.min(upright.lengthUm, turned.lengthUm) ? stripPlan(best.strips, request) : null
}

/** Fewer steps than rows need, cut any other way; null where there are none, or none that were found. */
function notInRows(
  shortest: StripPlan,
  usableWidthUm: number,
  { copies, ways, bolt, gapUm }: YardageRequest,
): { plan: YardagePlan['best']; isProved: boolean } {
  const leastArea = Math.min(...ways.map(({ widthUm, heightUm }) => (widthUm + gapUm) * (heightUm + gapUm)))
  const leastLengthUm = Math.max(
    (copies * leastArea) / (usableWidthUm + gapUm) - gapUm,
    Math.min(...ways.filter(({ widthUm }) => widthUm <= usableWidthUm).map(({ heightUm }) => heightUm)),
  )
  const first = roundUpUm(leastLengthUm + bolt.straighteningUm, bolt.stepUm)
  let isProved = true
  for (let toBuyUm = first; toBuyUm < shortest.toBuyUm; toBuyUm += bolt.stepUm) {
    const sheet = { widthUm: usableWidthUm, heightUm: usableLengthOf(bolt, toBuyUm) }
    const found = mostFrom(sheet, ways, { gapUm, enough: copies })
    if (found.copies >= copies) {
      const lengthUm = Math.max(...found.boxes.map(({ yUm, heightUm }) => yUm + heightUm))
      const gives = mostFrom(sheet, ways, { gapUm }).copies
      return { plan: { kind: 'apart', lengthUm, toBuyUm, gives, boxes: found.boxes }, isProved }
    }
    isProved &&= found.isProved
    // One sheet beyond what can be gone through: longer ones are too.
    if (!found.isProved) break
  }
  return { plan: null, isProved }
}

/** Cloth as it is sold ready cut: half a yard by half the bolt's width, and half of that again across. Sizes weft first. */
export type ReadyCut = {
  name: 'fat quarter' | 'fat eighth'
  nominal: { widthUm: number; heightUm: number }
  /** After the usual loss in cutting it straight to a thread. */
  squared: { widthUm: number; heightUm: number }
  /** How many come out of one as it is said to be, and once it is squared. */
  nominalGives: number
  squaredGives: number
  /** How many to buy for all, reckoned on the squared size; null when none comes out of it. */
  toBuy: number | null
  isProved: boolean
}

/** What fat quarters and fat eighths off this bolt give, instead of a length. Sizes by common practice, no published source. */
export function readyCuts({ copies, ways, bolt, gapUm }: YardageRequest): ReadyCut[] {
  const halfYardUm = 18 * UM_PER_INCH
  return (['fat quarter', 'fat eighth'] as const).map((name, at) => {
    const nominal = { widthUm: Math.floor(bolt.widthUm / (at === 0 ? 2 : 4)), heightUm: halfYardUm }
    const squared = {
      widthUm: Math.max(0, nominal.widthUm - 2 * squaringLossUm),
      heightUm: nominal.heightUm - 2 * squaringLossUm,
    }
    const most = mostFrom(squared, ways, { gapUm })
    return {
      ...{ name, nominal, squared },
      nominalGives: mostFrom(nominal, ways, { gapUm }).copies,
      squaredGives: most.copies,
      toBuy: most.copies === 0 ? null : Math.ceil(copies / most.copies),
      isProved: most.isProved,
    }
  })
}
