import type { Piece } from './pieces'
import { centreOf } from './rows'

/** A grid of fewer marks than this is no chart. */
const leastMarks = 40
/** Marks of one chart are no further apart, in their own heights: an empty square or two between them. */
const mostGap = 2.5

/**
 * The pieces without those in the squares of a chart set in type, and without the numbers along its edges: they are the design, and say
 * nothing of its key. A chart is many single marks with others close beside as well as close below them; the symbols of a key stand only
 * below one another.
 */
export function withoutSquares(pieces: readonly Piece[]): Piece[] {
  const marks = pieces.filter(({ text }) => [...text].length === 1)
  if (marks.length < leastMarks) return [...pieces]
  const charts = clustersOf(marks).filter(isChart).map(boundsOf)
  if (charts.length === 0) return [...pieces]
  const isMark = ({ text }: Piece) => [...text].length === 1 || isEdgeNumber(text)
  const beside = besideEach(pieces)
  return pieces.filter((piece) => {
    if (!isMark(piece)) return true
    const [x, y] = [(piece.box.left + piece.box.right) / 2, centreOf(piece.box)]
    return !charts.some(({ left, right, top, bottom, high }) => {
      const isNear = (by: number) => x > left - by && x < right + by && y > top - by && y < bottom + by
      if (isNear(high * 0.2) && [...piece.text].length === 1) return true
      if (!isNear(high * mostGap)) return false
      // A mark an empty square or two outside is the chart's where nothing but marks stands beside it.
      return isEdgeNumber(piece.text) || (beside.get(piece) ?? []).every(isMark)
    })
  })
}

/** Squares are counted along a chart's edges. */
const isEdgeNumber = (text: string): boolean => /^\d{1,3}$/.test(text)

/** Marks in groups of those close to one another along their row or column. O(n log n) for marks spread as on paper. */
function clustersOf(marks: readonly Piece[]): Piece[][] {
  const parents = marks.map((_, at) => at)
  const rootOf = (at: number): number => {
    let root = at
    while (parents[root] !== root) {
      parents[root] = parents[parents[root] as number] as number
      root = parents[root] as number
    }
    return root
  }
  const join = (key: (piece: Piece) => number, along: (piece: Piece) => [number, number]) => {
    const order = marks.map((piece, at) => ({ piece, at, high: piece.box.bottom - piece.box.top }))
    order.sort(
      (a, b) =>
        Math.round(key(a.piece) / a.high / 0.4) - Math.round(key(b.piece) / b.high / 0.4) ||
        along(a.piece)[0] - along(b.piece)[0],
    )
    for (const [place, here] of order.entries()) {
      const next = order[place + 1]
      if (!next || Math.abs(key(next.piece) - key(here.piece)) > here.high * 0.4) continue
      const gap = along(next.piece)[0] - along(here.piece)[1]
      if (gap > -here.high && gap < here.high * mostGap) parents[rootOf(next.at)] = rootOf(here.at)
    }
  }
  join(
    ({ box }) => centreOf(box),
    ({ box }) => [box.left, box.right],
  )
  join(
    ({ box }) => (box.left + box.right) / 2,
    ({ box }) => [box.top, box.bottom],
  )
  const clusters = new Map<number, Piece[]>()
  for (const [at, mark] of marks.entries()) {
    const root = rootOf(at)
    const cluster = clusters.get(root)
    if (cluster) cluster.push(mark)
    else clusters.set(root, [mark])
  }
  return [...clusters.values()]
}

type Bounds = { left: number; right: number; top: number; bottom: number; high: number }

function boundsOf(marks: readonly Piece[]): Bounds {
  const bounds: Bounds = { left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity, high: 0 }
  for (const { box } of marks) {
    bounds.left = Math.min(bounds.left, box.left)
    bounds.right = Math.max(bounds.right, box.right)
    bounds.top = Math.min(bounds.top, box.top)
    bounds.bottom = Math.max(bounds.bottom, box.bottom)
    bounds.high = Math.max(bounds.high, box.bottom - box.top)
  }
  return bounds
}

function isChart(marks: readonly Piece[]): boolean {
  if (marks.length < leastMarks) return false
  const { left, right, top, bottom, high } = boundsOf(marks)
  return right - left > high * 6 && bottom - top > high * 6
}

/** What stands on the same height as each piece, to a point. */
function besideEach(pieces: readonly Piece[]): Map<Piece, Piece[]> {
  const byHeight = new Map<number, Piece[]>()
  for (const piece of pieces) {
    const key = Math.round(centreOf(piece.box))
    const here = byHeight.get(key)
    if (here) here.push(piece)
    else byHeight.set(key, [piece])
  }
  return new Map(pieces.map((piece) => [piece, byHeight.get(Math.round(centreOf(piece.box))) ?? []]))
}
