import { describe, expect, it } from 'vitest'
import { Catalogue, type DesignRecord } from '#lib/chart/catalogue'

const aRecord = (change: Partial<DesignRecord>): DesignRecord => ({
  designId: 'd1',
  chartId: 'c1',
  title: 'Nine Wrens',
  chartTitle: 'Nine Wrens',
  kind: 'leaflet',
  ownerId: 'own stash',
  designerIds: ['Mirabel Stoat'],
  designerNames: ['Mirabel Stoat'],
  seasonIds: [],
  subjectIds: [],
  formIds: [],
  placeIds: [],
  homePlaceId: null,
  currentPlaceId: null,
  copies: 1,
  stitchCount: null,
  boughtOn: null,
  ...change,
})
const none = { threads: null, cloth: null }

describe('the catalogue', () => {
  const catalogue = new Catalogue([
    aRecord({
      designId: 'd1',
      title: 'Seven Lanterns',
      seasonIds: ['winter'],
      designerNames: ['Tilda Quennell'],
      stitchCount: 7_056,
    }),
    aRecord({
      designId: 'd2',
      title: 'Geese over Tarnbeck',
      seasonIds: ['autumn'],
      designerIds: [],
      designerNames: [],
      boughtOn: '2026-02-01',
    }),
    aRecord({ designId: 'd3', title: 'Rook Hill in Snow', seasonIds: ['winter'], boughtOn: '2025-11-30', stitchCount: 13_720 }),
  ])
  const ids = (order: Parameters<Catalogue['filter']>[2], filter: Parameters<Catalogue['filter']>[0] = {}) =>
    [...catalogue.filter(filter, none, order).slots].map((slot) => catalogue.recordAt(slot).designId)

  it('orders by title, designer, size and newest, the unknown last', () => {
    expect(ids('title')).toEqual(['d2', 'd3', 'd1'])
    expect(ids('designer')).toEqual(['d3', 'd1', 'd2'])
    expect(ids('size')).toEqual(['d1', 'd3', 'd2'])
    expect(ids('newest')).toEqual(['d2', 'd3', 'd1'])
  })

  it('keeps counting the other values of a facet that is filtered by', () => {
    const { facets } = catalogue.filter({ season: ['winter'] }, none, 'title')
    expect(ids('title', { season: ['winter'] })).toEqual(['d3', 'd1'])
    expect([...facets.season].sort()).toEqual([
      ['autumn', 1],
      ['winter', 2],
    ])
    expect([...facets.designer]).toEqual([['Mirabel Stoat', 2]])
  })

  it('finds nothing by answers that are not there', () => {
    expect(ids('bestCovered', { stitchableNow: true })).toEqual([])
    expect(ids('bestCovered', { clothCount: ['single 28'] })).toEqual([])
    expect(ids('bestCovered')).toEqual(['d2', 'd3', 'd1'])
  })

  it('knows a design by its id', () => {
    expect(catalogue.find('d1')?.title).toBe('Seven Lanterns')
    expect(catalogue.find('d9')).toBeNull()
    expect(() => catalogue.recordAt(9)).toThrow(RangeError)
  })

  it('keeps its counts through thousands of changes', () => {
    const changing = new Catalogue()
    for (let turn = 0; turn < 3_000; turn++) {
      changing.upsert(aRecord({ designId: `d${turn % 3}`, subjectIds: ['birds', `subject ${turn % 5}`] }))
      if (turn % 7 === 0) changing.remove(`d${turn % 2}`)
    }
    // d0, d1 and d2 were last changed in turns 2,997 to 2,999, after their last removals (d0 in 2,996, d1 in 2,989).
    const { facets } = changing.filter({}, none, 'title')
    expect(Object.fromEntries(facets.subject)).toEqual({ birds: 3, 'subject 2': 1, 'subject 3': 1, 'subject 4': 1 })
  })
})
