type Size = { widthUm: number; heightUm: number }

/** A nanometre beyond still counts as within: sizes come of divisions. */
const toleranceUm = 1e-3

/** Whether a piece goes into a size, whichever way round. */
export function isWithin(piece: Size, most: Size): boolean {
  const [short, long] = [piece.widthUm, piece.heightUm].sort((a, b) => a - b) as [number, number]
  const [mostShort, mostLong] = [most.widthUm, most.heightUm].sort((a, b) => a - b) as [number, number]
  return short <= mostShort + toleranceUm && long <= mostLong + toleranceUm
}
