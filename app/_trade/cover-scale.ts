/** One scale for all rows of a table of bars. Lengths in whatever unit the table speaks, metres or yards. */
export type CoverScale = { full: number; step: number }

/**
 * A scale on which every need fits and most of what is free shows: up to a quarter beyond the longest need, ending on a mark.
 * Marks stand at 1, 2 or 5 times a power of ten, at most six of them.
 *
 * @throws {RangeError} if a need is not a finite number of 0 or more.
 */
export function coverScale(needs: readonly number[]): CoverScale {
  for (const need of needs) if (!Number.isFinite(need) || need < 0) throw new RangeError(`coverScale: need ${need}`)
  const longest = Math.max(...needs, 0) * 1.25 || 1
  const power = 10 ** Math.floor(Math.log10(longest / 6))
  const step = power * ([1, 2, 5, 10].find((factor) => longest / (power * factor) <= 6) ?? 10)
  return { full: Math.ceil(longest / step - 1e-9) * step, step }
}

/** The figures at the marks, from 0 on. */
export function listScaleMarks({ full, step }: CoverScale): number[] {
  return Array.from({ length: Math.round(full / step) + 1 }, (_, index) => Number((index * step).toPrecision(6)))
}

export type CoverBarBox = {
  /** In the same units as `width`, from the left. */
  need: number
  free: number
  wanting: { from: number; to: number } | null
  runsOn: boolean
}

/** Where the parts of one bar end, on a drawing `width` wide. */
export function coverBarBox(lengths: { need: number; free: number }, scale: CoverScale, width: number): CoverBarBox {
  const at = (length: number) => (Math.min(length, scale.full) / scale.full) * width
  const need = at(lengths.need)
  const free = at(lengths.free)
  return {
    need,
    free,
    wanting: lengths.free < lengths.need ? { from: free, to: need } : null,
    runsOn: lengths.free > scale.full,
  }
}
