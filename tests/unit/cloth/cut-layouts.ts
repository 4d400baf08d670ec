import type { CutLayout, CutNode } from '../../../lib/cloth/cut-plan'

const inch = 25_400
type Sized = { xUm: number; yUm: number; widthUm: number; heightUm: number }
type Make = (box: Sized) => CutNode

const inches = (width: number, height: number): Sized => ({ xUm: 0, yUm: 0, widthUm: width * inch, heightUm: height * inch })

export const wanted =
  (wishId: string, copy = 1, isTurned = false): Make =>
  (box) => ({ kind: 'wanted', ...box, wishId, copy, isTurned })
export const offcut: Make = (box) => ({ kind: 'offcut', ...box })
export const waste: Make = (box) => ({ kind: 'waste', ...box })

/** Cut across at so many inches from the foot; what is below, what is above. */
export const across =
  (at: number, below: Make, above: Make | null, gap = 0): Make =>
  (box) => ({
    kind: 'cut',
    ...box,
    way: 'across',
    atUm: at * inch,
    first: below({ ...box, heightUm: at * inch }),
    second:
      above === null ? null : above({ ...box, yUm: box.yUm + (at + gap) * inch, heightUm: box.heightUm - (at + gap) * inch }),
  })

/** Cut up at so many inches from the left; what is left, what is right. */
export const up =
  (at: number, left: Make, right: Make | null, gap = 0): Make =>
  (box) => ({
    kind: 'cut',
    ...box,
    way: 'up',
    atUm: at * inch,
    first: left({ ...box, widthUm: at * inch }),
    second: right === null ? null : right({ ...box, xUm: box.xUm + (at + gap) * inch, widthUm: box.widthUm - (at + gap) * inch }),
  })

export const layoutOf = (pieceId: string, width: number, height: number, root: Make): CutLayout => ({
  pieceId,
  root: root(inches(width, height)),
})

/** Trade scenario A8: from 18 × 27 in, one 11 × 11, two 8 × 8 and one 6 × 12; 18 × 7 in is left. */
export const fatQuarter = (): CutLayout =>
  layoutOf(
    'fat-quarter',
    18,
    27,
    across(
      12,
      up(11, across(11, wanted('eleven'), waste), up(6, wanted('six'), waste)),
      across(8, up(8, wanted('eight', 1), up(8, wanted('eight', 2), waste)), offcut),
    ),
  )

/** Trade scenario A6: three rows of five 10 in squares from 54 × 31 in, thirteen wanted and two over. */
export const fifteenSquares = (): CutLayout => {
  const row = (first: number, count: number): Make =>
    [0, 1, 2, 3, 4].reduceRight<Make>((right, at) => up(10, at < count ? wanted('lanterns', first + at) : offcut, right), waste)
  return layoutOf('linen', 54, 31, across(10, row(1, 5), across(10, row(6, 5), across(10, row(11, 3), waste))))
}
