import 'server-only'
import type { Lab } from '#lib/colour/lab'

/** A colour from its three columns; null where none is on record. */
export const labOf = (row: { labL: number | null; labA: number | null; labB: number | null }): Lab | null =>
  row.labL === null || row.labA === null || row.labB === null ? null : { L: row.labL, a: row.labA, b: row.labB }
