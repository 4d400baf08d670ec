import { describe, expect, it } from 'vitest'
import { type CostedLine, costKits } from '#lib/project/kit/cost'

const numbers = { copies: 13, spares: 1, soldSpares: 0 }
/** 0311 of scenario A6 at 1.15 a skein: 3.1 m of 8. */
const solid: CostedLine = {
  ...{ kind: 'thread', key: 'thread:0311', perKitStrandTenths: 31_000, putUpsForAll: 7 },
  ...{ putUpStrandTenths: 80_000, putUpPriceMinor: 115 },
}

describe('what a kit costs', () => {
  it('takes thread by the length cut, and tells apart what whole put-ups leave', () => {
    // 115 × 3.1 / 8 = 44.56; for 13: 115 × 40.3 / 8 = 579.3; seven skeins are 805.
    expect(costKits({ ...numbers, lines: [solid], kitPriceMinor: null }).lines).toEqual([
      { key: 'thread:0311', from: solid, perKitMinor: 45, forAllMinor: 579, leftOverMinor: 226 },
    ])
  })

  it('adds a chart to each kit but not to spares, items by their number, and names what has no price', () => {
    const cost = costKits({
      ...numbers,
      kitPriceMinor: 2_400,
      lines: [
        solid,
        { kind: 'cloth', key: 'cloth' },
        { kind: 'chart', key: 'chart', priceMinor: 550 },
        { kind: 'item', key: 'item:n', perKit: 2, priceMinor: 20 },
        { kind: 'item', key: 'item:b', perKit: 30, priceMinor: null },
      ],
    })
    expect(cost.lines.map(({ perKitMinor }) => perKitMinor)).toEqual([45, null, 550, 40, null])
    // 579 + 12 × 550 + 13 × 40
    expect(cost).toMatchObject({ perKitMinor: 635, forAllMinor: 7_699, leftOverMinor: 226, unknown: ['cloth', 'item:b'] })
    // 2,400 − 635 = 1,765, of 2,400 73.54 %
    expect(cost).toMatchObject({ marginMinor: 1_765, marginPerMille: 735 })
  })

  it('counts the chart of a spare once it is sold', () => {
    const lines: CostedLine[] = [{ kind: 'chart', key: 'chart', priceMinor: 550 }]
    expect(costKits({ ...numbers, soldSpares: 1, lines, kitPriceMinor: null }).forAllMinor).toBe(13 * 550)
  })

  it('knows no margin without a price, and none in parts of nought', () => {
    expect(costKits({ ...numbers, lines: [solid], kitPriceMinor: null })).toMatchObject({
      marginMinor: null,
      marginPerMille: null,
    })
    expect(costKits({ ...numbers, lines: [solid], kitPriceMinor: 0 })).toMatchObject({ marginMinor: -45, marginPerMille: null })
  })
})
