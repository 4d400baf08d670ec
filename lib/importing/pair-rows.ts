/**
 * Pair rows with what is there, each at most once: first all pairs that pass the first test, then of those left the second, and so on.
 * Within a test both sides are taken in the order given, so give them in an order of their own.
 *
 * @returns every row, with its counterpart or null.
 */
export function pairRows<Row, There>(
  rows: readonly Row[],
  there: readonly There[],
  tests: readonly ((row: Row, there: There) => boolean)[],
): [Row, There | null][] {
  const paired = new Map<Row, There>()
  const free = new Set(there)
  for (const test of tests) {
    for (const row of rows) {
      if (paired.has(row)) continue
      for (const candidate of free) {
        if (!test(row, candidate)) continue
        paired.set(row, candidate)
        free.delete(candidate)
        break
      }
    }
  }
  return rows.map((row) => [row, paired.get(row) ?? null])
}
