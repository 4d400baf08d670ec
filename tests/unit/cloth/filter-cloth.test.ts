import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type ClothFilter, filterCloth } from '#lib/cloth/filter-cloth'
import type { ClothListed } from '#lib/db/cloth/queries'

const all: ClothFilter = {
  ...{ weave: null, count: null, colour: null, atLeast: null, placeId: null },
  ...{ onlyOffcuts: false, onlyFree: false },
}
const perInch = (threads: number) => ({ threads, perUm: 25_400 })

const aPiece = (id: string, over: Partial<ClothListed> = {}): ClothListed => ({
  id,
  ownerId: 'shop',
  ownerName: 'The Oxmarsh Needle Room',
  label: null,
  name: 'Linen',
  makerName: null,
  colourName: 'Flax',
  lab: null,
  weave: 'single',
  ends: perInch(28),
  picks: perInch(28),
  widthUm: 457_200,
  heightUm: 685_800,
  isSquared: true,
  sizeCertainty: 'measured',
  isTurnable: true,
  dyeing: null,
  washState: 'unknown',
  isCountStale: false,
  isReserved: false,
  isOffcut: false,
  homePlaceId: 'box',
  currentPlaceId: 'box',
  version: 0,
  home: { id: 'box', label: 'Box L3', name: null, kind: 'box' },
  current: { id: 'box', label: 'Box L3', name: null, kind: 'box' },
  outSince: null,
  countCertainty: 'label',
  oneWayBecause: null,
  washedOn: null,
  bleedTest: null,
  bleedTestedOn: null,
  reservedBy: [],
  plannedIn: [],
  ...over,
})

const pieces = [
  aPiece('a', { weave: 'block', name: 'Block cloth', colourName: 'White', ends: perInch(14), picks: perInch(14) }),
  aPiece('b', { ends: perInch(34), picks: perInch(31), isReserved: true }),
  aPiece('c', { isOffcut: true, widthUm: 152_400 }),
  aPiece('d', { ends: { threads: 110, perUm: 100_000 }, picks: { threads: 110, perUm: 100_000 }, colourName: 'Oat' }),
  aPiece('e', { current: { id: 'bag', label: 'K-07', name: null, kind: 'bag' } }),
]
const idsOf = (filter: Partial<ClothFilter>) => filterCloth(pieces, { ...all, ...filter }).shown.map(({ id }) => id)

describe('narrowing a list of cloth', () => {
  it('puts single-thread cloths first, coarse before fine, large before small', () => {
    // 110 to 10 cm is 27.94 to the inch: just coarser than 28.
    expect(idsOf({})).toEqual(['d', 'e', 'c', 'b', 'a'])
  })

  it('narrows by what one says of a piece, counts counted either way alike', () => {
    expect(idsOf({ count: 28 })).toEqual(['e', 'c', 'd'])
    expect(idsOf({ weave: 'block' })).toEqual(['a'])
    expect(idsOf({ colour: 'Flax', placeId: 'bag' })).toEqual(['e'])
    expect(idsOf({ onlyOffcuts: true })).toEqual(['c'])
    expect(idsOf({ onlyFree: true })).toEqual(['d', 'e', 'c', 'a'])
  })

  it('takes in cloth near a count, the nearest first', () => {
    const measured = [
      aPiece('31 × 33', { ends: perInch(31), picks: perInch(33) }),
      aPiece('31', { ends: perInch(31), picks: perInch(31) }),
      aPiece('32', { ends: perInch(32), picks: perInch(32) }),
      aPiece('33½', { ends: perInch(33.5), picks: perInch(33.5) }),
      aPiece('34', { ends: perInch(34), picks: perInch(34) }),
      aPiece('30', { ends: perInch(30), picks: perInch(30) }),
    ]
    const { shown, choices } = filterCloth(measured, { ...all, count: 32 })
    expect(shown.map(({ id }) => id)).toEqual(['31 × 33', '32', '31', '33½'])
    // Whole counts on hand, 33½ being spoken of as 34; near 34 is from 32.3 to 35.7.
    expect([...choices.count]).toEqual([
      [30, 2],
      [31, 4],
      [32, 4],
      [34, 2],
    ])
  })

  // Question 10: "Have I 32-count in anything grey-blue at least 14 × 18?"
  it('answers whether there is 32 count in anything grey-blue at least 14 × 18', () => {
    const inch = 25_400
    const blueGrey = { lab: { L: 66, a: -2, b: -7 }, colourName: null }
    const of32 = { ends: perInch(32), picks: perInch(32) }
    const size = (width: number, height: number) => ({ widthUm: width * inch, heightUm: height * inch })
    const drawer = [
      aPiece('right', { ...of32, ...blueGrey, ...size(14, 18) }),
      aPiece('by its name', { ...of32, colourName: 'Storm Blue Grey', ...size(18, 27) }),
      aPiece('near it', { ends: perInch(31), picks: perInch(33), ...blueGrey, ...size(18, 14) }),
      aPiece('not to be turned', { ...of32, ...blueGrey, ...size(18, 14), isTurnable: false }),
      aPiece('too small', { ...of32, ...blueGrey, ...size(13, 27) }),
      aPiece('kept', { ...of32, ...blueGrey, ...size(18, 27), isReserved: true }),
      aPiece('a clear blue', { ...of32, lab: { L: 45, a: 0, b: -35 }, colourName: 'Night Blue', ...size(18, 27) }),
      aPiece('white', { ...of32, lab: { L: 95, a: 0, b: 2 }, colourName: 'White', ...size(18, 27) }),
      aPiece('of another count', { ...blueGrey, ...size(18, 27) }),
    ]
    const asked = { ...all, count: 32, colour: 'grey-blue', atLeast: size(14, 18), onlyFree: true }
    const found = filterCloth(drawer, asked).shown.map(({ id }) => id)
    expect(new Set(found)).toEqual(new Set(['right', 'by its name', 'near it']))
    expect(filterCloth(drawer, { ...asked, onlyFree: false }).shown).toHaveLength(4)
  })

  it('says beside each choice how many pieces it would leave, the other choices as they are', () => {
    const { choices } = filterCloth(pieces, { ...all, colour: 'Flax', count: 28 })
    expect([...choices.colour]).toEqual([
      ['Flax', 2],
      ['Oat', 1],
    ])
    // Flax and oat are looked for among the browns.
    expect([...choices.family]).toEqual([['brown', 3]])
    // Of the Flax pieces: two of 28, and one of 34 × 31, whose mean is 32.5.
    expect([...choices.count]).toEqual([
      [28, 2],
      [33, 1],
    ])
    expect([...choices.weave]).toEqual([['single', 2]])
  })

  it('gives the same answer whatever order the pieces come in', () => {
    const expected = filterCloth(pieces, all)
    fc.assert(
      fc.property(fc.shuffledSubarray(pieces, { minLength: pieces.length }), (shuffled) => {
        expect(filterCloth(shuffled, all)).toEqual(expected)
      }),
      { seed: 20260907, numRuns: 200 },
    )
  })
})
