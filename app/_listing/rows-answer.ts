import type { Run } from '#lib/listing/runs'

/** Rows drawn and fetched at a time while a long list is scrolled. */
export const rowsAtOnce = 100

/** Some rows of a long list, as its own address answers them. */
export type RowsAnswer<Row> = {
  /** Of the collection; rows of another one are not put beside these. */
  revision: number
  total: number
  runs: readonly Run[]
  from: number
  rows: readonly Row[]
}
