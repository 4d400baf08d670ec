import { aStretch, chromaRoot, ciede2000, lightnessScale } from './ciede2000'
import type { Lab } from './lab'

export type NearColour = { id: string; deltaE00: number }

type Asked = {
  /** At most so many, the nearest first. */
  count: number
  /** Only those no farther than this; infinite when left out. */
  within?: number
  /** Only those it says yes to; asked of few, the near ones. */
  accepts?: (id: string) => boolean
}

/** Rounding makes a bound and the difference it bounds disagree by less than this. */
const slack = 1e-9

/**
 * What is known of every pair of colours whose mean chroma C̄ lies from k up to k + 1; the last row holds from there on.
 *
 * `more`: C̄′ is at most C̄ + more. Each chroma is stretched by 1 + G at most, G falls as C̄ grows, and C·G(C) is 6.37 at most.
 * `stretch`: (1 + G)² is at least this.
 * `left`: 1 − |R_T|/2 is at least this.
 */
const rows = 200
const more = new Float64Array(rows).fill(6.4)
const stretch = new Float64Array(rows).fill(1)
const left = new Float64Array(rows).fill(1 - Math.sqrt(3) / 2)
for (let k = 0; k < rows - 1; k++) {
  more[k] = Math.min(6.4, (k + 1) * (aStretch(k) - 1))
  stretch[k] = aStretch(k + 1) ** 2
  left[k] = 1 - (Math.sqrt(3) / 2) * chromaRoot(k + 1 + (more[k] as number))
}

/** 1 − |R_T|/2 is at least this for a pair with a half of the hue circle in common that keeps 65° from 275°. */
const leftAway = 1 - Math.sin((Math.PI / 3) * Math.exp(-((65 / 25) ** 2)))

/** The middles of three halves of the hue circle, in degrees: 340 to 160, 0 to 180, 30 to 210. */
const halves = [70, 90, 120].map((degrees) => [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)] as const)

/** Which halves of the hue circle the colour lies in however its a is stretched, by once to one and a half times: a bit for each. */
const halvesOf = ({ a, b }: Lab): number =>
  halves.reduce((bits, [x, y], bit) => (x * a + y * b >= 0 && x * a * 1.5 + y * b >= 0 ? bits | (1 << bit) : bits), 0)

/**
 * Finds, among many colours, those that differ least from one colour by CIEDE2000: exactly those a scan of all would find, in the same
 * order; equal differences go by id.
 *
 * ΔE² = x² + y² + z² + R_T·y·z, with x = ΔL′/S_L, y = ΔC′/S_C, z = ΔH′/S_H. Colours are passed over by two lower bounds of it:
 *
 * 1. **ΔE ≥ |x|.** R_T = −sin(2Δθ)·R_C with Δθ ≤ 30° and R_C < 2, so |R_T| < 2 sin 60° = √3 < 2, and as |yz| ≤ (y² + z²)/2,
 *    y² + z² + R_T·y·z ≥ (1 − |R_T|/2)(y² + z²) ≥ 0. And |x| only grows as the one L moves away from the other: with d = |ΔL| and S =
 *    S_L of their mean, the slope of d/S has the sign of S − d·S′. Of u²/√(20 + u²), with u the mean's distance from 50, the slope is
 *    greatest at u² = 40, where it is 4√2/(3√3) < 1.089; the mean moves half as fast as the colour, so S′ ≤ 0.015 · 1.089 / 2 < 0.0082,
 *    and S ≥ 1: positive for d up to 121. So colours are held sorted by L and looked at outwards from the one asked for, up and down,
 *    and a direction ends at the first whose x alone is too much.
 * 2. **ΔE² ≥ x² + (1 − |R_T|/2)((1 + G)²Δa² + Δb²)/S_C².** T ≤ 1.93 makes S_H = 1 + 0.015·C̄′·T ≤ 1 + 0.045·C̄′ = S_C, so y² + z² ≥
 *    (ΔC′² + ΔH′²)/S_C², and by the law of cosines ΔC′² + ΔH′² is the squared distance of the points (a′, b), with a′ = (1 + G)·a. G, C̄′
 *    and R_C follow from C̄ alone; bounds of them are tabled in steps of 1. Δθ = 30° exp(−((h̄′ − 275)/25)²) is next to nothing where both
 *    colours lie in one half of the hue circle that keeps 65° from 275°, for then their bisector h̄′ lies in it too. This spares most of
 *    the full formulas and costs a twentieth of one.
 *
 * Building is O(n log n). Asking looks only at colours of like lightness, and is O(n · count) at worst.
 */
export class NearestColours {
  readonly #ids: string[]
  /** By position in order of L, like all that follow. */
  readonly #l: Float64Array
  readonly #a: Float64Array
  readonly #b: Float64Array
  readonly #chroma: Float64Array
  readonly #halfBits: Uint8Array
  /** Where its id stands among all ids. */
  readonly #rank: Uint32Array

  /** @throws {RangeError} for a lightness outside −10 to 110, which CIELAB does not have and the bounds do not hold for. */
  constructor(colours: readonly { id: string; lab: Lab }[]) {
    for (const { lab } of colours) checkLightness(lab)
    const byId = [...colours].sort((one, other) => (one.id < other.id ? -1 : one.id > other.id ? 1 : 0))
    const ranked = byId.map((colour, rank) => ({ ...colour, rank })).sort((one, other) => one.lab.L - other.lab.L)
    this.#ids = ranked.map(({ id }) => id)
    this.#l = Float64Array.from(ranked, ({ lab }) => lab.L)
    this.#a = Float64Array.from(ranked, ({ lab }) => lab.a)
    this.#b = Float64Array.from(ranked, ({ lab }) => lab.b)
    this.#chroma = Float64Array.from(ranked, ({ lab }) => Math.sqrt(lab.a * lab.a + lab.b * lab.b))
    this.#halfBits = Uint8Array.from(ranked, ({ lab }) => halvesOf(lab))
    this.#rank = Uint32Array.from(ranked, ({ rank }) => rank)
  }

  get size(): number {
    return this.#ids.length
  }

  /** The nearest colours to `lab`, nearest first, by id where they differ alike. @throws {RangeError} as the constructor. */
  nearest(lab: Lab, { count, within = Number.POSITIVE_INFINITY, accepts }: Asked): NearColour[] {
    checkLightness(lab)
    const best = new Best(count, within, this.#rank)
    if (count < 1) return []
    const { L, a, b } = lab
    const chroma = Math.sqrt(a * a + b * b)
    const bits = halvesOf(lab)
    const ls = this.#l
    const as = this.#a
    const bs = this.#b
    const chromas = this.#chroma
    const halfBits = this.#halfBits
    let up = firstAtLeast(ls, L)
    let down = up - 1
    let upGap = up < ls.length ? (ls[up] as number) - L : Number.POSITIVE_INFINITY
    let downGap = down >= 0 ? L - (ls[down] as number) : Number.POSITIVE_INFINITY
    let limit = best.most + slack

    while (upGap !== Number.POSITIVE_INFINITY || downGap !== Number.POSITIVE_INFINITY) {
      const isUp = upGap <= downGap
      const at = isUp ? up : down
      const l = ls[at] as number
      const lightness = (isUp ? upGap : downGap) / lightnessScale((l + L) / 2)
      if (lightness > limit) {
        if (isUp) upGap = Number.POSITIVE_INFINITY
        else downGap = Number.POSITIVE_INFINITY
        continue
      }
      if (isUp) upGap = ++up < ls.length ? (ls[up] as number) - L : Number.POSITIVE_INFINITY
      else downGap = --down >= 0 ? L - (ls[down] as number) : Number.POSITIVE_INFINITY

      const deltaA = (as[at] as number) - a
      const deltaB = (bs[at] as number) - b
      const meanChroma = (chroma + (chromas[at] as number)) / 2
      const row = meanChroma < rows ? meanChroma | 0 : rows - 1
      const scale = 1 + 0.045 * (meanChroma + (more[row] as number))
      const least = (bits & (halfBits[at] as number)) !== 0 ? leftAway : (left[row] as number)
      const flat = least * ((stretch[row] as number) * deltaA * deltaA + deltaB * deltaB)
      if (flat > (limit * limit - lightness * lightness) * scale * scale) continue

      const difference = ciede2000(L, a, b, chroma, l, as[at] as number, bs[at] as number, chromas[at] as number)
      if (!best.has(at, difference)) continue
      if (accepts && !accepts(this.#ids[at] as string)) continue
      best.put(at, difference)
      limit = best.most + slack
    }
    return best.found.map((at, index) => ({ id: this.#ids[at] as string, deltaE00: best.differences[index] as number }))
  }
}

/** The least differences so far, least first, equal ones by rank. */
class Best {
  readonly found: number[] = []
  readonly differences: number[] = []
  /** What is farther than this has no place. */
  most: number

  constructor(
    private readonly count: number,
    within: number,
    private readonly rank: Uint32Array,
  ) {
    this.most = within
  }

  #isBefore(at: number, difference: number, place: number): boolean {
    const there = this.differences[place] as number
    return difference === there
      ? (this.rank[at] as number) < (this.rank[this.found[place] as number] as number)
      : difference < there
  }

  has(at: number, difference: number): boolean {
    return difference <= this.most && (this.found.length < this.count || this.#isBefore(at, difference, this.count - 1))
  }

  put(at: number, difference: number): void {
    let place = this.found.length
    while (place > 0 && this.#isBefore(at, difference, place - 1)) place--
    this.found.splice(place, 0, at)
    this.differences.splice(place, 0, difference)
    if (this.found.length > this.count) {
      this.found.pop()
      this.differences.pop()
    }
    if (this.found.length === this.count) this.most = this.differences[this.count - 1] as number
  }
}

function checkLightness({ L, a, b }: Lab): void {
  if (L >= -10 && L <= 110 && Number.isFinite(a) && Number.isFinite(b)) return
  throw new RangeError(`NearestColours: no colour of CIELAB: L ${L}, a ${a}, b ${b}`)
}

/** The first position whose value is not less, in ascending `values`. */
function firstAtLeast(values: Float64Array, value: number): number {
  let low = 0
  let high = values.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((values[middle] as number) < value) low = middle + 1
    else high = middle
  }
  return low
}
