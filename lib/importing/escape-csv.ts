/** A text cell beginning with one of these, behind any apostrophes, is or becomes a formula when a spreadsheet opens the file. */
const formulaLead = /^'*[=+\-@\t\r\n\0]/
const plainNumber = /^[+-]?\d+(?:[.,]\d+)?$/

/**
 * Write rows as CSV (RFC 4180: commas, CRLF, quotes doubled) that a spreadsheet can open without running anything.
 *
 * Texts that begin like a formula get an apostrophe in front (OWASP, "CSV Injection"); numbers never do, given as numbers or as the
 * text of a plain one, so -5 stays -5. A text that already begins with apostrophes and such a sign gets one more, so that
 * `unescapeCell` finds the exact text again.
 */
export function toCsv(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((cells) => `${cells.map(writeCell).join(',')}\r\n`).join('')
}

function writeCell(cell: string | number | null): string {
  if (cell === null) return ''
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell)) throw new RangeError(`toCsv: ${cell} cannot be written`)
    return String(cell)
  }
  const text = escapeCell(cell)
  return text !== cell || /[",;\t\r\n|]|^\s|\s$/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

const escapeCell = (cell: string): string => (formulaLead.test(cell) && !plainNumber.test(cell) ? `'${cell}` : cell)

/** Take off the apostrophe `toCsv` put on, so that a file written here and brought back in says the same. */
export const unescapeCell = (cell: string): string => (cell.startsWith("'") && formulaLead.test(cell) ? cell.slice(1) : cell)
