/** One record as it stands in the text, and its row number as a spreadsheet counts it (the first is 1, blank ones count). */
export type RawRecord = {
  text: string
  rowNumber: number
  /** `unclosed`: a quote is opened and never closed. `stray`: something other than a separator follows a closing quote. */
  fault: 'unclosed' | 'stray' | null
  fields: number
  /** The cells' texts, quotes taken off (RFC 4180, section 2, rules 5 to 7); none where the quoting is at fault. */
  cells: string[]
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
    yield { text: text.slice(at, record.end), rowNumber, ...record }
    at = afterLineEnd(text, record.end)
    rowNumber++
  }
}

function readRecord(text: string, start: number, separator: string, longestCell: number) {
  const mark = separator.charCodeAt(0)
  const cells: string[] = []
  let at = start
  for (;;) {
    const from = at
    let quoted: string | null = null
    if (text.charCodeAt(at) === quoteMark) {
      const close = closingQuote(text, at + 1, longestCell)
      if (close === null) return { end: lineEnd(text, start), fault: 'unclosed' as const, fields: cells.length + 1, cells: [] }
      at = close + 1
      if (at < text.length && text.charCodeAt(at) !== mark && !isLineEnd(text.charCodeAt(at))) {
        return { end: lineEnd(text, start), fault: 'stray' as const, fields: cells.length + 1, cells: [] }
      }
      quoted = text.slice(from + 1, close)
    }
    let letter = text.charCodeAt(at)
    while (at < text.length && letter !== mark && !isLineEnd(letter)) letter = text.charCodeAt(++at)
    cells.push(quoted === null ? text.slice(from, at) : quoted.includes('"') ? quoted.replaceAll('""', '"') : quoted)
    if (at >= text.length || letter !== mark) return { end: at, fault: null, fields: cells.length, cells }
    at++
  }
}

const quoteMark = 0x22

function closingQuote(text: string, from: number, longestCell: number): number | null {
  for (let at = from; ; at += 2) {
    at = text.indexOf('"', at)
    // Twice the longest cell: every letter of it may be a doubled quote. Beyond that the quote counts as never closed.
    if (at === -1 || at - from > 2 * longestCell) return null
    if (text[at + 1] !== '"') return at
  }
}

const isLineEnd = (letter: number): boolean => letter === 0x0a || letter === 0x0d

function lineEnd(text: string, from: number): number {
  let at = from
  while (at < text.length && !isLineEnd(text.charCodeAt(at))) at++
  return at
}

const afterLineEnd = (text: string, at: number): number => (text[at] === '\r' && text[at + 1] === '\n' ? at + 2 : at + 1)
