/** Facts about a cell or row that keeps a row out; `accepted` lists what would have been taken, or what is near. */
export type RowError = {
  /** As a spreadsheet shows it. */
  rowNumber: number
  /** The field that is wrong; null when it is the row as a whole. */
  field: string | null
  /** The header of its column; null when the file has no such column. */
  column: string | null
  kind: RowErrorKind
  raw: string
  accepted?: string[]
}

export type RowErrorKind =
  // The row could not be read.
  | 'unclosed-quote'
  | 'stray-quote'
  | 'more-cells-than-headers'
  | 'cell-too-long'
  // A cell could not be read.
  | 'missing'
  | 'not-a-number'
  | 'not-a-whole-number'
  | 'out-of-range'
  | 'unknown-word'
  | 'not-yes-or-no'
  | 'not-a-thread-length'
  | 'not-a-cloth-length'
  | 'not-a-size'
  | 'not-a-count'
  | 'not-a-part'
  | 'not-a-date'
  | 'not-a-price'
  | 'not-a-colour'
  | 'not-a-thread'
  | 'too-long'
  | 'half-a-size'
  | 'half-a-colour'
  | 'mixed-units'
  | 'blend-parts-differ'
  | 'part-given-twice'
  | 'dates-out-of-order'
  // It does not go with what is there, or with other rows.
  | 'unknown-design'
  | 'which-design'
  | 'which-chart'
  | 'unknown-list'
  | 'unknown-cloth'
  | 'which-line'
  | 'inside-itself'
  | 'repeated-label'

/** Something worth a look that keeps no row out. */
export type RowWarning = Omit<RowError, 'kind'> & { kind: RowWarningKind }

export type RowWarningKind =
  | 'code-looks-like-date'
  | 'code-looks-like-power'
  /** A known code of the line differs only by zeros in front, case, spaces or dashes, as when a spreadsheet took the zeros off. */
  | 'code-nearly-known'
  | 'cell-looks-like-formula'
  /** The workbook holds a day where the field is no day: `1/2` and `3-12` become days where they are typed. */
  | 'text-became-day'
  /** The cell shows an error such as #N/A and counts as blank. */
  | 'cell-shows-error'
  /** A formula whose answer the workbook does not hold; the cell counts as blank. */
  | 'formula-without-answer'
  /** Cells of this column are worked out by formulas: what the workbook last showed was taken. Said once, with how many. */
  | 'formulas-taken'
  /** A cell joined from several rows was taken for each of them. Said once, with how many. */
  | 'merged-cells-filled'
  /** A row of totals, and the headers again further down, were passed over. */
  | 'totals-row'
  | 'headers-again'
  /** A cell of a drawer names more threads than can be told of one. */
  | 'more-codes-than-can-be-told'
  /** A note hangs on a cell, and this kind of file has nowhere to keep it. */
  | 'note-not-kept'
  /** The row says another home than the batch has that an earlier file brought in; it goes there, or stands beside it. */
  | 'batch-moved'
  | 'batch-perhaps-moved'
  | 'date-could-be-two'
  | 'over-assumed'
  | 'strands-assumed'
  | 'weave-assumed'
  | 'dyeing-assumed'
  | 'count-not-square'
  | 'amount-not-said'
  /** Rows that speak of one thing say different things; the value of most rows was taken, of equally many the first in order. */
  | 'rows-disagree'
  | 'repeated-row'
  /** Other rows of this list were refused. */
  | 'list-incomplete'
  | 'line-assumed'
  /** The place named by it has another label now, or went into another place. */
  | 'old-label'
  /** The thread, chart or designer was merged with another, and is that one now. */
  | 'former-name'
