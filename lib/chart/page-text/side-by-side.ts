import { cardsIn } from './cards'
import { areDesigns } from './designs-apart'
import { codeLike, symbolLike } from './looks'
import type { Piece } from './pieces'
import { type Row, rowsOf, runsOf } from './rows'
import type { CellRow } from './wrapped'

/** Rows to be laid in columns, or lines that are whole as they are: boxes of a grid. */
export type Block = { rows: Row[] } | { lines: CellRow[] }

/** Deeper than any page was seen to be laid out. */
const deepest = 4

/**
 * A page's pieces in blocks to be read one after the other: what stands side by side (two designs, two keys, a key beside how to stitch) apart,
 * the left before the right; the boxes of a grid one by one; a table's columns together.
 *
 * A clear strip down some rows parts blocks when both sides have a head and a key, when they do not share their baselines, when each side
 * looks like a key of its own, or when one side is prose. The strip between two columns of one table does none of these.
 */
export function blocksOf(pieces: readonly Piece[], height: number, depth = 0): Block[] {
  const rows = rowsOf(pieces, height)
  if (rows.length === 0) return []
  if (depth >= deepest) return [{ rows }]
  const below = (part: readonly Piece[]) => blocksOf(part, height, depth + 1)
  const within = (part: readonly Row[]) => part.flatMap((row) => row.pieces)
  const designs = designCut(rows, height)
  const cards = designs ? null : cardsIn(rows, height)
  if (cards) return [...below(within(rows.slice(0, cards.from))), { lines: cards.lines }, ...below(within(rows.slice(cards.to)))]
  const cut = designs ?? bestCut(rows, height)
  if (!cut) return [{ rows }]
  const inside = within(rows.slice(cut.from, cut.to))
  const isLeft = ({ box }: Piece) => (box.left + box.right) / 2 < cut.x
  return [
    ...below(within(rows.slice(0, cut.from))),
    ...below(inside.filter(isLeft)),
    ...below(inside.filter((piece) => !isLeft(piece))),
    ...below(within(rows.slice(cut.to))),
  ]
}

type Cut = { x: number; from: number; to: number }

const leastRowsEachSide = 3
const mostCandidates = 60

function bestCut(rows: readonly Row[], height: number): Cut | null {
  let best: (Cut & { worth: number }) | null = null
  for (const x of candidates(rows, height)) {
    for (const { from, to } of clearRuns(rows, x, height)) {
      const inside = rows.slice(from, to)
      const gap = gapAt(inside, x)
      if (gap < height * 1.2) continue
      const left = sideOf(inside, height, ({ box }) => box.right <= x)
      const right = sideOf(inside, height, ({ box }) => box.left >= x)
      if (left.rows.length < leastRowsEachSide || right.rows.length < leastRowsEachSide) continue
      if (!standApart(left, right, height)) continue
      const worth = (to - from) * 100 + gap / height
      if (!best || worth > best.worth) best = { x, from, to, worth }
    }
  }
  return best
}

/** Between designs that stand beside each other: a strip from their titles to the ends of their keys, over pictures between. */
function designCut(rows: readonly Row[], height: number): Cut | null {
  let best: (Cut & { worth: number }) | null = null
  for (const x of candidates(rows, height)) {
    for (const { from, to } of clearRuns(rows, x, height, Number.POSITIVE_INFINITY)) {
      const inside = rows.slice(from, to)
      const gap = gapAt(inside, x)
      const worth = (to - from) * 100 + gap / height
      if (gap < height * 0.8 || (best && worth <= best.worth)) continue
      const left = sideOf(inside, height, ({ box }) => box.right <= x)
      const right = sideOf(inside, height, ({ box }) => box.left >= x)
      if (areDesigns(left.rows, right.rows)) best = { x, from, to, worth }
    }
  }
  return best
}

/** A little before where runs of words begin: the right end of a clear strip is sharper than its left. */
function candidates(rows: readonly Row[], height: number): number[] {
  const places = new Map<number, { x: number; count: number }>()
  for (const row of rows) {
    for (const run of runsOf(row, height)) {
      // Symbols set about their middles begin at several places.
      for (const before of [0.3, 0.9]) {
        const x = (run[0] as Piece).box.left - height * before
        const key = Math.round((x / height) * 2)
        places.set(key, { x: Math.min(x, places.get(key)?.x ?? x), count: (places.get(key)?.count ?? 0) + 1 })
      }
    }
  }
  return [...places.values()]
    .sort((a, b) => b.count - a.count || a.x - b.x)
    .slice(0, mostCandidates)
    .map(({ x }) => x)
}

/** Runs of rows that leave `x` clear; `farthest` in heights of type: what stands further below is another part of the page. */
function clearRuns(rows: readonly Row[], x: number, height: number, farthest = 6): { from: number; to: number }[] {
  const runs: { from: number; to: number }[] = []
  let from: number | null = null
  const end = (to: number) => {
    if (from !== null && to - from >= leastRowsEachSide) runs.push({ from, to })
    from = null
  }
  for (const [at, { pieces, centre }] of rows.entries()) {
    const before = rows[at - 1]
    if (before && centre - before.centre > height * farthest) end(at)
    const isClear = pieces.every(({ box }) => box.right <= x || box.left >= x) && !isCrossed(pieces, x, height)
    if (isClear) from ??= at
    else end(at)
  }
  end(rows.length)
  return runs
}

/** Whether a run of words goes on over the strip: two words of one sentence with their space there. */
function isCrossed(pieces: readonly Piece[], x: number, height: number): boolean {
  const left = pieces.findLast(({ box }) => box.right <= x)
  const right = pieces.find(({ box }) => box.left >= x)
  if (!left || !right) return false
  // A title's spaces are as large as its type.
  const size = Math.max(height, Math.min(left.box.bottom - left.box.top, right.box.bottom - right.box.top))
  return right.box.left - left.box.right < size * 0.45
}

/** How wide the strip about `x` is, but for a row in ten: two headers may stand closer than what is below them. */
function gapAt(rows: readonly Row[], x: number): number {
  const ends: number[] = []
  const starts: number[] = []
  for (const { pieces } of rows) {
    const left = pieces.filter(({ box }) => box.right <= x).map(({ box }) => box.right)
    const right = pieces.filter(({ box }) => box.left >= x).map(({ box }) => box.left)
    if (left.length > 0) ends.push(Math.max(...left))
    if (right.length > 0) starts.push(Math.min(...right))
  }
  ends.sort((a, b) => b - a)
  starts.sort((a, b) => a - b)
  const end = ends[Math.floor(ends.length * 0.1)] ?? Number.POSITIVE_INFINITY
  const start = starts[Math.floor(starts.length * 0.1)] ?? Number.NEGATIVE_INFINITY
  return start - end
}

type Side = { rows: Row[]; runs: Piece[][][] }

function sideOf(rows: readonly Row[], height: number, isHere: (piece: Piece) => boolean): Side {
  const here = rowsOf(
    rows.flatMap(({ pieces }) => pieces.filter(isHere)),
    height * 0.6,
  )
  return { rows: here, runs: here.map((row) => runsOf(row, height)) }
}

function standApart(wholeLeft: Side, wholeRight: Side, height: number): boolean {
  // A title above one of them is no part of what stands beside the other.
  const [left, right] = [besideOnly(wholeLeft, wholeRight, height), besideOnly(wholeRight, wholeLeft, height)]
  if (left.rows.length < leastRowsEachSide || right.rows.length < leastRowsEachSide) return false
  if (isProse(left) !== isProse(right))
    return looksLikeKey(left) || looksLikeKey(right) || isProse(left, 0.8) || isProse(right, 0.8)
  if (isProse(left) && isProse(right)) return true
  if (!looksLikeKey(left) || !looksLikeKey(right)) return false
  const onOneLine = Math.abs((left.rows[0] as Row).centre - (right.rows[0] as Row).centre) < height * 0.3
  if (onOneLine && isHeaded(left) && isHeaded(right)) return true
  const shared = Math.max(sharedBaselines(left, right, height), sharedBaselines(right, left, height))
  return shared < 0.5 || isSameAgain(left, right)
}

/** A heading of its own over rows of several things: the head of a table has a word for each column. */
function isHeaded({ runs }: Side): boolean {
  const [first, ...others] = runs
  const text = first?.length === 1 ? textOf(first[0] as Piece[]) : ''
  const keyed = others.filter(
    (row) =>
      row.length >= 2 &&
      row.some((run) => run.some((piece) => /\d{2}/.test(piece.text) && codeLike(piece.text))) &&
      row.some((run) => /\p{L}{3}/u.test(textOf(run))),
  )
  return /\p{L}{3}/u.test(text) && !/\d{2}/.test(text) && keyed.length >= Math.max(2, others.length * 0.6)
}

/** The rows of one side from where the other begins to where it ends. */
function besideOnly(side: Side, other: Side, height: number): Side {
  const first = (other.rows[0]?.centre ?? 0) - height
  const last = (other.rows.at(-1)?.centre ?? 0) + height
  const isBeside = (at: number) => {
    const { centre } = side.rows[at] as Row
    return centre > first && centre < last
  }
  return { rows: side.rows.filter((_, at) => isBeside(at)), runs: side.runs.filter((_, at) => isBeside(at)) }
}

/** Share of `one`'s rows that have a row of `other` on their baseline. */
function sharedBaselines(one: Side, other: Side, height: number): number {
  const centres = other.rows.map(({ centre }) => centre)
  const shared = one.rows.filter(({ centre }) => centres.some((there) => Math.abs(there - centre) < height * 0.2))
  return one.rows.length === 0 ? 1 : shared.length / one.rows.length
}

/** Sentences: most rows are one run of many words. */
function isProse({ runs }: Side, share = 0.6): boolean {
  const long = runs.filter((row) => row.length <= 2 && row.some((run) => run.length >= 6)).length
  return long >= share * runs.length
}

const textOf = (run: readonly Piece[]): string => run.map(({ text }) => text).join(' ')

/** A key of its own begins its rows with a symbol or has a code and words in them; columns of figures are part of another. */
function looksLikeKey({ runs }: Side): boolean {
  const full = runs.filter((row) => row.reduce((count, run) => count + run.length, 0) >= 2)
  const keyed = full.filter(
    (row) =>
      symbolLike(textOf(row[0] as Piece[])) ||
      (row.some((run) => run.some(({ text }) => codeLike(text))) && row.some((run) => /\p{L}{2}/u.test(textOf(run)))),
  )
  return full.length >= leastRowsEachSide && full.length >= runs.length / 2 && keyed.length >= full.length * 0.6
}

/** Whether the right side's rows begin as the left side's do: with a symbol each, a code each, or under the same header. */
function isSameAgain(left: Side, right: Side): boolean {
  const [leftHead, rightHead] = [left.runs[0], right.runs[0]].map((row) =>
    (row ?? []).map((run) => textOf(run).toLocaleLowerCase('en')),
  )
  if (leftHead && rightHead && leftHead.length >= 2 && leftHead.join('\t') === rightHead.join('\t')) return true
  const begun = (side: Side, looks: (text: string) => boolean) => {
    const rows = side.runs.filter((row) => row.length >= 2 || (row[0]?.length ?? 0) >= 2)
    return rows.filter((row) => looks((row[0] as Piece[])[0]?.text ?? '')).length / Math.max(1, rows.length)
  }
  return [symbolLike, beginsLikeCode].some((looks) => begun(left, looks) >= 0.6 && begun(right, looks) >= 0.6)
}

/** A code, and no figure of an amount, and named: the row says more in words. */
function beginsLikeCode(text: string): boolean {
  return codeLike(text) && /^0|[A-Za-z]|\d{3}/.test(text)
}
