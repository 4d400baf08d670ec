import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type ClothFilter, filterCloth } from '#lib/cloth/filter-cloth'
import type { ClothListed } from '#lib/db/cloth/queries'

const all: ClothFilter = { weave: null, count: null, colour: null, placeId: null, onlyOffcuts: false, onlyFree: false }
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
    expect(idsOf({ count: '28' })).toEqual(['d', 'e', 'c'])
    expect(idsOf({ count: '34 × 31' })).toEqual(['b'])
    expect(idsOf({ weave: 'block' })).toEqual(['a'])
    expect(idsOf({ colour: 'Flax', placeId: 'bag' })).toEqual(['e'])
    expect(idsOf({ onlyOffcuts: true })).toEqual(['c'])
    expect(idsOf({ onlyFree: true })).toEqual(['d', 'e', 'c', 'a'])
  })

  it('says beside each choice how many pieces it would leave, the other choices as they are', () => {
    const { choices } = filterCloth(pieces, { ...all, colour: 'Flax', count: '28' })
    expect([...choices.colour]).toEqual([
      ['Oat', 1],
      ['Flax', 2],
    ])
    expect([...choices.count]).toEqual([
      ['28', 2],
      ['34 × 31', 1],
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
