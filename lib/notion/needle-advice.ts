/** Sizes of blunt tapestry needle, the coarser first: a larger number is a finer needle. */
export type NeedleSizes = { coarsest: number; finest: number }

/**
 * Common practice, not a standard: guides differ by one size, and what passes the cloth without pushing its threads apart is right.
 * Twenty-eight to the inch is cloth of that count or finer worked over one thread.
 */
const commonSizes: readonly (NeedleSizes & { stitchesPerInch: number })[] = [
  { stitchesPerInch: 11, coarsest: 22, finest: 24 },
  { stitchesPerInch: 14, coarsest: 24, finest: 24 },
  { stitchesPerInch: 16, coarsest: 24, finest: 26 },
  { stitchesPerInch: 18, coarsest: 26, finest: 26 },
  { stitchesPerInch: 20, coarsest: 26, finest: 28 },
  { stitchesPerInch: 28, coarsest: 28, finest: 28 },
]

/** The stitches to the inch that common practice names a needle for. */
export const advisedStitchesPerInch = commonSizes.map(({ stitchesPerInch }) => stitchesPerInch)

/** Tapestry needles go by even numbers; the table has none finer than its last. */
const sizeStep = 2
const finestOfAll = 28
/** Coarser than this the table says nothing. */
const fewestPerInch = 9

/**
 * Which blunt needle is usually taken: the row nearest to these stitches to the inch, of two as near the finer. Backstitch takes one
 * size finer, as far as there is one.
 *
 * @returns null below nine stitches to the inch
 * @throws {RangeError} if it is not a number above nought
 */
export function adviseNeedle(stitchesPerInch: number, { isBackstitch }: { isBackstitch: boolean }): NeedleSizes | null {
  if (!(stitchesPerInch > 0 && Number.isFinite(stitchesPerInch))) throw new RangeError(`adviseNeedle: ${stitchesPerInch}`)
  if (stitchesPerInch < fewestPerInch) return null
  const distance = (row: { stitchesPerInch: number }) => Math.abs(row.stitchesPerInch - stitchesPerInch)
  const { coarsest, finest } = commonSizes.reduce((best, row) => (distance(row) <= distance(best) ? row : best))
  const finer = (size: number) => Math.min(finestOfAll, size + (isBackstitch ? sizeStep : 0))
  return { coarsest: finer(coarsest), finest: finer(finest) }
}
