import { codeLike, symbolLike } from './looks'
import type { Piece } from './pieces'
import { centreOf, type Row, runsOf } from './rows'
import type { CellRow } from './wrapped'

/** A key set in boxes: the rows it takes up, and a line for each box (a heading between boxes is a line as well). */
export type Cards = { from: number; to: number; lines: CellRow[] }

/** What a number counts or measures, so that it is no code. */
const unitWord =
  /^(strands?|str|ply|skeins?|sk|hanks?|spools?|st|sts|stitch|stitches|crosses|x|×|by|m|metres?|meters?|cm|mm|in|ins|inch|inches|yd|yds|yards?|count|ct|hpi|squares?|each|%)\b/i
const isLong = (text: string): boolean => /\p{L}{3}/u.test(text)
const isMark = ({ text }: Piece): boolean => [...text].length === 1
const middleOf = ({ box }: Piece): number => (box.left + box.right) / 2

/**
 * A key whose colours stand in boxes of a grid, mark, code, name and amounts below one another in each, framed or not: told by codes that stand
 * below one another in several columns, each with its own words right below it. Null where nothing of the kind is seen. In a table words stand
 * beside their code.
 */
export function cardsIn(rows: readonly Row[], height: number): Cards | null {
  const codes = rows.map((row) => codesOf(row, height))
  for (const isCentred of [false, true]) {
    const placeOf = (piece: Piece) => (isCentred ? middleOf(piece) : piece.box.left)
    const columns = codeColumns(codes, placeOf, height)
    if (columns.length < 2) continue
    const columnOf = (piece: Piece) => columns.findIndex((place) => Math.abs(placeOf(piece) - place) < height)
    const coded = codeRows(codes, columnOf)
    if (coded.length === 0 || (coded.length === 1 && columns.length < 3)) continue
    const bands = bandsOf(rows, coded, height)
    const edges = edgesOf(rows, bands, columns, isCentred, height)
    const cards = bands.map((band) => cardsOfBand(rows, band, edges))
    if (!areStacked(cards, columns, placeOf, height)) continue
    const lines = cards.flatMap((band, at) => linesOf(band, (rows[(bands[at] as Band).code] as Row).centre, height))
    return { from: (bands[0] as Band).from, to: (bands.at(-1) as Band).to, lines }
  }
  return null
}

function codesOf(row: Row, height: number): Piece[] {
  return row.pieces.filter((piece, at) => {
    if (!codeLike(piece.text) || (piece.text.length < 2 && !/^\d$/.test(piece.text))) return false
    const next = row.pieces[at + 1]
    return !next || next.box.left - piece.box.right > height * 0.6 || !unitWord.test(next.text)
  })
}

/**
 * Where codes stand below one another, from the left: places that rows with two codes and more have in common, and those of codes that stand in
 * such a row beside two others.
 */
function codeColumns(codes: readonly Piece[][], placeOf: (piece: Piece) => number, height: number): number[] {
  const several = codes.map((row) => row.filter(({ text }) => text.length > 1).map(placeOf)).filter((row) => row.length >= 2)
  const clusters: { sum: number; places: number[] }[] = []
  for (const place of several.flat().sort((a, b) => a - b)) {
    const last = clusters.at(-1)
    if (last && place - last.sum / last.places.length < height) {
      last.sum += place
      last.places.push(place)
    } else clusters.push({ sum: place, places: [place] })
  }
  const common = new Set(clusters.filter(({ places }) => places.length > 1).flatMap(({ places }) => places))
  const beside = new Set(several.filter((row) => row.filter((place) => common.has(place)).length >= 2).flat())
  const isTold = (places: readonly number[]) =>
    several.length === 1 || places.some((place) => beside.has(place)) || places.length >= several.length * 0.5
  return clusters.filter(({ places }) => isTold(places)).map(({ sum, places }) => sum / places.length)
}

/** Rows that hold the codes of boxes: two and more in their columns; after these also one alone in the first, of a row not filled. */
function codeRows(codes: readonly Piece[][], columnOf: (piece: Piece) => number): number[] {
  const found: number[] = []
  for (const [at, row] of codes.entries()) {
    const inColumns = new Set(row.map(columnOf).filter((column) => column >= 0))
    const isLastOne = found.length > 0 && row.length === 1 && inColumns.has(0) && (row[0] as Piece).text.length > 1
    // A mark may be a figure: those stand above or below their codes.
    const isMarks = row.every(({ text }) => text.length < 2)
    if (!isMarks && (inColumns.size >= 2 || isLastOne)) found.push(at)
  }
  return found
}

/** Rows of one row of boxes. */
type Band = { from: number; to: number; code: number }

/** From the row after the widest gap between two rows of codes to the next such gap. */
function bandsOf(rows: readonly Row[], coded: readonly number[], height: number): Band[] {
  const centre = (at: number) => (rows[at] as Row).centre
  const bands = coded.map((code): Band => ({ from: code, to: code + 1, code }))
  for (const [at, band] of bands.entries()) {
    const next = bands[at + 1]
    if (!next) continue
    let cut = next.code
    for (let row = band.code + 1; row <= next.code; row++)
      if (centre(row) - centre(row - 1) > centre(cut) - centre(cut - 1) + height * 0.05) cut = row
    band.to = cut
    next.from = cut
  }
  const [first, last] = [bands[0] as Band, bands.at(-1) as Band]
  const above = bands.length > 1 ? Math.max(...bands.slice(1).map(({ from, code }) => centre(code) - centre(from))) : 0
  while (first.from > 0) {
    const row = rows[first.from - 1] as Row
    const isNear = bands.length > 1 ? centre(first.code) - row.centre < above + height * 0.4 : row.pieces.every(isMark)
    if (!isNear || (row.pieces.some(({ text }) => isLong(text)) && above === 0)) break
    first.from -= 1
  }
  const below = Math.max(0, ...bands.slice(0, -1).map(({ to, code }) => centre(to - 1) - centre(code)))
  while (last.to < rows.length) {
    const row = rows[last.to] as Row
    const isNear =
      bands.length > 1 ? row.centre - centre(last.code) < below + height * 0.4 : row.centre - centre(last.to - 1) < height * 1.7
    if (!isNear) break
    last.to += 1
  }
  return bands
}

/** Where each box begins on the left. */
function edgesOf(
  rows: readonly Row[],
  bands: readonly Band[],
  columns: readonly number[],
  isCentred: boolean,
  height: number,
): number[] {
  if (isCentred) return columns.map((place, at) => (at === 0 ? -Infinity : ((columns[at - 1] as number) + place) / 2))
  // What a mark reaches out to the left of the codes, in the first column.
  const first = columns[0] as number
  const marks = bands
    .flatMap(({ from, to }) => rows.slice(from, to).flatMap(({ pieces }) => pieces.filter(isMark)))
    .map(({ box }) => first - box.left)
    .filter((reach) => reach > height * 0.5)
  const room = Math.min(...columns.slice(1).map((place, at) => place - (columns[at] as number)))
  const reach = Math.max(0, ...marks.filter((one) => one < room * 0.5))
  return columns.map((place) => place - reach - height * 0.7)
}

/** For each box of a row of boxes, its rows of pieces, from the top; boxes without a piece are empty. */
function cardsOfBand(rows: readonly Row[], { from, to }: Band, edges: readonly number[]): Piece[][][] {
  const cards: Piece[][][] = edges.map(() => [])
  for (const { pieces } of rows.slice(from, to)) {
    const parts = edges.map((): Piece[] => [])
    for (const piece of pieces) {
      const at = Math.max(
        0,
        edges.findLastIndex((edge) => piece.box.left >= edge || middleOf(piece) >= edge),
      )
      parts[at]?.push(piece)
    }
    for (const [at, part] of parts.entries()) if (part.length > 0) cards[at]?.push(part)
  }
  return cards
}

/** Whether most boxes hold words right below their code, not beside it only. */
function areStacked(
  bands: readonly Piece[][][][],
  columns: readonly number[],
  placeOf: (piece: Piece) => number,
  height: number,
): boolean {
  let full = 0
  let stacked = 0
  for (const [at, card] of bands.flatMap((band) => band.map((card, column) => [column, card] as const))) {
    if (card.length === 0) continue
    full += 1
    const place = columns[at] as number
    const codeAt = card.findIndex((row) => row.some((piece) => codeLike(piece.text) && Math.abs(placeOf(piece) - place) < height))
    const code = card[codeAt]
    if (!code) continue
    const left = Math.min(...code.map(({ box }) => box.left))
    const isBelow = card.slice(codeAt + 1).some((row) => {
      const [start, end] = [(row[0] as Piece).box.left, (row.at(-1) as Piece).box.right]
      const isUnder =
        [left, place].some((x) => Math.abs(start - x) < height * 0.6) || Math.abs((start + end) / 2 - place) < height
      return isUnder && row.some(({ text }) => isLong(text))
    })
    if (isBelow) stacked += 1
  }
  return full >= 3 && stacked >= full * 0.7
}

/** A line for each box: its mark first, then a cell for each of its rows; a name over two rows is one cell. */
function linesOf(band: readonly Piece[][][], centre: number, height: number): CellRow[] {
  const lines: CellRow[] = []
  const filled = band.filter((card) => card.length > 0)
  for (const [at, card] of band.entries()) {
    if (card.length === 0) continue
    let rest = card
    // A heading above the boxes stands over the first of them.
    const heading = card[0] as Piece[]
    if (
      at === 0 &&
      filled.length > 1 &&
      heading.some(({ text }) => isLong(text)) &&
      isAboveAll(heading, filled.slice(1), height)
    ) {
      lines.push({ cells: [heading], centre, spans: true })
      rest = card.slice(1)
    }
    const marks: Piece[][] = []
    const cells: Piece[][] = []
    let isWords = false
    for (const row of rest) {
      for (const run of runsOf({ pieces: row, centre: 0 }, height)) {
        const [first, second] = run as [Piece, Piece | undefined]
        const isMarked = isMark(first) && (second === undefined || codeLike(second.text))
        // It may stand behind the code as well.
        const last = run.at(-1) as Piece
        const isEndMarked = !isMarked && run.length === 2 && symbolLike(last.text) && codeLike(first.text)
        if (isMarked || isEndMarked) marks.push([isMarked ? first : last])
        const others = isMarked ? run.slice(1) : isEndMarked ? [first] : run
        if (others.length === 0) continue
        const wasWords = isWords
        isWords = others.every(({ text }) => !/\d/.test(text)) && others.some(({ text }) => /\p{L}{2}/u.test(text))
        if (isWords && wasWords) cells.at(-1)?.push(...others)
        else cells.push(others)
      }
    }
    lines.push({ cells: [...marks, ...cells], centre, spans: true })
  }
  return lines
}

const topOf = (card: readonly Piece[][]): number => Math.min(...(card[0] ?? []).map(({ box }) => centreOf(box)))

const isAboveAll = (row: readonly Piece[], others: readonly Piece[][][], height: number): boolean =>
  others.every((card) => topOf(card) - topOf([[...row]]) > height * 0.8)
