/** One record as it stands in the text, and its row number as a spreadsheet counts it (the first is 1, blank ones count). */
export type RawRecord = {
  text: string
  rowNumber: number
  /** `unclosed`: a quote is opened and never closed. `stray`: something other than a separator follows a closing quote. */
  fault: 'unclosed' | 'stray' | null
  fields: number
}

/**
 * Part a text into records, minding quotes (RFC 4180, section 2, rules 5 to 7), any of LF, CRLF and CR ending a record.
 *
 * A quote that is opened and not properly closed would swallow every row after it. So a record whose quoting is at fault ends with its
 * own line, is marked, and reading goes on with the next line: one bad row loses no others.
 *
 * Time grows with the length of the text, plus for each faulty quote the way to the quote that ends it, at most `longestCell` letters.
 */
export function* splitRecords(text: string, separator: string, longestCell: number): Generator<RawRecord> {
  let at = 0
  let rowNumber = 1
  while (at < text.length) {
    const record = readRecord(text, at, separator, longestCell)
    yield { text: text.slice(at, record.end), rowNumber, fault: record.fault, fields: record.fields }
    at = afterLineEnd(text, record.end)
    rowNumber++
  }
}

function readRecord(text: string, start: number, separator: string, longestCell: number) {
  let at = start
  let fields = 1
  for (;;) {
    if (text[at] === '"') {
      const close = closingQuote(text, at + 1, longestCell)
      if (close === null) return { end: lineEnd(text, start), fault: 'unclosed' as const, fields }
      at = close + 1
      if (at < text.length && text[at] !== separator && !isLineEnd(text[at])) {
        return { end: lineEnd(text, start), fault: 'stray' as const, fields }
      }
    }
    while (at < text.length && text[at] !== separator && !isLineEnd(text[at])) at++
    if (text[at] !== separator) return { end: at, fault: null, fields }
    fields++
    at++
  }
}

function closingQuote(text: string, from: number, longestCell: number): number | null {
  for (let at = from; ; at += 2) {
    at = text.indexOf('"', at)
    // Twice the longest cell: every letter of it may be a doubled quote. Beyond that the quote counts as never closed.
    if (at === -1 || at - from > 2 * longestCell) return null
    if (text[at + 1] !== '"') return at
  }
}

const isLineEnd = (letter: string | undefined): boolean => letter === '\n' || letter === '\r'

function lineEnd(text: string, from: number): number {
  let at = from
  while (at < text.length && !isLineEnd(text[at])) at++
  return at
}

const afterLineEnd = (text: string, at: number): number => (text[at] === '\r' && text[at + 1] === '\n' ? at + 2 : at + 1)
