import type { Run } from './runs'

/**
 * Rows put together by a key, so that each key has one heading: the keys in the order they first come in, the rows of one as they came.
 *
 * @param headOf  what stands above the rows of one key
 */
export function inRuns<Row>(
  rows: readonly Row[],
  keyOf: (row: Row) => string,
  headOf: (rows: readonly Row[]) => Pick<Run, 'title' | 'note'>,
): { rows: Row[]; runs: Run[] } {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const key = keyOf(row)
    const group = groups.get(key)
    if (group) group.push(row)
    else groups.set(key, [row])
  }
  const runs: Run[] = []
  let first = 0
  for (const group of groups.values()) {
    runs.push({ ...headOf(group), first })
    first += group.length
  }
  return { rows: [...groups.values()].flat(), runs }
}
