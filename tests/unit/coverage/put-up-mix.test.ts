import { describe, expect, it } from 'vitest'
import { type Offer, planMix } from '#lib/coverage/put-up-mix'

const metre = 60_000
const skein = 8 * metre
const fiveYards = 5 * 9_144 * 6

const offer = (change: Partial<Offer>): Offer => ({
  ...{ offerId: null, supplier: null, putUpWord: null, putUpStrandTenths: skein, packPutUps: 1, priceMinor: null },
  ...change,
})
const plan = (metres: number, offers: Offer[], change: Partial<Parameters<typeof planMix>[0]> = {}) =>
  planMix({
    ...{ shortStrandTenths: metres * metre, isOneLot: false, cutStrandTenths: null, ownPutUpStrandTenths: skein },
    ...{ offers, ...change },
  })
const said = (mix: ReturnType<typeof planMix>) => mix?.parts.map(({ offer: of, packs }) => [of.offerId, packs])

describe('which put-ups and packs to buy', () => {
  // Prices invented. 100 m short: 13 skeins of 8 m at 1.50 are 19.50. A pack of 12 (96 m) costs 15.00, and one skein with it 16.50.
  const own = offer({ priceMinor: 150 })
  const pack = offer({ offerId: 'pack', packPutUps: 12, priceMinor: 1_500, supplier: 'The Oxmarsh Needle Room' })

  it('takes a pack and one skein', () => {
    expect(plan(100, [own, pack])).toMatchObject({ putUps: 13, priceMinor: 1_650, by: 'price', strandTenths: 104 * metre })
    expect(said(plan(100, [own, pack]))).toEqual([
      [null, 1],
      ['pack', 1],
    ])
  })

  it('of one lot takes no mix: packs alone or skeins alone', () => {
    // Two packs are 30.00, 13 skeins 19.50.
    expect(plan(100, [own, pack], { isOneLot: true })).toMatchObject({ putUps: 13, priceMinor: 1_950 })
  })

  it('where something has no price takes the fewest put-ups, and says on whose account', () => {
    // A skein of 8 m is enough; that a pack has a price is no reason to buy twelve.
    const mix = plan(7, [offer({}), pack])
    expect(mix).toMatchObject({ by: 'put-ups', putUps: 1, priceMinor: null, unpriced: [offer({})] })
    expect(said(mix)).toEqual([[null, 1]])
  })

  it('goes by price where the same skein has one in some shop', () => {
    const inShop = offer({ offerId: 'shop', supplier: 'Marl Street', priceMinor: 160 })
    expect(plan(15, [offer({}), inShop])).toMatchObject({ by: 'price', priceMinor: 320, unpriced: [] })
  })

  it('with no price at all takes the fewest put-ups', () => {
    const spool = offer({ offerId: 'spool', putUpStrandTenths: 50 * metre })
    expect(plan(60, [offer({}), spool])).toMatchObject({ by: 'put-ups', priceMinor: null, putUps: 2 })
    // 60 m: two spools hold 100, a spool and two skeins would be three.
    expect(said(plan(60, [offer({}), spool]))).toEqual([['spool', 2]])
    // 58 m: a spool and a skein are two put-ups too, with nothing over.
    expect(said(plan(58, [offer({}), spool]))).toEqual([
      [null, 1],
      ['spool', 1],
    ])
  })

  it('answers two of 5 yd or one of 8 m', () => {
    // The notes' question 26. 7 m: two of 4.572 m at 2.60 are 5.20, one of 8 m is 1.50.
    const five = offer({ offerId: '5 yd', putUpStrandTenths: fiveYards, priceMinor: 260 })
    expect(said(plan(7, [own, five]))).toEqual([[null, 1]])
    expect(said(plan(7, [offer({ priceMinor: 900 }), five]))).toEqual([['5 yd', 2]])
  })
})

describe('for kits, whose cuts have no join', () => {
  // Source: the project's trade notes, scenario A6: 0311, 13 kits of 3.1 m from 8 m: 2 a skein, 7 skeins; as a buy list reckons it, six
  // skeins in full and one cut of the seventh.
  const cutStrandTenths = 3.1 * metre
  const shortStrandTenths = 6 * skein + cutStrandTenths
  const kits = (offers: Offer[]) => plan(0, offers, { shortStrandTenths, cutStrandTenths })

  it('counts in cuts: seven of 8 m, where 40.3 m by length would be six', () => {
    expect(kits([offer({ priceMinor: 150 })])).toMatchObject({ putUps: 7, priceMinor: 1_050 })
  })

  it('takes a length that three cuts come out of', () => {
    // 10 m gives three cuts: five of them are 15 cuts for 9.25; three and two skeins of 8 m are 9 + 4 = 13 for 5.55 + 3.00 = 8.55.
    const ten = offer({ offerId: '10 m', putUpStrandTenths: 10 * metre, priceMinor: 185 })
    expect(kits([offer({ priceMinor: 150 }), ten])).toMatchObject({ priceMinor: 855, putUps: 5 })
  })

  it('takes nothing shorter than one cut, whatever it costs, and says so', () => {
    const short = offer({ offerId: '3 m', putUpStrandTenths: 3 * metre, priceMinor: 1 })
    const mix = kits([offer({ priceMinor: 150 }), short])
    expect(said(mix)).toEqual([[null, 7]])
    expect(mix?.tooShort).toEqual([short])
    expect(kits([short])).toBeNull()
  })

  it('counts a cut longer than a put-up in put-ups of the same length', () => {
    // 9 m a kit: a skein and a metre of a second, eight of which come out of one; 3 kits take 3 + 1 = 4 skeins.
    const six = offer({ offerId: 'six', packPutUps: 6, priceMinor: 500 })
    const ten = offer({ offerId: '10 m', putUpStrandTenths: 10 * metre, priceMinor: 1 })
    const mix = plan(27, [offer({ priceMinor: 150 }), six, ten], { cutStrandTenths: 9 * metre })
    expect(mix).toMatchObject({ priceMinor: 500, putUps: 6, tooShort: [ten] })
  })
})
