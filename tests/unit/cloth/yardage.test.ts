import { describe, expect, it } from 'vitest'
import type { CutWay } from '#lib/cloth/cut-plan'
import { mostFrom } from '#lib/cloth/most-from'
import { searchSetYardage } from '#lib/cloth/set-yardage'
import { type Bolt, planYardage, readyCuts, yardageByWidth } from '#lib/cloth/yardage'
import { inches } from './cloth-pieces'

/** 55 in wide, 54 usable; 1 in for straightening; sold by the eighth of a yard. */
const bolt: Bolt = { widthUm: inches(55), selvedgeUm: inches(0.5), straighteningUm: inches(1), stepUm: inches(4.5) }

const upright = (wide: number, high: number): CutWay[] => [{ widthUm: inches(wide), heightUm: inches(high), isTurned: false }]
const bothWays = (wide: number, high: number): CutWay[] => [
  ...upright(wide, high),
  { widthUm: inches(high), heightUm: inches(wide), isTurned: true },
]

describe('the most from one piece', () => {
  it('is rows and columns where it may lie one way only', () => {
    expect(mostFrom({ widthUm: inches(18), heightUm: inches(27) }, upright(8, 9), { gapUm: 0 })).toMatchObject({
      copies: 6,
      isProved: true,
    })
  })

  it('finds what rows of either way do not: 2 × 3 five times in 5 × 6', () => {
    const most = mostFrom({ widthUm: inches(5), heightUm: inches(6) }, bothWays(2, 3), { gapUm: 0 })
    expect(most).toMatchObject({ copies: 5, isProved: true })
    expect(most.boxes).toHaveLength(5)
  })

  it('loses the gap between two, not at the edge', () => {
    const sheet = { widthUm: inches(16.25), heightUm: inches(8) }
    expect(mostFrom(sheet, upright(8, 8), { gapUm: inches(0.25) }).copies).toBe(2)
    expect(mostFrom({ ...sheet, widthUm: inches(16) }, upright(8, 8), { gapUm: inches(0.25) }).copies).toBe(1)
  })

  it('takes the size of each way from the cloth, which need not be square', () => {
    const ways = [
      { widthUm: inches(12), heightUm: inches(26.5), isTurned: false },
      { widthUm: inches(24.5), heightUm: inches(12.5), isTurned: true },
    ]
    // Turned it lies beside the first: 12 + 24.5; upright alone there would be three, 36 across.
    expect(mostFrom({ widthUm: inches(36.5), heightUm: inches(26.5) }, ways, { gapUm: 0 })).toMatchObject({ copies: 3 })
    expect(mostFrom({ widthUm: inches(24.5), heightUm: inches(25) }, ways, { gapUm: 0 })).toMatchObject({ copies: 2 })
  })

  it('stops at what is enough, and none comes out of what is too small', () => {
    expect(mostFrom({ widthUm: inches(54), heightUm: inches(36) }, bothWays(3, 4), { gapUm: 0, enough: 7 })).toMatchObject({
      copies: 7,
      isProved: true,
    })
    expect(mostFrom({ widthUm: inches(5), heightUm: inches(5) }, bothWays(6, 4), { gapUm: 0 })).toMatchObject({
      copies: 0,
      boxes: [],
    })
  })

  it('refuses sizes that are none', () => {
    expect(() => mostFrom({ widthUm: 100, heightUm: 100 }, [{ widthUm: 0, heightUm: 5, isTurned: false }], { gapUm: 0 })).toThrow(
      RangeError,
    )
  })
})

describe('yardage', () => {
  it('buys for rows of the way that needs less', () => {
    // 7 × 9.5: upright 7 across, 4 rows of 9.5 = 38 + 1 → 40.5; turned 5 across, 5 rows of 7 = 35 + 1 → 36.
    const plan = planYardage({ copies: 24, ways: bothWays(7, 9.5), bolt, gapUm: 0 })
    expect(plan.upright).toMatchObject({ lengthUm: inches(38), toBuyUm: inches(40.5) })
    expect(plan.turned).toMatchObject({ lengthUm: inches(35), toBuyUm: inches(36) })
    expect(plan).toMatchObject({ best: { kind: 'turned', toBuyUm: inches(36) }, isProved: true })
  })

  it('mixes rows of both ways where that needs less', () => {
    // 24 of 5.5 × 7.5: upright 9 across, 3 rows = 22.5; turned 7 across, 4 rows = 22; one upright row and 15 turned: 7.5 + 3 × 5.5 = 24;
    // two upright and 6 turned: 15 + 5.5 = 20.5, which with the inch for straightening is 21.5 → 22.5.
    const plan = planYardage({ copies: 24, ways: bothWays(5.5, 7.5), bolt, gapUm: 0 })
    expect(plan.mixed).toMatchObject({
      lengthUm: inches(20.5),
      strips: [
        { rows: 2, across: 9 },
        { rows: 1, across: 7 },
      ],
    })
    expect(plan.best).toMatchObject({ kind: 'mixed', toBuyUm: inches(22.5) })
  })

  it('buys less still where not all need lie in rows', () => {
    // 14 × 11 in rows: three across upright leave 12, four turned leave 10. A turned column beside upright ones fills the width better.
    const { best, upright: rows, turned, isProved } = planYardage({ copies: 24, ways: bothWays(11, 14), bolt, gapUm: 0 })
    expect(best).toMatchObject({ kind: 'apart', toBuyUm: inches(81) })
    expect(isProved).toBe(true)
    expect(Math.min(rows?.toBuyUm ?? 0, turned?.toBuyUm ?? 0)).toBe(inches(85.5))
    expect(best?.boxes).toHaveLength(24)
  })

  it('says when the cloth is too narrow', () => {
    expect(planYardage({ copies: 2, ways: upright(55, 10), bolt, gapUm: 0 })).toMatchObject({ best: null, upright: null })
    expect(planYardage({ copies: 2, ways: bothWays(55, 10), bolt, gapUm: 0 })).toMatchObject({ best: { kind: 'turned' } })
  })

  it('counts what the rounded length gives beyond what is wanted', () => {
    // 3 rows of 3 are 9 in; 10 are bought up to 13.5, which holds a fourth row of 18.
    const plan = planYardage({ copies: 40, ways: upright(3, 3), bolt, gapUm: 0 })
    expect(plan.best).toMatchObject({ toBuyUm: inches(13.5), gives: 72 })
  })

  it('sets bolts side by side, 54 to 60 in', () => {
    const widths = yardageByWidth({ copies: 12, ways: upright(11, 11), bolt, gapUm: 0 })
    expect(widths.map(({ widthUm }) => widthUm / inches(1))).toEqual([54, 55, 56, 57, 58, 59, 60])
    // 53 usable inches hold four of 11, 55 hold five.
    expect(widths.map(({ plan }) => plan.upright?.strips[0]?.across)).toEqual([4, 4, 5, 5, 5, 5, 5])
  })

  it('says what fat quarters and fat eighths give, squared', () => {
    const [quarter, eighth] = readyCuts({
      ...{ copies: 13, ways: bothWays(9, 9), gapUm: 0 },
      bolt: { ...bolt, widthUm: inches(54) },
    })
    // 27 × 18 holds six of 9 × 9; squared to 26.5 × 17.5 it holds two.
    expect(quarter).toMatchObject({ nominalGives: 6, squaredGives: 2, toBuy: 7 })
    expect(eighth).toMatchObject({ nominalGives: 2, squaredGives: 1, toBuy: 13 })
  })

  it('refuses figures that make no sense', () => {
    expect(() => planYardage({ copies: 0, ways: upright(3, 3), bolt, gapUm: 0 })).toThrow(RangeError)
    expect(() => planYardage({ copies: 1, ways: upright(3, 3), bolt: { ...bolt, stepUm: 0 }, gapUm: 0 })).toThrow(RangeError)
  })
})

describe('a set of several sizes on one length', () => {
  const lengthFor = (wishes: { id: string; copies: number; ways: CutWay[] }[]) => {
    const search = searchSetYardage({ wishes, bolt, gapUm: 0 })
    let step = search.next()
    while (!step.done) step = search.next()
    return step.value
  }

  it('lays small ones beside large ones', () => {
    // 11 and two of 8 stand side by side on 54: 11 + 1 → 13.5.
    const found = lengthFor([
      { id: 'large', copies: 1, ways: bothWays(11, 11) },
      { id: 'small', copies: 2, ways: bothWays(8, 8) },
    ])
    expect(found).toMatchObject({ toBuyUm: inches(13.5), isProved: true })
    expect(found?.boxes.map(({ wishId }) => wishId).sort()).toEqual(['large', 'small', 'small'])
  })

  it('is none where one is wider than the cloth', () => {
    expect(
      lengthFor([
        { id: 'wide', copies: 1, ways: upright(55, 5) },
        { id: 'small', copies: 1, ways: upright(5, 5) },
      ]),
    ).toBeNull()
  })
})
