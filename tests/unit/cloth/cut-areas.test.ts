import { expect, it } from 'vitest'
import { cutAreas } from '#lib/cloth/cut-areas'
import { across, fatQuarter, layoutOf, offcut, wanted } from './cut-layouts'

const squareInch = 25_400 ** 2

it('says where the cloth of a fat quarter goes', () => {
  // Trade scenario A8: 321 of 486 sq in used, 18 × 7 = 126 left; 486 − 321 − 126 = 39.
  expect(cutAreas([fatQuarter()])).toEqual({
    sheetUm2: 486 * squareInch,
    wantedUm2: 321 * squareInch,
    offcutUm2: 126 * squareInch,
    wasteUm2: 39 * squareInch,
    alongCutsUm2: 0,
  })
})

it('tells apart what is lost along the cuts', () => {
  // 10 × 20 in, cut at 8 with an inch lost: 80 wanted, 10 lost, 110 left.
  const { wantedUm2, offcutUm2, alongCutsUm2 } = cutAreas([layoutOf('linen', 10, 20, across(8, wanted('eight'), offcut, 1))])
  expect([wantedUm2, alongCutsUm2, offcutUm2].map((area) => area / squareInch)).toEqual([80, 10, 110])
})
