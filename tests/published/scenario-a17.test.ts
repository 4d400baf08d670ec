import { expect, it } from 'vitest'
import { insuranceList } from '#lib/insurance/insurance-list'
import type { Insured, InsuredClass } from '#lib/insurance/insured'
import { noReplacement } from '#lib/insurance/insured'
import { formatPrice } from '#lib/quantity/money'

const thing = (noun: Insured['noun'], of: InsuredClass, over: Partial<Insured> & { id: string }): Insured => ({
  ...{
    key: `${noun}.${over.id}`,
    noun,
    class: of,
    title: over.id,
    description: '',
    number: null,
    count: 1,
    partTenThousandths: 0,
  },
  ...{ priceMinor: null, pricedPer: 1, ownerName: 'Hanne Drewitt', placeLabel: null, boughtOn: null, recordedOn: null },
  ...{ recordedBy: null, photoFile: null, receiptCount: 0, irreplaceable: null, ...over },
})
const many = (count: number, make: (at: number) => Insured) => Array.from({ length: count }, (_, at) => make(at))

/** Trade notes, scenario A17, worked by hand there. */
it('A17: 9,703.00, and 10,543.00 with six framed pieces; 23 charts out of print stand apart', () => {
  const list = insuranceList(
    [
      // 1,920 skeins in 480 colours.
      ...many(480, (at) => thing('thread', 'solid', { id: `s${at}`, count: 4, priceMinor: 115 })),
      ...many(155, (at) => thing('thread', 'hand-dyed', { id: `d${at}`, count: 2, priceMinor: 360 })),
      ...many(84, (at) => thing('cloth', 'cloth', { id: `c${at}` })),
      ...many(412, (at) => thing('chart', 'charts', { id: `p${at}`, priceMinor: 1_100 })),
      thing('notion', 'notions', { id: 'hoops', count: 17, priceMinor: 3_700 }),
      ...many(6, (at) => thing('project', 'finished', { id: `f${at}`, priceMinor: 14_000, irreplaceable: 'own-work' })),
      ...many(23, (at) => thing('chart', 'charts', { id: `o${at}`, priceMinor: 900, irreplaceable: 'out-of-print' })),
    ],
    // Nobody wrote down what each piece of cloth cost: the class does for all of them.
    { replacement: { ...noReplacement, cloth: 1_450 }, dearMinor: 5_000 },
  )
  const said = Object.fromEntries(
    list.totals.map(({ class: of, count, valueMinor }) => [of, [count, formatPrice(valueMinor, null)]]),
  )
  expect(said).toEqual({
    solid: [1_920, '2,208.00'],
    'hand-dyed': [310, '1,116.00'],
    cloth: [84, '1,218.00'],
    charts: [412, '4,532.00'],
    notions: [17, '629.00'],
    finished: [6, '840.00'],
  })
  expect(formatPrice(list.goodsMinor, null)).toBe('9,703.00')
  expect(formatPrice(list.totalMinor, null)).toBe('10,543.00')
  expect([list.apart.length, formatPrice(list.apartMinor, null)]).toEqual([23, '207.00'])
  expect(list.irreplaceable).toHaveLength(29)
})
