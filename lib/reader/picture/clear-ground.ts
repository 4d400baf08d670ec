import type { Blob } from './blobs'
import { type Grey, shrunk } from './grey'

type Ground = {
  cellPx: number
  /** Darker than this on the whole, a cell is no print on paper. */
  shade: number
  /** Larger than this share of the picture, what is dark at its edge is what the paper lies on. */
  leastShare: number
}

/** A dark table is told by small cells; a light one with a grain only by cells that hold the grain and print alike, and only where it is large. */
const grounds: readonly Ground[] = [
  { cellPx: 8, shade: 150, leastShare: 0.002 },
  { cellPx: 24, shade: 224, leastShare: 0.02 },
]

/** Print is darker than this at its darkest, on paper evenly lit; a grain in wood or cloth seldom is. */
const printShade = 120
/** More pieces of print than this, and it is paper in shadow. */
const mostPrint = 2

/**
 * White out, in place, what a sheet lies on where it is seen about it: large dark pieces that reach the picture's edge and hold no print.
 *
 * @param letters  What may be letters.
 */
export function clearGround(grey: Grey, letters: readonly Blob[]): void {
  const print = letters.filter((letter) => darkest(grey, letter) < printShade)
  for (const ground of grounds) clearOne(grey, ground, print)
}

function darkest({ width, data }: Grey, { left, right, top, bottom }: Blob): number {
  let least = 255
  for (let y = top; y < bottom; y++) for (let x = left; x < right; x++) least = Math.min(least, data[y * width + x] as number)
  return least
}

function clearOne(grey: Grey, { cellPx, shade, leastShare }: Ground, print: readonly Blob[]): void {
  const small = shrunk(grey, cellPx)
  const { width, height } = small
  const seen = new Uint8Array(width * height)
  const isDark = (at: number) => (small.data[at] as number) < shade
  const clear = (cells: readonly number[]) => {
    for (const at of cells) {
      const [column, row] = [at % width, Math.floor(at / width)]
      // A cell more all round: the paper's edge and its shadow.
      const [left, right] = [Math.max(0, (column - 1) * cellPx), Math.min(grey.width, (column + 2) * cellPx)]
      for (let y = Math.max(0, (row - 1) * cellPx); y < Math.min(grey.height, (row + 2) * cellPx); y++) {
        grey.data.fill(255, y * grey.width + left, y * grey.width + right)
      }
    }
  }
  const printIn = new Uint16Array(width * height)
  for (const { left, right, top, bottom } of print) {
    const [column, row] = [Math.floor((left + right) / 2 / cellPx), Math.floor((top + bottom) / 2 / cellPx)]
    if (column < width && row < height) printIn[row * width + column] = (printIn[row * width + column] as number) + 1
  }
  const startAt = (start: number) => {
    if (seen[start] || !isDark(start)) return
    const cells = [start]
    seen[start] = 1
    for (let next = 0; next < cells.length; next++) {
      const at = cells[next] as number
      const x = at % width
      for (const near of [x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1, at - width, at + width]) {
        if (near < 0 || near >= seen.length || seen[near] || !isDark(near)) continue
        seen[near] = 1
        cells.push(near)
      }
    }
    if (cells.length < width * height * leastShare) return
    if (cells.reduce((sum, at) => sum + (printIn[at] as number), 0) <= mostPrint) clear(cells)
  }
  for (let x = 0; x < width; x++) for (const y of [0, height - 1]) startAt(y * width + x)
  for (let y = 0; y < height; y++) for (const x of [0, width - 1]) startAt(y * width + x)
}
