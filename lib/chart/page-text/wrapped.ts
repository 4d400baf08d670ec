import { codeLike, symbolLike } from './looks'
import type { Piece } from './pieces'

/** A line in the making: its words by column, and where it stands. `spans`: it goes across the columns. */
export type CellRow = { cells: Piece[][]; centre: number; spans: boolean }

/** Lines of one entry are no further apart than this, in heights of type. */
const tightLeading = 1.5

const isFull = (cell: readonly Piece[] | undefined): boolean => cell !== undefined && cell.length > 0

/**
 * Join what was wrapped within its cell to the line it belongs to: rows that hold words in one or two columns only, none of them the first,
 * none a code or a figure, close above or below a fuller row. A name set in the middle of its row's height begins above the row.
 */
export function joinWrapped(rows: readonly CellRow[], height: number): CellRow[] {
  const usual = usualStep(rows, height)
  const joined: (CellRow & { last: number; first: number })[] = []
  let waiting: CellRow[] = []
  for (const [at, row] of rows.entries()) {
    const before = joined.at(-1)
    if (!isContinuation(row)) {
      const whole = { ...row, cells: row.cells.map((cell) => [...cell]), last: row.centre, first: row.centre }
      for (const part of waiting.reverse()) addBefore(whole, part)
      waiting = []
      joined.push(whole)
      continue
    }
    const next = rows.slice(at + 1).find((other) => !isContinuation(other))
    const columns = row.cells.flatMap((cell, column) => (isFull(cell) ? [column] : []))
    const toNext = next && !next.spans ? next.centre - row.centre : Number.POSITIVE_INFINITY
    const toBefore = before && !before.spans && waiting.length === 0 ? row.centre - before.last : Number.POSITIVE_INFINITY
    const nextLacks = next !== undefined && columns.every((column) => !isFull(next.cells[column]))
    // Set about the middle of its row: nearer to the one below, which has nothing of its own there.
    if (nextLacks && toNext < height * tightLeading && toNext < toBefore * 0.95) waiting.push(row)
    else if (
      before &&
      toBefore < Math.max(height * tightLeading, Math.min(usual * 1.05, height * 2)) &&
      (toBefore <= toNext * 1.1 || !Number.isFinite(toNext)) &&
      columns.every((column) => isFull(before.cells[column]))
    )
      addAfter(before, row)
    else joined.push({ ...row, last: row.centre, first: row.centre })
  }
  for (const row of waiting) joined.push({ ...row, last: row.centre, first: row.centre })
  return joined
}

/** The usual distance of full rows. */
function usualStep(rows: readonly CellRow[], height: number): number {
  const full = rows.filter((row) => !row.spans && !isContinuation(row))
  const steps = full.slice(1).map((row, at) => row.centre - (full[at] as CellRow).centre)
  return steps.sort((a, b) => a - b)[steps.length >> 1] ?? height * 1.2
}

function isContinuation({ cells, spans }: CellRow): boolean {
  if (spans || cells.length < 2 || isFull(cells[0])) return false
  const full = cells.filter(isFull)
  if (full.length === 0 || full.length > 2 || full.length === cells.length) return false
  return full.every((cell) => {
    const first = cell[0]?.text ?? ''
    const text = cell.map((piece) => piece.text).join(' ')
    return !codeLike(first) && !symbolLike(text)
  })
}

function addAfter(row: CellRow & { last: number }, part: CellRow): void {
  for (const [column, cell] of part.cells.entries()) row.cells[column] = [...(row.cells[column] ?? []), ...cell]
  row.last = part.centre
}

function addBefore(row: CellRow & { first: number }, part: CellRow): void {
  for (const [column, cell] of part.cells.entries()) row.cells[column] = [...cell, ...(row.cells[column] ?? [])]
  row.first = part.centre
}
