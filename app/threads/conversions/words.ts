import { say } from '#language/say'
import type { ConversionRefused } from '#lib/db/thread/conversions'
import type { OpinionListRefused } from '#lib/db/thread/read-opinion-list'
import type { RowProblem } from '#lib/importing/read-table'
import type { UnreadRow } from '#lib/thread/substitution-opinions'
import { listed } from '#words/amounts'

export function describeConversionRefusal(refusal: ConversionRefused): string {
  switch (refusal.kind) {
    case 'no-name':
      return say('Whose list is it? Give a name to know it by.')
    case 'nothing-said':
      return say('Nothing in it reads as two threads on record, so there is nothing to keep.')
    case 'no-such-thread':
      return say('A thread of the list was removed meanwhile. Open the preview again.')
    case 'no-such-list':
      return say('That list was removed meanwhile.')
  }
}

/** Why a text or file is no list. */
export function describeListRefusal(refusal: OpinionListRefused): string {
  switch (refusal.kind) {
    case 'empty':
    case 'no-rows':
      return say('There is nothing in it.')
    case 'too-large':
    case 'too-many-rows':
    case 'too-many-columns':
      return say('It is too large for a list. Bring it in in parts.')
    case 'looks-like-xlsx':
      return say('It is a workbook. Save the sheet as CSV and choose that.')
    case 'binary':
      return say('It is no text. Save it as CSV and choose that.')
    case 'header-row-broken':
      return say('Row {rowNumber} has a quotation mark that is not closed.', { rowNumber: refusal.rowNumber })
  }
}

/** Why a row was kept aside. */
export function describeUnread(row: UnreadRow, nameOf: (threadId: string) => string): string {
  switch (row.kind) {
    case 'not-two-threads':
      return say('It does not name two threads.')
    case 'no-such-thread':
      return row.near.length > 0
        ? say('No thread is called {text}. Codes are exact; near it: {near}.', {
            text: row.text,
            near: listed(row.near.map(nameOf)),
          })
        : say('No thread is called {text}.', { text: row.text })
    case 'several-threads':
      return say('{text} may be {threadIds}. Give the maker too, or choose the line.', {
        text: row.text,
        threadIds: listed(row.threadIds.map(nameOf)),
      })
    case 'same-thread':
      return say('Both are {nameOf}.', { nameOf: nameOf(row.threadId) })
    case 'said-twice':
      return say('Said already further up.')
  }
}

export function describeProblem(problem: RowProblem): string {
  switch (problem.kind) {
    case 'unclosed-quote':
    case 'stray-quote':
      return say('A quotation mark is not closed.')
    case 'more-cells-than-headers':
      return say('It has more than six columns.')
    case 'cell-too-long':
      return say('A cell is too long.')
  }
}
