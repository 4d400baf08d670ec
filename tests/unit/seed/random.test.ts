import { describe, expect, it } from 'vitest'
import { seededRandom } from '#seed/random'

const many = <T>(count: number, make: () => T): T[] => Array.from({ length: count }, make)

describe('a seeded random stream', () => {
  it('gives the same numbers for the same seed and others for another', () => {
    const [one, same, other] = [seededRandom(7), seededRandom('7'), seededRandom(8)]
    const numbers = many(50, one.next)
    expect(many(50, same.next)).toEqual(numbers)
    expect(many(50, other.next)).not.toEqual(numbers)
  })

  it('spreads evenly from 0 to 1', () => {
    const random = seededRandom('even')
    const tenths = new Array<number>(10).fill(0)
    const numbers = many(100_000, random.next)
    expect(numbers.every((number) => number >= 0 && number < 1)).toBe(true)
    for (const number of numbers) {
      tenths[Math.floor(number * 10)] = (tenths[Math.floor(number * 10)] ?? 0) + 1
    }
    for (const count of tenths) expect(Math.abs(count - 10_000)).toBeLessThan(500)
  })

  it('includes both ends of a whole range', () => {
    const random = seededRandom('range')
    expect([...new Set(many(200, () => random.int(3, 6)))].sort()).toEqual([3, 4, 5, 6])
  })

  it('shuffles without losing or repeating a member, and leaves the list alone', () => {
    const list = [1, 2, 3, 4, 5, 6, 7, 8]
    const mixed = seededRandom('mix').shuffle(list)
    expect(list).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
    expect(mixed).not.toEqual(list)
    expect([...mixed].sort()).toEqual(list)
  })

  it('picks by weight', () => {
    const random = seededRandom('weight')
    const picks = many(10_000, () =>
      random.weighted([
        ['often', 9],
        ['rarely', 1],
        ['never', 0],
      ]),
    )
    expect(picks.filter((pick) => pick === 'rarely').length / 10_000).toBeCloseTo(0.1, 1)
    expect(picks).not.toContain('never')
  })

  it('draws about the mean with the spread asked for', () => {
    const random = seededRandom('normal')
    const draws = many(20_000, () => random.normal(50, 4))
    const mean = draws.reduce((sum, one) => sum + one, 0) / draws.length
    const spread = Math.sqrt(draws.reduce((sum, one) => sum + (one - mean) ** 2, 0) / draws.length)
    expect(Math.abs(mean - 50)).toBeLessThan(0.15)
    expect(Math.abs(spread - 4)).toBeLessThan(0.15)
  })

  it('refuses to pick from nothing', () => {
    expect(() => seededRandom(1).pick([])).toThrow(RangeError)
    expect(() => seededRandom(1).weighted([])).toThrow(RangeError)
  })
})
