import { describe, expect, it } from 'vitest'
import {
  differingFields,
  freeListName,
  type MergingChart,
  mergedChart,
  pairDesigns,
  takenUnasked,
} from '#lib/chart/doubles-merged'

const chart = (over: Partial<MergingChart> = {}): MergingChart => ({
  ...{ id: 'a', title: 'Rook Hill in Snow', kind: 'leaflet', copies: 1, edition: null, partsNeeded: 1, partsHeld: 1 },
  ...{ homePlaceId: 'R1', currentPlaceId: 'R1', outSince: null, boughtOn: null, priceMinor: null, isOutOfPrint: false },
  ...{ coverFile: null, coverHash: null, note: null, designerIds: ['stoat'] },
  ...over,
})

describe('two charts become one', () => {
  it('with the copies of both, gaps filled from the other, and the kept one’s word elsewhere', () => {
    const kept = chart({ note: 'a gift' })
    const other = chart({ id: 'b', title: 'Rooks', copies: 2, edition: '2nd', priceMinor: 900, note: 'torn', isOutOfPrint: true })
    expect(differingFields(kept, other)).toEqual(['title', 'note'])
    expect(mergedChart(kept, other, {})).toMatchObject({
      chart: { title: 'Rook Hill in Snow', copies: 3, edition: '2nd', priceMinor: 900, isOutOfPrint: true, note: 'a gift\ntorn' },
      givenUpTitle: 'Rooks',
    })
    expect(mergedChart(kept, other, { title: 'other', note: 'kept' })).toMatchObject({
      chart: { title: 'Rooks', note: 'a gift' },
      givenUpTitle: 'Rook Hill in Snow',
    })
    expect(takenUnasked(kept, other, 'edition')).toBe('other')
  })

  it('at home as long as a copy is; on loan when both are', () => {
    const day = new Date('2026-03-03')
    const lent = { currentPlaceId: 'ines', outSince: day }
    expect(mergedChart(chart(lent), chart({ id: 'b', homePlaceId: 'R2', currentPlaceId: 'R2' }), {}).chart).toMatchObject({
      ...{ homePlaceId: 'R1', currentPlaceId: 'R1', outSince: null },
    })
    expect(mergedChart(chart(lent), chart({ id: 'b', ...lent }), {}).chart).toMatchObject({
      ...{ homePlaceId: 'R1', currentPlaceId: 'ines', outSince: day },
    })
    expect(mergedChart(chart({ homePlaceId: null, currentPlaceId: null }), chart({ id: 'b' }), {}).chart.homePlaceId).toBe('R1')
  })

  it('with designers side by side where that is chosen, and no field twice but those', () => {
    const other = chart({ id: 'b', designerIds: ['pindar', 'stoat'], edition: '2nd' })
    expect(mergedChart(chart(), other, { designers: 'both' }).chart.designerIds).toEqual(['stoat', 'pindar'])
    expect(mergedChart(chart({ edition: '1st' }), other, { edition: 'both' }).chart.edition).toBe('1st')
  })
})

describe('designs', () => {
  it('of one title are one, the only ones of both are one, and the others go over', () => {
    const design = (id: string, title: string) => ({ id, title })
    expect(
      pairDesigns([design('1', 'Nine Wrens'), design('2', 'Salt Road')], [design('3', 'nine  wrens'), design('4', 'Pump')]),
    ).toEqual([
      { otherId: '3', keptId: '1' },
      { otherId: '4', keptId: null },
    ])
    expect(pairDesigns([design('1', 'Rook Hill')], [design('2', 'Rooks')])).toEqual([{ otherId: '2', keptId: '1' }])
  })

  it('have lists of other names', () => {
    expect(freeListName('Cotton', 'Rooks', ['Silk'])).toBe('Cotton')
    expect(freeListName('cotton', 'Rooks', ['Cotton'])).toBe('cotton (Rooks)')
    expect(freeListName('Cotton', 'Rooks', ['Cotton', 'Cotton (Rooks)'])).toBe('Cotton (Rooks) 2')
  })
})
