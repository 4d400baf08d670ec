import type { CutBox, CutWay } from './cut-plan'

/** Where one of the repeated pieces lies, from the lower left corner. */
export type LaidBox = CutBox & { isTurned: boolean }

export type MostFrom = {
  copies: number
  boxes: LaidBox[]
  /** Proved that straight cuts from edge to edge give no more, or as many as were asked for are there. */
  isProved: boolean
}

type Side = { widthUm: number; heightUm: number }

/** Beyond so many comparisons (some 50 ms) strips of one way each have to do, and nothing is proved. */
const mostComparisons = 10_000_000

/**
 * How many pieces of one repeated size come out of a rectangle of cloth by straight cuts from edge to edge, and how they lie.
 *
 * In one way round alone it is ⌊W ÷ w⌋ × ⌊H ÷ h⌋. Where the piece may lie both ways, every sheet is either left whole or cut in two at a
 * sum of sides, which loses nothing, since each half can be pushed together against its edge (Herz, "Recursive computational procedure
 * for two-dimensional stock cutting", IBM J. Res. Dev. 16, 1972): the best of all such cuts is found by going through all pairs of
 * sums. The two ways need not be each other turned, as on cloth that is not square. Strips alone are not enough: 2 × 3 comes
 * five times out of 5 × 6 (two in a column beside three turned), strips give four.
 *
 * Cloth lost along a cut is added to the sheet and to every piece once, which is the same.
 *
 * @param ways    how the piece may lie, one way or two; whole micrometres
 * @param enough  stop as soon as so many are found
 * @throws {RangeError} if a side of a way is not a whole number above nought, or there are more than two ways
 */
export function mostFrom(
  sheet: Side,
  ways: readonly CutWay[],
  { gapUm, enough = Number.POSITIVE_INFINITY }: { gapUm: number; enough?: number },
): MostFrom {
  if (ways.length > 2) throw new RangeError(`mostFrom: ${ways.length} ways`)
  for (const { widthUm, heightUm } of ways)
    if (!(Number.isSafeInteger(widthUm) && Number.isSafeInteger(heightUm) && widthUm > 0 && heightUm > 0))
      throw new RangeError(`mostFrom: ${widthUm} × ${heightUm} µm`)
  const [wide, high] = [Math.floor(sheet.widthUm) + gapUm, Math.floor(sheet.heightUm) + gapUm]
  const padded = ways
    .map((way) => ({ ...way, widthUm: way.widthUm + gapUm, heightUm: way.heightUm + gapUm }))
    .filter(({ widthUm, heightUm }) => widthUm <= wide && heightUm <= high)
  const finish = (boxes: LaidBox[], isProved: boolean): MostFrom => ({
    copies: Math.min(boxes.length, enough),
    boxes: boxes.slice(0, enough).map((box) => ({ ...box, widthUm: box.widthUm - gapUm, heightUm: box.heightUm - gapUm })),
    isProved,
  })
  if (padded.length === 0) return finish([], true)
  const plain = padded.map((way) => strips({ widthUm: wide, heightUm: high }, way)).sort((a, b) => b.length - a.length)[0] ?? []
  const byArea = Math.floor((wide * high) / Math.min(...padded.map(({ widthUm, heightUm }) => widthUm * heightUm)))
  if (padded.length === 1 || plain.length >= Math.min(enough, byArea)) return finish(plain, true)

  const xs = sumsOf(
    padded.map(({ widthUm }) => widthUm),
    wide,
  )
  const ys = sumsOf(
    padded.map(({ heightUm }) => heightUm),
    high,
  )
  if (xs === null || ys === null || xs.length * ys.length * (xs.length + ys.length) > 2 * mostComparisons)
    return finish(plain, false)
  return finish(new CutTable(xs, ys, padded).boxes(), true)
}

/** The same way everywhere, row by row from the foot. */
function strips(sheet: Side, { widthUm, heightUm, isTurned }: CutWay): LaidBox[] {
  const [across, rows] = [Math.floor(sheet.widthUm / widthUm), Math.floor(sheet.heightUm / heightUm)]
  return Array.from({ length: across * rows }, (_, at) => ({
    xUm: (at % across) * widthUm,
    yUm: Math.floor(at / across) * heightUm,
    ...{ widthUm, heightUm, isTurned },
  }))
}

/** All sums of sides up to a length, rising, nought the first; null when there are more than can be gone through. */
function sumsOf(sides: readonly number[], mostUm: number): number[] | null {
  const [one = mostUm + 1, other = mostUm + 1] = sides
  if ((mostUm / one + 1) * (mostUm / other + 1) > mostComparisons / 10) return null
  const sums = new Set<number>()
  for (let a = 0; a <= mostUm; a += one) for (let b = a; b <= mostUm; b += other) sums.add(b)
  return [...sums].sort((a, b) => a - b)
}

/** The most copies out of every sheet whose sides are sums. */
class CutTable {
  readonly #xs: readonly number[]
  readonly #ys: readonly number[]
  readonly #ways: readonly CutWay[]
  readonly #most: Int32Array

  constructor(xs: readonly number[], ys: readonly number[], ways: readonly CutWay[]) {
    this.#xs = xs
    this.#ys = ys
    this.#ways = ways
    this.#most = new Int32Array(xs.length * ys.length)
    const [restX, restY] = [rests(xs), rests(ys)]
    const high = ys.length
    for (let x = 1; x < xs.length; x++) {
      for (let y = 1; y < high; y++) {
        let best = this.#wayAt(x, y) === null ? 0 : 1
        for (let at = 1; (xs[at] as number) * 2 <= (xs[x] as number); at++) {
          const copies = (this.#most[at * high + y] as number) + (this.#most[restX(x, at) * high + y] as number)
          if (copies > best) best = copies
        }
        for (let at = 1; (ys[at] as number) * 2 <= (ys[y] as number); at++) {
          const copies = (this.#most[x * high + at] as number) + (this.#most[x * high + restY(y, at)] as number)
          if (copies > best) best = copies
        }
        this.#most[x * high + y] = best
      }
    }
  }

  #wayAt(x: number, y: number): CutWay | null {
    const [wide, high] = [this.#xs[x] as number, this.#ys[y] as number]
    return this.#ways.find(({ widthUm, heightUm }) => widthUm <= wide && heightUm <= high) ?? null
  }

  /** How they lie in the largest sheet. Cuts across come first where as good, so that rows stay rows. */
  boxes(): LaidBox[] {
    const boxes: LaidBox[] = []
    const [xs, ys, most] = [this.#xs, this.#ys, this.#most]
    const [restX, restY] = [rests(xs), rests(ys)]
    const high = ys.length
    const lay = (x: number, y: number, xUm: number, yUm: number): void => {
      const copies = most[x * high + y] as number
      if (copies === 0) return
      for (let at = 1; (ys[at] as number) * 2 <= (ys[y] as number); at++) {
        const rest = restY(y, at)
        if ((most[x * high + at] as number) + (most[x * high + rest] as number) !== copies) continue
        lay(x, at, xUm, yUm)
        lay(x, rest, xUm, yUm + (ys[at] as number))
        return
      }
      for (let at = 1; (xs[at] as number) * 2 <= (xs[x] as number); at++) {
        const rest = restX(x, at)
        if ((most[at * high + y] as number) + (most[rest * high + y] as number) !== copies) continue
        lay(at, y, xUm, yUm)
        lay(rest, y, xUm + (xs[at] as number), yUm)
        return
      }
      const way = this.#wayAt(x, y)
      if (way) boxes.push({ xUm, yUm, widthUm: way.widthUm, heightUm: way.heightUm, isTurned: way.isTurned })
    }
    lay(xs.length - 1, ys.length - 1, 0, 0)
    return boxes
  }
}

/** For a sum and one cut off it, the largest sum not beyond what remains; read for rising cuts, it goes down step by step. */
function rests(sums: readonly number[]): (whole: number, cut: number) => number {
  let lastWhole = -1
  let at = 0
  return (whole, cut) => {
    if (whole !== lastWhole || cut === 1) {
      lastWhole = whole
      at = whole
    }
    const restUm = (sums[whole] as number) - (sums[cut] as number)
    while ((sums[at] as number) > restUm) at--
    return at
  }
}
