import qrcode from 'qrcode'

/** How much of a code may be lost and it still reads: about 15 % (M) or 7 % (L). */
export type CodeLevel = 'M' | 'L'

/** Squares left white on every side of a code (ISO/IEC 18004: four). */
export const quietSquares = 4

/** A QR code: how many squares it has on a side, and its dark ones. */
export type LabelCode = { squares: number /** As a mark of `squares` has them. */; runs: number[] }

export function labelCode(text: string, level: CodeLevel): LabelCode {
  const { size, data } = qrcode.create(text, { errorCorrectionLevel: level }).modules
  return { squares: size, runs: mergeDark(data, size) }
}

/**
 * The dark squares of a symbol as few rectangles: each run in a row, as far down as the rows below have the very same run.
 *
 * @param dark  row by row, nought for light
 * @returns     x, y, width and height of each, one after the other
 */
export function mergeDark(dark: ArrayLike<number>, size: number): number[] {
  const runs: number[] = []
  /** By where it begins: the run of the row above that may go on, as its length and its place in `runs`. */
  let above = new Map<number, { length: number; at: number }>()
  for (let y = 0; y < size; y++) {
    const here = new Map<number, { length: number; at: number }>()
    for (let x = 0; x < size; ) {
      if (!dark[y * size + x]) {
        x += 1
        continue
      }
      const from = x
      while (x < size && dark[y * size + x]) x += 1
      const open = above.get(from)
      if (open && open.length === x - from) {
        runs[open.at + 3] = (runs[open.at + 3] as number) + 1
        here.set(from, open)
      } else {
        here.set(from, { length: x - from, at: runs.length })
        runs.push(from, y, x - from, 1)
      }
    }
    above = here
  }
  return runs
}
