import { expect, it } from 'vitest'
import { cheapestCover } from '#lib/stock/cheapest-cover'

const one = (holds: number, costMinor: number) => ({ holds, costMinor, putUps: 1 })

it('takes two and a pack where that is cheapest', () => {
  // 14 wanted: 14 singles at 10 are 140; two packs of six and two singles are 2 × 50 + 2 × 10 = 120; three packs are 150.
  const pack = { holds: 6, costMinor: 50, putUps: 6 }
  expect(cheapestCover(14, [one(1, 10), pack])).toEqual({ counts: [2, 2], holds: 14, costMinor: 120, putUps: 14 })
})

it('takes more than is wanted where that costs less', () => {
  // 5 wanted: five singles are 50, a pack of six 45.
  expect(cheapestCover(5, [one(1, 10), { holds: 6, costMinor: 45, putUps: 6 }]).counts).toEqual([0, 1])
})

it('of equals takes the fewest put-ups, then the least over, then the fewest packs', () => {
  expect(cheapestCover(10, [one(5, 10), one(10, 20)]).counts).toEqual([0, 1])
  expect(cheapestCover(10, [one(12, 20), one(10, 20)]).counts).toEqual([0, 1])
  expect(cheapestCover(10, [one(5, 10), { holds: 10, costMinor: 20, putUps: 2 }]).counts).toEqual([0, 1])
})

it('without prices takes the fewest put-ups, then the least over', () => {
  // 8 + 5 + 5 is one over, 8 + 8 + 5 four.
  expect(cheapestCover(17, [one(8, 0), one(5, 0)]).counts).toEqual([1, 2])
  expect(cheapestCover(9, [one(8, 0), one(5, 0)])).toMatchObject({ counts: [0, 2], putUps: 2, holds: 10 })
})

it('refuses what makes no sense', () => {
  expect(() => cheapestCover(5, [])).toThrow(RangeError)
  expect(() => cheapestCover(0, [one(1, 1)])).toThrow(RangeError)
  expect(() => cheapestCover(5, [one(0, 1)])).toThrow(RangeError)
  expect(() => cheapestCover(5, [one(1, -1)])).toThrow(RangeError)
  expect(() => cheapestCover(5, [one(1.5, 1)])).toThrow(RangeError)
})
