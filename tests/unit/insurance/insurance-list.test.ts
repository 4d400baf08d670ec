import { describe, expect, it } from 'vitest'
import { insuranceList } from '#lib/insurance/insurance-list'
import { type Insured, noReplacement, valueInsured } from '#lib/insurance/insured'

const aSkein = (over: Partial<Insured> = {}): Insured => ({
  ...{ key: 'thread.t1', noun: 'thread', id: 't1', class: 'solid', title: 'Larkholm 0017', description: '', number: '0017' },
  ...{ count: 1, partTenThousandths: 0, priceMinor: null, pricedPer: 1, ownerName: 'Hanne Drewitt', placeLabel: null },
  ...{ boughtOn: null, recordedOn: null, recordedBy: null, photoFile: null, receiptCount: 0, irreplaceable: null, ...over },
})

describe('the insurance list', () => {
  it('takes a thing’s own price before its class’s, and says where there is neither', () => {
    const replacement = { ...noReplacement, solid: 130 }
    expect(valueInsured(aSkein({ count: 3, priceMinor: 115 }), replacement)).toMatchObject({ valueMinor: 345, valuedBy: 'own' })
    expect(valueInsured(aSkein({ count: 3 }), replacement)).toMatchObject({ valueMinor: 390, valuedBy: 'class' })
    expect(valueInsured(aSkein({ count: 3 }), noReplacement)).toMatchObject({
      valueMinor: 0,
      valuedBy: 'nothing',
      oneMinor: null,
    })
    // A price of nothing is a price.
    expect(valueInsured(aSkein({ priceMinor: 0 }), replacement)).toMatchObject({ valueMinor: 0, valuedBy: 'own' })
  })

  it('counts a part skein by its length, and a pack by what is left of it, rounding down', () => {
    // 2½ skeins at 1.15 are 2.875.
    expect(valueInsured(aSkein({ count: 2, partTenThousandths: 5_000, priceMinor: 115 }), noReplacement).valueMinor).toBe(287)
    // Seven needles of a pack of six at 4.50: 5.25.
    expect(valueInsured(aSkein({ class: 'notions', count: 7, priceMinor: 450, pricedPer: 6 }), noReplacement).valueMinor).toBe(
      525,
    )
    // A class’s value is for one, whatever is sold in packs.
    const notion = aSkein({ class: 'notions', count: 7, pricedPer: 6 })
    expect(valueInsured(notion, { ...noReplacement, notions: 100 }).valueMinor).toBe(700)
  })

  it('asks for photograph and receipt of what is dear, out of print or finished, and of nothing else', () => {
    const list = insuranceList(
      [
        aSkein({ key: 'a', priceMinor: 4_999, count: 9 }),
        aSkein({ key: 'b', priceMinor: 5_000 }),
        aSkein({ key: 'c', class: 'charts', noun: 'chart', irreplaceable: 'out-of-print' }),
        aSkein({ key: 'd', class: 'finished', noun: 'project', irreplaceable: 'own-work' }),
        aSkein({ key: 'e', irreplaceable: 'no-longer-made', priceMinor: 360 }),
      ],
      { replacement: noReplacement, dearMinor: 5_000 },
    )
    expect(list.dear.map(({ key }) => key)).toEqual(['b', 'c', 'd'])
    expect(list.irreplaceable.map(({ key }) => key)).toEqual(['e', 'c', 'd'])
    // What is no longer made stays in the total; a chart out of print does not.
    expect(list.totalMinor).toBe(9 * 4_999 + 5_000 + 360)
    expect(list.apart.map(({ key }) => key)).toEqual(['c'])
    expect(list.unvalued).toBe(2)
  })

  it('adds up: the classes make the total', () => {
    const things = [1, 2, 3, 4, 5].map((at) =>
      aSkein({
        key: String(at),
        class: (['solid', 'hand-dyed', 'cloth', 'charts', 'finished'] as const)[at - 1],
        priceMinor: 99 * at,
      }),
    )
    const list = insuranceList(things, { replacement: noReplacement, dearMinor: 1 })
    expect(list.totals.reduce((sum, { valueMinor }) => sum + valueMinor, 0)).toBe(list.totalMinor)
    expect(list.totalMinor - list.goodsMinor).toBe(495)
  })
})
