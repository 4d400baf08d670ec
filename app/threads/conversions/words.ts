import type { ConversionRefused } from '#lib/db/thread/conversions'
import type { OpinionListRefused } from '#lib/db/thread/read-opinion-list'
import type { RowProblem } from '#lib/importing/read-table'
import type { UnreadRow } from '#lib/thread/substitution-opinions'
import { listed } from '#words/amounts'

export function describeConversionRefusal(refusal: ConversionRefused): string {
  switch (refusal.kind) {
    case 'no-name':
      return 'Whose list is it? Give a name to know it by.'
    case 'nothing-said':
      return 'Nothing in it reads as two threads on record, so there is nothing to keep.'
    case 'no-such-thread':
      return 'A thread of the list was removed meanwhile. Open the preview again.'
    case 'no-such-list':
      return 'That list was removed meanwhile.'
  }
}

/** Why a text or file is no list. */
export function describeListRefusal(refusal: OpinionListRefused): string {
  switch (refusal.kind) {
    case 'empty':
    case 'no-rows':
      return 'There is nothing in it.'
    case 'too-large':
    case 'too-many-rows':
    case 'too-many-columns':
      return 'It is too large for a list. Bring it in in parts.'
    case 'looks-like-xlsx':
      return 'It is a workbook. Save the sheet as CSV and choose that.'
    case 'binary':
      return 'It is no text. Save it as CSV and choose that.'
    case 'header-row-broken':
      return `Row ${refusal.rowNumber} has a quotation mark that is not closed.`
  }
}

/** Why a row was kept aside. */
export function describeUnread(row: UnreadRow, nameOf: (threadId: string) => string): string {
  switch (row.kind) {
    case 'not-two-threads':
      return 'It does not name two threads.'
    case 'no-such-thread':
      return row.near.length > 0
        ? `No thread is called ${row.text}. Codes are exact; near it: ${listed(row.near.map(nameOf))}.`
        : `No thread is called ${row.text}.`
    case 'several-threads':
      return `${row.text} may be ${listed(row.threadIds.map(nameOf))}. Give the maker too, or choose the line.`
    case 'same-thread':
      return `Both are ${nameOf(row.threadId)}.`
    case 'said-twice':
      return 'Said already further up.'
  }
}

export function describeProblem(problem: RowProblem): string {
  switch (problem.kind) {
    case 'unclosed-quote':
    case 'stray-quote':
      return 'A quotation mark is not closed.'
    case 'more-cells-than-headers':
      return 'It has more than six columns.'
    case 'cell-too-long':
      return 'A cell is too long.'
  }
}
