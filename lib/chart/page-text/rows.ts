import type { PageBox } from './page-text'
import type { Piece } from './pieces'

/** What stands on one baseline, from left to right. */
export type Row = { pieces: Piece[]; centre: number }

export const centreOf = ({ top, bottom }: PageBox): number => (top + bottom) / 2

/** Words further apart than this (in heights of type) are in two cells. */
export const cellGap = 0.8

/** Steeper than this no page is read as level lines: about eight degrees. */
const steepest = 0.14
/** Too few words to tell from. */
const leastPieces = 8

type Place = { x: number; y: number }
type Spread = { middle: number; size: number }

/** How much lines fall to the right (fall over run): in the middle of the page, and how much more from its top to its foot. */
type Slope = { middle: number; change: number }

/**
 * The slope of lines along which `places` gather most on few heights; level where no slope does better than that by a clear measure. A page
 * seen aslant has lines that fan out. O(n) for each of some hundred slopes.
 *
 * @param height  Of the type: places nearer than half of it are on one line.
 * @param high  From where to where the page's lines are.
 */
function slopeOf(places: readonly Place[], height: number, high: Spread): Slope {
  const level = { middle: 0, change: 0 }
  if (places.length < leastPieces) return level
  const wide = spread(places.map(({ x }) => x))
  const gathered = (slope: Slope): number => {
    const counts = new Map<number, number>()
    for (const place of places) {
      const at = levelOf(place, slope, high) / height
      // Each in two overlapping classes, so that no line is cut in two by where the classes fall.
      for (const key of [Math.floor(at * 2) * 2, Math.floor(at * 2 + 0.5) * 2 + 1]) counts.set(key, (counts.get(key) ?? 0) + 1)
    }
    let sum = 0
    for (const count of counts.values()) sum += count * count
    return sum
  }
  // Fine enough that a step moves the far end of a line by a quarter of the type's height.
  const step = Math.max(steepest / 60, (height * 0.25) / Math.max(height, wide.size))
  let best = level
  let most = gathered(level) * 1.1
  const look = (slopes: readonly Slope[]) => {
    for (const slope of slopes) {
      const here = gathered(slope)
      if (here <= most) continue
      best = slope
      most = here
    }
  }
  const around = (middle: number, by: number) => Array.from({ length: 2 * by + 1 }, (_, at) => middle + (at - by) * step)
  look(around(0, Math.ceil(steepest / step)).map((middle) => ({ middle, change: 0 })))
  const { middle } = best
  look(around(middle, 1).flatMap((one) => around(0, Math.ceil(steepest / 2 / step)).map((change) => ({ middle: one, change }))))
  if (best !== level) look(around(0, 3).map((by) => ({ ...best, middle: best.middle + by / 4 })))
  return best
}

function spread(values: readonly number[]): Spread {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const value of values) {
    least = Math.min(least, value)
    most = Math.max(most, value)
  }
  return { middle: (least + most) / 2, size: Math.max(1e-6, most - least) }
}

const levelOf = ({ x, y }: Place, { middle, change }: Slope, { middle: half, size }: Spread): number =>
  y - x * (middle + (change * (y - half)) / size)

/** The pieces with lines level and columns upright again: each moved by where it stands on the page. */
export function levelled(pieces: readonly Piece[], height: number): Piece[] {
  return plumbed(moved(pieces, height, pieces, false), height)
}

/** Columns upright: by where runs of words begin, row by row. */
function plumbed(pieces: readonly Piece[], height: number): Piece[] {
  const starts = rowsOf(pieces, height).flatMap((row) => runsOf(row, height).map((run) => run[0] as Piece))
  return moved(pieces, height, starts, true)
}

/** @param telling  The pieces the slope is taken from. */
function moved(pieces: readonly Piece[], height: number, telling: readonly Piece[], isDown: boolean): Piece[] {
  const middleX = spread(telling.map(({ box }) => box.left)).middle
  const middleY = spread(telling.map(({ box }) => centreOf(box))).middle
  const placeOf = ({ box }: Piece): Place =>
    isDown ? { x: centreOf(box) - middleY, y: box.left } : { x: (box.left + box.right) / 2 - middleX, y: centreOf(box) }
  const places = telling.map(placeOf)
  const along = spread(pieces.map((piece) => placeOf(piece).y))
  const slope = slopeOf(places, height, along)
  if (slope.middle === 0 && slope.change === 0) return [...pieces]
  return pieces.map((piece) => {
    const place = placeOf(piece)
    const by = levelOf(place, slope, along) - place.y
    const { left, right, top, bottom } = piece.box
    const box = isDown ? { left: left + by, right: right + by, top, bottom } : { left, right, top: top + by, bottom: bottom + by }
    return { ...piece, box }
  })
}

/** Pieces on one baseline together, from the top. A piece belongs where its middle is within four tenths of the type's height. */
export function rowsOf(pieces: readonly Piece[], height: number): Row[] {
  const rows: (Row & { sum: number })[] = []
  for (const piece of [...pieces].sort((a, b) => centreOf(a.box) - centreOf(b.box) || a.box.left - b.box.left)) {
    const centre = centreOf(piece.box)
    const row = rows.at(-1)
    if (row && centre - row.centre < height * 0.4) {
      row.pieces.push(piece)
      row.sum += centre
      row.centre = row.sum / row.pieces.length
    } else rows.push({ pieces: [piece], centre, sum: centre })
  }
  return rows.map(({ pieces: inRow, centre }) => ({
    centre,
    pieces: inRow.sort((a, b) => a.box.left - b.box.left || a.box.right - b.box.right),
  }))
}

/** A row's pieces in runs without a wide gap. */
export function runsOf({ pieces }: Row, height: number): Piece[][] {
  const runs: Piece[][] = []
  let right = Number.NEGATIVE_INFINITY
  let before: Piece | null = null
  for (const piece of pieces) {
    const run = runs.at(-1)
    // A title's spaces are as large as its type.
    const size = Math.max(height, before ? Math.min(heightOf(before), heightOf(piece)) : 0)
    if (run && !piece.breakBefore && piece.box.left - right <= cellGap * size) run.push(piece)
    else runs.push([piece])
    right = Math.max(right, piece.box.right)
    before = piece
  }
  return runs
}

const heightOf = ({ box }: Piece): number => box.bottom - box.top
