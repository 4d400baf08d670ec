import { type Grey, otsuShade, shrunk } from './grey'

export type Point = { x: number; y: number }
/** A sheet's corners: upper left, upper right, lower right, lower left. */
export type Sheet = [Point, Point, Point, Point]

const widePx = 400

/**
 * The corners of a light sheet of paper that lies whole on a darker ground; null where none can be told: the sheet goes beyond the picture,
 * or the ground is as light as the paper. Corners are those farthest out along the diagonals, so a turn beyond a third of a right angle is
 * not found.
 */
export function findSheet(grey: Grey): Sheet | null {
  const by = Math.max(1, Math.round(Math.max(grey.width, grey.height) / widePx))
  const small = shrunk(grey, by)
  const shade = otsuShade(small)
  // Paper half in shadow is parted from its own shadow first; its shadow from a dark ground only among what is dark.
  const dark = { width: small.width, height: small.height, data: small.data.filter((light) => light <= shade) }
  const found = [shade, otsuShade(dark)].map((least) => sheetAbove(small, least)).filter((sheet) => sheet !== null)
  const [largest] = found.sort((a, b) => areaOf(b) - areaOf(a))
  return largest ? (largest.map(({ x, y }) => ({ x: x * by, y: y * by })) as Sheet) : null
}

/** The sheet that is lighter than `shade`. */
function sheetAbove(small: Grey, shade: number): Sheet | null {
  const { width, height } = small
  const isPaper = largestLight(small, shade)
  let area = 0
  let onEdge = 0
  const ends = {
    upperLeft: [0, 0, Infinity],
    upperRight: [0, 0, -Infinity],
    lowerRight: [0, 0, -Infinity],
    lowerLeft: [0, 0, Infinity],
  }
  const take = (end: number[], x: number, y: number, reach: number, isFarther: boolean) => {
    if (isFarther) end.splice(0, 3, x, y, reach)
  }
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      if (!isPaper[y * width + x]) continue
      area++
      if (x === 0 || y === 0 || x === width - 1 || y === height - 1) onEdge++
      take(ends.upperLeft, x, y, x + y, x + y < (ends.upperLeft[2] as number))
      take(ends.lowerRight, x + 1, y + 1, x + y, x + y > (ends.lowerRight[2] as number))
      take(ends.upperRight, x + 1, y, x - y, x - y > (ends.upperRight[2] as number))
      take(ends.lowerLeft, x, y + 1, x - y, x - y < (ends.lowerLeft[2] as number))
    }
  }
  if (area < width * height * 0.2 || onEdge > (width + height) * 0.02) return null
  const corners = [ends.upperLeft, ends.upperRight, ends.lowerRight, ends.lowerLeft].map(([x, y]) => ({
    x: x as number,
    y: y as number,
  })) as Sheet
  // Ink and shadow leave holes at the edges; more than that, and the corners are not a sheet's.
  const within = areaOf(corners)
  if (area < within * 0.88 || area > within * 1.06) return null
  return corners
}

/** The largest piece of what is lighter than `shade`, its holes (print, pictures) filled. */
function largestLight({ width, height, data }: Grey, shade: number): Uint8Array {
  const marks = new Int32Array(width * height)
  const isLight = (at: number) => (data[at] as number) > shade
  const spread = (start: number, mark: number, belongs: (at: number) => boolean): number => {
    const open = [start]
    marks[start] = mark
    let count = 0
    while (open.length > 0) {
      const at = open.pop() as number
      count++
      const x = at % width
      const near = [x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1, at - width, at + width]
      for (const next of near) {
        if (next < 0 || next >= marks.length || marks[next] !== 0 || !belongs(next)) continue
        marks[next] = mark
        open.push(next)
      }
    }
    return count
  }
  let best = 0
  let bestCount = 0
  let mark = 0
  for (let at = 0; at < marks.length; at++) {
    if (marks[at] !== 0 || !isLight(at)) continue
    mark++
    const count = spread(at, mark, isLight)
    if (count > bestCount) {
      best = mark
      bestCount = count
    }
  }
  // What the edge cannot be reached from without crossing the sheet is within it.
  const isSheet = Uint8Array.from(marks, (here) => (here === best ? 1 : 0))
  marks.fill(0)
  const isOutside = (at: number) => isSheet[at] === 0
  for (let x = 0; x < width; x++) {
    for (const at of [x, (height - 1) * width + x]) if (marks[at] === 0 && isOutside(at)) spread(at, 1, isOutside)
  }
  for (let y = 0; y < height; y++) {
    for (const at of [y * width, y * width + width - 1]) if (marks[at] === 0 && isOutside(at)) spread(at, 1, isOutside)
  }
  return Uint8Array.from(marks, (here) => (here === 1 ? 0 : 1))
}

function areaOf(corners: Sheet): number {
  let twice = 0
  for (const [at, { x, y }] of corners.entries()) {
    const next = corners[(at + 1) % 4] as Point
    twice += x * next.y - next.x * y
  }
  return Math.abs(twice) / 2
}

/** Whether a point of the picture is on the sheet. */
export const isOnSheet = (sheet: Sheet, x: number, y: number): boolean =>
  sheet.every((from, at) => {
    const to = sheet[(at + 1) % 4] as Point
    return (to.x - from.x) * (y - from.y) - (to.y - from.y) * (x - from.x) >= 0
  })

/** How wide and high a sheet's picture is drawn: by its longer sides. */
export function sheetSize([one, two, three, four]: Sheet): { width: number; height: number } {
  const apart = (from: Point, to: Point) => Math.hypot(to.x - from.x, to.y - from.y)
  return {
    width: Math.max(16, Math.round(Math.max(apart(one, two), apart(four, three)))),
    height: Math.max(16, Math.round(Math.max(apart(one, four), apart(two, three)))),
  }
}

/**
 * Where a point of the flat sheet (0 to 1 across and down) is in the picture, seen in perspective.
 *
 * @see Paul Heckbert, "Fundamentals of Texture Mapping and Image Warping", master's thesis, University of California, Berkeley (1989),
 *   section 2.2.3, square to quadrilateral; a to i are its letters
 */
export function ontoSheet([p0, p1, p2, p3]: Sheet): (u: number, v: number, place: Point) => void {
  const [sx, sy] = [p0.x - p1.x + p2.x - p3.x, p0.y - p1.y + p2.y - p3.y]
  const [dx1, dx2, dy1, dy2] = [p1.x - p2.x, p3.x - p2.x, p1.y - p2.y, p3.y - p2.y]
  const whole = dx1 * dy2 - dx2 * dy1
  const g = (sx * dy2 - dx2 * sy) / whole
  const h = (dx1 * sy - sx * dy1) / whole
  const [a, b, c] = [p1.x - p0.x + g * p1.x, p3.x - p0.x + h * p3.x, p0.x]
  const [d, e, f] = [p1.y - p0.y + g * p1.y, p3.y - p0.y + h * p3.y, p0.y]
  return (u, v, place) => {
    const w = g * u + h * v + 1
    place.x = (a * u + b * v + c) / w
    place.y = (d * u + e * v + f) / w
  }
}
