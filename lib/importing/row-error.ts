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
