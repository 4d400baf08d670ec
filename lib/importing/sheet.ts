/** One sheet of a workbook, or a whole text file, as rows of cells before anything is made of them. */
export type Sheet = {
  /** In their order; rows with nothing in them are left out. */
  rows: SheetRow[]
  /** Cells joined into one, by row number and column from 0; the first of them holds what stands there. */
  merges: Merge[]
  /** What is known of some cells beyond their text. */
  marks: CellMark[]
}

export type SheetRow = {
  /** As a spreadsheet shows it: the first is 1. */
  rowNumber: number
  cells: string[]
  /** Why the row cannot be read: a quotation mark out of place, in a text file. */
  fault: 'unclosed' | 'stray' | null
  /** As it stands in a text file, for showing a row that cannot be read. */
  raw: string | null
}

export type Merge = { top: number; left: number; bottom: number; right: number }

export type CellMark = { rowNumber: number; column: number } & CellMarkKind

export type CellMarkKind =
  /** A note hangs on the cell. */
  | { kind: 'note'; text: string }
  /** The workbook holds a day here, whatever it looks like. */
  | { kind: 'day' }
  /** Worked out by a formula; what the workbook last showed is taken. */
  | { kind: 'formula' }
  /** A formula that the workbook holds no answer of. */
  | { kind: 'formula-without-answer' }
  /** The workbook shows an error such as #N/A; the cell counts as blank. */
  | { kind: 'error'; text: string }
