import type { CutRequest, CutWish } from '#lib/cloth/cut-plan'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'

const inch = UM_PER_INCH

/** A plain size that may be turned, on every one of these pieces. */
const aWish = (id: string, [width, height]: [number, number], copies: number, pieceIds: readonly string[]): CutWish => ({
  id,
  copies,
  value: 1,
  ways: Object.fromEntries(
    pieceIds.map((pieceId) => [
      pieceId,
      [
        { widthUm: width * inch, heightUm: height * inch, isTurned: false },
        { widthUm: height * inch, heightUm: width * inch, isTurned: true },
      ],
    ]),
  ),
})

/** Trade scenario A8: from a fat quarter of 18 × 27 in one 11 × 11, two 8 × 8, one 6 × 12; at best 18 × 7 in is left. */
export const a8 = (): CutRequest => ({
  pieces: [{ id: 'quarter', widthUm: 18 * inch, heightUm: 27 * inch }],
  wishes: [
    aWish('eleven', [11, 11], 1, ['quarter']),
    aWish('eight', [8, 8], 2, ['quarter']),
    aWish('six', [6, 12], 1, ['quarter']),
  ],
  objective: 'largest offcut',
  gapUm: 0,
  leastOffcutUm: 5 * inch,
  seed: 1,
})

/** More of more sizes than can be proved the best in any time a test has. */
export const tooMany = (): CutRequest => {
  const pieceIds = ['a', 'b', 'c']
  const sizes: [number, number][] = [
    [5, 7],
    [4, 9],
    [6, 11],
    [3, 13],
    [8, 5],
    [7, 10],
    [2, 17],
    [9, 4],
    [12, 3],
    [10, 6],
  ]
  return {
    pieces: pieceIds.map((id, at) => ({ id, widthUm: (31 + at) * inch, heightUm: (41 - 2 * at) * inch })),
    wishes: sizes.map((size, at) => aWish(`w${at}`, size, 9, pieceIds)),
    objective: 'least waste',
    gapUm: 0,
    leastOffcutUm: 5 * inch,
    seed: 7,
  }
}
