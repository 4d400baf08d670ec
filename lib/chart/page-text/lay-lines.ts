import { withoutSquares } from './chart-squares'
import { type Column, placedIn, stretchesOf } from './columns'
import { withHeadJoined, withHeadsMended } from './heads'
import type { PageBox, SourceCell, SourceLine, TextPage } from './page-text'
import { type Piece, piecesOf, typeHeight } from './pieces'
import { levelled, runsOf } from './rows'
import { withoutRunningLines } from './running-lines'
import { blocksOf } from './side-by-side'
import { type CellRow, joinWrapped } from './wrapped'

/** More words than a page of print holds by far; what comes after is left out, so that no file takes for ever. */
const mostPieces = 20_000

/**
 * Words in their places as lines in reading order, a cell for each column of their table. All lines of one table have as many cells, empty
 * ones among them; a heading or sentence across a table, and a line outside one, has a cell for each run of words without a wide gap.
 *
 * Two keys side by side are read one after the other; a name wrapped within its cell is one line with its row; a table that goes on over
 * pages keeps its columns. The squares of a chart set in type are no lines, nor
 * is what runs along the edge of every page. Lines may climb across the page by some degrees. Deterministic; about O(n log n) in the words of a page.
 */
export function layLines(pages: readonly TextPage[]): SourceLine[] {
  const lines: SourceLine[] = []
  let columns: readonly Column[] | null = null
  const found = pages.map((page) => {
    const pieces = withoutSquares(piecesOf(page).slice(0, mostPieces))
    return { page, pieces, height: typeHeight(pieces) }
  })
  for (const [at, pieces] of withoutRunningLines(found).entries()) {
    const height = (found[at] as (typeof found)[number]).height
    for (const block of blocksOf(levelled(pieces, height), height)) {
      if ('lines' in block) {
        for (const line of block.lines) lines.push(lineOf(line, at))
        continue
      }
      for (const stretch of stretchesOf(block.rows, height, columns)) {
        const isTable = stretch.columns.length > 1
        if (isTable) columns = stretch.columns
        const rows = stretch.rows.map((row): CellRow => {
          const placed = isTable ? placedIn(row, stretch.columns, height) : null
          return { cells: placed ?? runsOf(row, height), centre: row.centre, spans: placed === null }
        })
        for (const row of isTable ? joinWrapped(withHeadsMended(withHeadJoined(rows, height)), height) : rows)
          lines.push(lineOf(row, at))
      }
    }
  }
  return lines
}

function lineOf({ cells, spans }: CellRow, page: number): SourceLine {
  const full = cells.filter((cell) => cell.length > 0)
  // A heading that stands alone above its rows, in the first column.
  const isAlone = !spans && full.length === 1 && cells[0] === full[0]
  return { page, cells: (isAlone ? full : cells).map(cellOf) }
}

function cellOf(pieces: readonly Piece[]): SourceCell {
  const [first] = pieces
  if (!first) return { text: '', certainty: 1, box: null }
  let text = ''
  let before: Piece | null = null
  for (const piece of pieces) {
    const isTouching = before !== null && isOneWord(before, piece)
    text += `${before === null || isTouching ? '' : ' '}${piece.text}`
    before = piece
  }
  return { text, certainty: Math.min(...pieces.map(({ certainty }) => certainty)), box: around(pieces) }
}

/** Parts of one word that the file draws apart: they touch, on one baseline. Words told from a picture were told apart there. */
function isOneWord(before: Piece, piece: Piece): boolean {
  if (before.certainty < 1 || piece.certainty < 1) return false
  const height = Math.max(before.box.bottom - before.box.top, piece.box.bottom - piece.box.top)
  const gap = piece.box.left - before.box.right
  return gap < height * 0.1 && gap > -height * 0.5 && Math.abs(piece.box.bottom - before.box.bottom) < height * 0.4
}

function around(pieces: readonly Piece[]): PageBox {
  return {
    left: Math.min(...pieces.map(({ box }) => box.left)),
    top: Math.min(...pieces.map(({ box }) => box.top)),
    right: Math.max(...pieces.map(({ box }) => box.right)),
    bottom: Math.max(...pieces.map(({ box }) => box.bottom)),
  }
}
