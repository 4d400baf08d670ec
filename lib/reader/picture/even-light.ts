import { type Grey, shrunk } from './grey'

/**
 * `cellPx`: a cell of the map of light, larger than a letter's stroke, smaller than a shadow. `reach`: how many cells are looked at about each for
 * paper, more than a filled symbol or bold heading covers.
 */
type LightMap = { cellPx: number; reach: number }

/**
 * Divide out shadow, uneven light and the paper's own tint: each pixel against the paper about it, which is the lightest near, smoothed.
 * Paper comes out at about 255 wherever it is, ink keeps its share of it.
 */
export function evenLight(grey: Grey, { cellPx, reach }: LightMap = { cellPx: 16, reach: 3 }): Grey {
  const small = shrunk(grey, cellPx)
  const paper = blurred(blurred(widened(small, reach), reach), reach)
  const { width, height, data } = grey
  const out = new Uint8Array(width * height)
  // Of each column: the cells left and right of it, and how far it is on its way between them.
  const lefts = new Int32Array(width)
  const overs = new Float32Array(width)
  for (let x = 0; x < width; x++) {
    const u = Math.min(paper.width - 1.001, Math.max(0, (x + 0.5) / cellPx - 0.5))
    lefts[x] = Math.max(0, Math.floor(u))
    overs[x] = Math.max(0, u - (lefts[x] as number))
  }
  const last = paper.width - 1
  for (let y = 0; y < height; y++) {
    const v = Math.min(paper.height - 1.001, Math.max(0, (y + 0.5) / cellPx - 0.5))
    const above = Math.max(0, Math.floor(v))
    const upper = above * paper.width
    const lower = Math.min(paper.height - 1, above + 1) * paper.width
    const down = Math.max(0, v - above)
    for (let x = 0; x < width; x++) {
      const left = lefts[x] as number
      const right = left < last ? left + 1 : last
      const over = overs[x] as number
      const one = (paper.data[upper + left] as number) * (1 - over) + (paper.data[upper + right] as number) * over
      const two = (paper.data[lower + left] as number) * (1 - over) + (paper.data[lower + right] as number) * over
      const light = Math.max(24, one * (1 - down) + two * down)
      const at = y * width + x
      out[at] = Math.min(255, ((data[at] as number) * 255) / light)
    }
  }
  return { width, height, data: out }
}

/** Each pixel as light as the lightest within `by` of it. */
const widened = (grey: Grey, by: number): Grey =>
  alongBoth(
    grey,
    (line, from, to) => {
      let most = 0
      for (let at = from; at < to; at++) most = Math.max(most, line[at] as number)
      return most
    },
    by,
  )

const blurred = (grey: Grey, by: number): Grey =>
  alongBoth(
    grey,
    (line, from, to) => {
      let sum = 0
      for (let at = from; at < to; at++) sum += line[at] as number
      return sum / (to - from)
    },
    by,
  )

/** Each pixel by those within `by` of it, first along its row, then along its column. */
function alongBoth(
  { width, height, data }: Grey,
  shadeOf: (line: Float64Array, from: number, to: number) => number,
  by: number,
): Grey {
  const across = new Float64Array(width * height)
  const row = new Float64Array(width)
  for (let y = 0; y < height; y++) {
    row.set(data.subarray(y * width, (y + 1) * width))
    for (let x = 0; x < width; x++) across[y * width + x] = shadeOf(row, Math.max(0, x - by), Math.min(width, x + by + 1))
  }
  const out = new Uint8Array(width * height)
  const column = new Float64Array(height)
  for (let x = 0; x < width; x++) {
    for (let y = 0; y < height; y++) column[y] = across[y * width + x] as number
    for (let y = 0; y < height; y++) out[y * width + x] = shadeOf(column, Math.max(0, y - by), Math.min(height, y + by + 1)) + 0.5
  }
  return { width, height, data: out }
}
