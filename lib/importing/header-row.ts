import { countKnownHeaders, isKnownHeader } from './header-words'
import { readHeader } from './read-header'
import type { Merge, Sheet, SheetRow } from './sheet'

/** Which rows a person says the headers stand in; what is left out is found. */
export type HeaderChoice = { headerRowNumber?: number; headerRows?: 1 | 2 }

export type HeadersFound = { header: SheetRow; second: SheetRow | null }

/**
 * Find the row of the headers, and the row under it where it belongs to them: of the first rows the one with most words known from
 * headers, if that is two or more; else the first whose filled cells are at least two thirds of the widest row's, all different, none a
 * number; else the first row there is.
 *
 * @param all  every row, for a header row chosen further down
 */
export function findHeaders(
  first: readonly SheetRow[],
  { merges }: Pick<Sheet, 'merges'>,
  choice: HeaderChoice,
  all: readonly SheetRow[] = first,
): HeadersFound | null {
  const at =
    choice.headerRowNumber === undefined ? findHeaderRow(first) : all.findIndex((row) => row.rowNumber === choice.headerRowNumber)
  const header = all[at]
  if (header === undefined) return null
  if (choice.headerRows !== undefined) return { header, second: choice.headerRows === 2 ? (all[at + 1] ?? null) : null }
  const known = countKnownHeaders(header.cells)
  const next = all[at + 1]
  if (next && all.length > at + 2 && belongs(header, next, merges, known)) return { header, second: next }
  // The row with most known words may be the lower of the two.
  const before = all[at - 1]
  if (choice.headerRowNumber === undefined && before && belongs(before, header, merges, known))
    return { header: before, second: header }
  return { header, second: null }
}

/** Read together the two rows say more than one of them alone, and there is nothing in the lower that is not a word of headers. */
function belongs(header: SheetRow, second: SheetRow, merges: readonly Merge[], knownAlone: number): boolean {
  const words = second.cells.filter((cell) => cell.trim() !== '')
  if (words.length === 0 || header.fault !== null || second.fault !== null) return false
  if (!words.every((cell) => isUnit(cell) || isKnownHeader(cell))) return false
  const together = mergedHeaders(header, second, merges)
  // A row of units says nothing new by itself; it has to stand under headers that have units.
  return countKnownHeaders(together) > knownAlone || (words.every(isUnit) && countKnownHeaders(together) >= knownAlone)
}

const isUnit = (cell: string): boolean => readHeader(`x ${bare(cell)}`).unit !== null

/** `(cm)`, `[in]`, `in cm` without what stands around the unit. */
const bare = (cell: string): string => cell.trim().replace(/^[([]\s*|\s*[)\]]$/gu, '')

/** The headers of one row, or of two read together: `Size` over `Width` is `Width`, and `Width` over `cm` is `Width (cm)`. */
export function mergedHeaders(header: SheetRow, second: SheetRow | null, merges: readonly Merge[]): string[] {
  if (second === null) return header.cells
  const upper = acrossJoined(header, second, merges)
  const width = Math.max(upper.length, second.cells.length)
  return Array.from({ length: width }, (_, at) => {
    const above = (upper[at] ?? '').trim()
    const below = (second.cells[at] ?? '').trim()
    if (below === '' || above === '') return above || below
    if (isUnit(below)) return `${above} (${bare(below)})`
    return isKnownHeader(below) ? below : `${above} ${below}`
  })
}

/** A header joined across columns, or standing over blank ones that have a word of their own below, is each of theirs. */
function acrossJoined(header: SheetRow, second: SheetRow, merges: readonly Merge[]): string[] {
  const cells = [...header.cells]
  for (const { top, bottom, left, right } of merges) {
    if (header.rowNumber < top || header.rowNumber > bottom || right - left > 500) continue
    for (let at = left + 1; at <= right; at++) {
      while (cells.length <= at) cells.push('')
      cells[at] ||= cells[left] ?? ''
    }
  }
  for (let at = 1; at < second.cells.length; at++) {
    if ((cells[at] ?? '').trim() !== '' || (second.cells[at] ?? '').trim() === '') continue
    while (cells.length <= at) cells.push('')
    cells[at] = cells[at - 1] ?? ''
  }
  return cells
}

const filled = (row: SheetRow): string[] => row.cells.filter((cell) => cell.trim() !== '')

function findHeaderRow(rows: readonly SheetRow[]): number {
  let best = -1
  let most = 1
  rows.forEach((row, at) => {
    const known = countKnownHeaders(row.cells)
    if (known <= most) return
    best = at
    most = known
  })
  if (best !== -1) return best
  const widest = Math.max(0, ...rows.map((row) => filled(row).length))
  const likely = rows.findIndex((row) => {
    const cells = filled(row)
    return (
      cells.length * 3 >= widest * 2 && new Set(cells).size === cells.length && !cells.some((cell) => /^[\d.,\s-]+$/.test(cell))
    )
  })
  return likely === -1 ? (rows.length > 0 ? 0 : -1) : likely
}
