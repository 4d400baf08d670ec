/** A sheet of a picture too large for one: which part of the picture it shows, from the picture's upper left corner. */
export type Tile = { number: number; column: number; row: number; xMm: number; yMm: number }

export type Tiling = { columns: number; rows: number; tiles: Tile[] }

/**
 * The fewest sheets that cover a picture, each overlapping its neighbours by at least `overlapMm`; numbered row by row from the upper
 * left. All overlaps are the same, so that the last sheets may run beyond the picture.
 *
 * @throws {RangeError} if the overlap takes the whole window.
 */
export function planTiles(
  picture: { widthMm: number; heightMm: number },
  window: { widthMm: number; heightMm: number },
  overlapMm: number,
): Tiling {
  const stepX = window.widthMm - overlapMm
  const stepY = window.heightMm - overlapMm
  if (!(stepX > 0 && stepY > 0)) throw new RangeError(`planTiles: overlap ${overlapMm} of ${window.widthMm} × ${window.heightMm}`)
  const count = (length: number, step: number) => Math.max(1, Math.ceil((length - overlapMm - 1e-6) / step))
  const columns = count(picture.widthMm, stepX)
  const rows = count(picture.heightMm, stepY)
  return {
    columns,
    rows,
    tiles: Array.from({ length: columns * rows }, (_, at) => {
      const [column, row] = [at % columns, Math.floor(at / columns)]
      return { number: at + 1, column, row, xMm: column * stepX, yMm: row * stepY }
    }),
  }
}
