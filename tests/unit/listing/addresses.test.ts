import { describe, expect, it } from 'vitest'
import { filterText } from '../../../app/_listing/list-address'
import { notionsHref, notionsQuerySchema } from '../../../app/_listing/notions-query'
import { rowsAddress } from '../../../app/_listing/rows-address'
import { rowsAskedSchema } from '../../../app/_listing/rows-asked'
import { searchOfUrl } from '../../../app/_listing/search-of-url'
import { missingFromChartFilter } from '../../../app/charts/missing-from-filter'

describe('a list’s choices as one text', () => {
  it('is the same whatever order they were made in, without the page', () => {
    expect(filterText('q=heron&season=w&page=3&season=a&kind=')).toBe('q=heron&season=a&season=w')
    expect(filterText('season=w&q=heron&season=a')).toBe('q=heron&season=a&season=w')
    expect(filterText('page=2')).toBe('')
  })

  it('is read back as a page gets it', () => {
    expect(searchOfUrl('/charts?q=heron&season=a&season=w')).toEqual({ q: 'heron', season: ['a', 'w'] })
  })
})

describe('where the rows of a list are fetched', () => {
  const shared = globalThis as { larderAsking?: { getStore: () => { language?: string } } }

  it('says whose goods and in what language, since what is answered there is kept', () => {
    expect(rowsAddress('cloth', 'count=28', ['o1', 'o2'])).toBe('/cloth/rows?count=28&of=o1,o2&language=en')
    const before = shared.larderAsking
    shared.larderAsking = { getStore: () => ({ language: 'de' }) }
    expect(rowsAddress('charts', '', ['o1'])).toBe('/charts/rows?&of=o1&language=de')
    shared.larderAsking = before
  })

  it('is the same list whichever page of it is looked at', () => {
    const query = notionsQuerySchema.parse({ kind: 'needle', page: '3' })
    expect(notionsHref(query, 1)).toBe('/notions?kind=needle')
    expect(notionsHref(query, 2)).toBe('/notions?kind=needle&page=2')
    expect(notionsHref(notionsQuerySchema.parse({ kind: 'spoon', low: '2' }), 1)).toBe('/notions')
  })
})

describe('rows that are asked for', () => {
  it('are a block, or a run that is not too long', () => {
    expect(rowsAskedSchema.safeParse({ from: '200' }).success).toBe(true)
    expect(rowsAskedSchema.safeParse({ from: '200', to: '199' }).success).toBe(false)
    expect(rowsAskedSchema.safeParse({ from: '0', to: '20000' }).success).toBe(false)
    expect(rowsAskedSchema.safeParse({ from: '-1' }).success).toBe(false)
    expect(rowsAskedSchema.safeParse({}).success).toBe(false)
  })
})

describe('a kept filter of charts', () => {
  const known = new Map([['here', null]])
  const world = { designers: known, places: known, themes: known }
  const missing = (filter: string) =>
    missingFromChartFilter(filter, { world } as unknown as Parameters<typeof missingFromChartFilter>[1])

  it('says what it names that is not there any more', () => {
    expect(missing('designer=here&season=here&stitchableNow=1')).toBeNull()
    expect(missing('place=here&place=gone')).toBe('This filter names a place that is not there any more.')
    expect(missing('form=gone')).toBe('This filter names a theme that is not on record any more.')
    expect(missing('designer=gone')).toBe('This filter names a designer who is not on record any more.')
  })
})
