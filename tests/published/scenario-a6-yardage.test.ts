import { expect, it } from 'vitest'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { finishingMargins } from '#lib/cloth/margins'
import { planYardage } from '#lib/cloth/yardage'

// Source: the project's trade notes, scenario A6 "Kit of 12 + 1 spare", worked by hand. Seven Lanterns ornament 84 x 84 on 28 over two,
// 2 in margin: 6 + 4 = 10 x 10. Linen 55 in bolt, usable 54: 5 across; 13/5 -> 3 rows x 10 + 1 = 31 in; sold in 4.5 in steps ->
// 31.5 in (7/8 yd), 15 squares, 2 over.

const inch = 25_400

it('13 squares of 10 × 10 take 31.5 in, seven eighths of a yard, and give two over', () => {
  const count = { threads: 28, perUm: inch }
  const finished = finishedSize({ width: 84, height: 84, ends: count, picks: count, over: 2, isTurned: false })
  const cut = cutSize({ finished, margins: finishingMargins.ornament, shrinkPercent: 0, roundingUm: inch / 2 })
  expect([cut.widthUm, cut.heightUm]).toEqual([10 * inch, 10 * inch])
  const plan = planYardage({
    ...{ copies: 13, gapUm: 0, ways: [{ widthUm: cut.widthUm, heightUm: cut.heightUm, isTurned: false }] },
    bolt: { widthUm: 55 * inch, selvedgeUm: inch / 2, straighteningUm: inch, stepUm: 4.5 * inch },
  })
  expect(plan.usableWidthUm).toBe(54 * inch)
  expect(plan.upright?.strips).toMatchObject([{ across: 5, rows: 3 }])
  expect(plan.upright?.lengthUm).toBe(30 * inch)
  expect(plan.best).toMatchObject({ toBuyUm: 31.5 * inch, gives: 15 })
  expect(plan.best?.toBuyUm).toBe(7 * ((36 * inch) / 8))
  expect(plan.isProved).toBe(true)
})
