import 'server-only'
import type { Lab } from '#lib/colour/lab'
import type { Cell } from './read-snapshot'

// Cells of `readSnapshot` as what their column holds; the schema says which can be null.

export const text = (cell: Cell | undefined): string => String(cell)
export const textOrNull = (cell: Cell | undefined): string | null => (cell === null || cell === undefined ? null : String(cell))
export const number = (cell: Cell | undefined): number => Number(cell)
export const numberOrNull = (cell: Cell | undefined): number | null => (cell === null || cell === undefined ? null : Number(cell))
export const isTrue = (cell: Cell | undefined): boolean => Number(cell) === 1

/** The three columns of a colour, all null when there is none. */
export const labOfCells = (L: Cell | undefined, a: Cell | undefined, b: Cell | undefined): Lab | null =>
  L === null || L === undefined ? null : { L: Number(L), a: Number(a), b: Number(b) }

/** `column IN (…)` for some ids, or nothing at all for every row. */
export function among(column: string, ids: readonly string[] | null): { sql: string; values: Cell[] } {
  return ids === null
    ? { sql: '', values: [] }
    : { sql: ` AND ${column} IN (${ids.map(() => '?').join(', ') || 'NULL'})`, values: [...ids] }
}
