import { type Piece, typeHeight } from './pieces'
import type { CellRow } from './wrapped'

/** Words that head the columns of keys. */
const headWords = [
  ...['symbol', 'symbols', 'strands', 'stitches', 'stitch', 'skeins', 'skein', 'colour', 'color', 'colours', 'name', 'number'],
  ...['shade', 'metres', 'meters', 'yards', 'length', 'thread', 'count', 'code', 'maker', 'chart', 'amount', 'quantity'],
]
const known = new Set(headWords)
/** Words run together in a narrow head: "SymbolNo", "Colourname". */
const runTogether = new RegExp(`^(${headWords.join('|')})(no|name|code|number|count|used)$`, 'i')
/** So many cells of a row say what is below them. */
const leastHeads = 2

/** Words that heads have besides. */
const besides = new Set([
  'no',
  'nos',
  'of',
  'used',
  'needed',
  'per',
  'in',
  'on',
  'and',
  'kit',
  'ref',
  'key',
  'nr',
  'colors',
  'to',
])

/** A table's head that is set over two rows as one: the words of the one that has fewer stand right above or below those of the other. */
export function withHeadJoined(rows: readonly CellRow[], height: number): CellRow[] {
  // A title may stand above the table in the same stretch.
  for (let at = 0; at < Math.min(rows.length, mostAbove); at++) {
    const joined = headOfTwo(rows.slice(at), height)
    if (joined) return [...rows.slice(0, at), joined, ...rows.slice(at + 2)]
  }
  return [...rows]
}

/** More lines than this do not stand between the top of a stretch and its table. */
const mostAbove = 8

function headOfTwo([upper, lower, ...others]: readonly CellRow[], height: number): CellRow | null {
  if (!upper || !lower || others.length < 2 || lower.centre - upper.centre > height * 1.7) return null
  const isHeadRow = ({ cells }: CellRow) => {
    const full = cells.filter((cell) => cell.length > 0)
    const saying = full.filter((cell) => cell.some(({ text }) => known.has(plain(text)) || besides.has(plain(text))))
    return full.length > 0 && saying.length * 2 >= full.length && full.flat().every(({ text }) => !/\d|^.$/.test(text))
  }
  if (!isHeadRow(upper) || !isHeadRow(lower)) return null
  const count = ({ cells }: CellRow) => cells.filter((cell) => cell.length > 0).length
  const isUpperFuller = count(upper) > count(lower)
  const [base, part] = isUpperFuller ? [upper, lower] : [lower, upper]
  if (base.spans || base.cells.length < 3 || count(base) < 3) return null
  // A heading above the table is set larger, or begins it by itself.
  if (Math.abs(typeHeight(upper.cells.flat()) - typeHeight(lower.cells.flat())) > height * 0.15) return null
  if (!isUpperFuller && count(upper) === 1 && (upper.spans || (upper.cells[0] ?? []).length > 1)) return null
  const cells = base.cells.map((cell) => [...cell])
  const added = cells.map((): CellRow['cells'][number] => [])
  for (const piece of part.cells.flat()) {
    const at = base.cells.findIndex((cell) => cell.some(({ box }) => box.left < piece.box.right && box.right > piece.box.left))
    if (at < 0) return null
    added[at]?.push(piece)
  }
  const joined = cells.map((cell, at) => (isUpperFuller ? [...cell, ...(added[at] ?? [])] : [...(added[at] ?? []), ...cell]))
  return { ...base, cells: joined, centre: lower.centre }
}

/**
 * The first row of a table told from a picture, its words with one letter read wrong or run together put right, where enough of it shows that it
 * heads the columns. What came with a file is as its maker wrote it.
 */
export function withHeadsMended(rows: readonly CellRow[]): CellRow[] {
  const [first, ...others] = rows
  if (!first || first.cells.length < 3) return [...rows]
  const pieces = first.cells.flat()
  if (pieces.every(({ certainty }) => certainty === 1) || pieces.some(({ text }) => /\d{2}/.test(text))) return [...rows]
  const mended = first.cells.map((cell) => cell.map(mendedPiece))
  const heads = mended.filter((cell) => cell.some(({ text }) => isHead(text))).length
  if (heads < leastHeads || heads * 2 < first.cells.filter((cell) => cell.length > 0).length) return [...rows]
  return [{ ...first, cells: mended }, ...others]
}

const plain = (text: string): string => text.replace(/[^\p{L}\p{N}]/gu, '').toLocaleLowerCase('en')
const isHead = (text: string): boolean => text.split(' ').some((word) => known.has(plain(word)))

function mendedPiece(piece: Piece): Piece {
  const word = plain(piece.text)
  if (piece.certainty === 1 || known.has(word) || word.length < 4) return piece
  const parts = runTogether.exec(word)
  if (parts) return { ...piece, text: `${parts[1]} ${parts[2]}`, certainty: Math.min(piece.certainty, 0.75) }
  const near = headWords.filter((head) => head.length >= 5 && isOneLetterOff(word, head))
  // Singular and plural are as near to one another as to a slip.
  const [meant] = near.sort((a, b) => Math.abs(a.length - word.length) - Math.abs(b.length - word.length))
  return meant === undefined ? piece : { ...piece, text: meant, certainty: Math.min(piece.certainty, 0.75) }
}

/** One letter another, one too many or one too few. */
function isOneLetterOff(one: string, other: string): boolean {
  if (Math.abs(one.length - other.length) > 1 || one === other) return false
  let from = 0
  while (from < one.length && one[from] === other[from]) from += 1
  let ends = 0
  while (ends < Math.min(one.length, other.length) - from && one.at(-1 - ends) === other.at(-1 - ends)) ends += 1
  return Math.max(one.length, other.length) - from - ends <= 1
}
