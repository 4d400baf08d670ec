import { describe, expect, it } from 'vitest'
import {
  addFilter,
  mostFilters,
  moveFilter,
  removeFilter,
  renameFilter,
  type SavedFilter,
  savedFiltersSchema,
} from '#lib/settings/saved-filters'

const now: SavedFilter = { room: 'charts', name: 'Stitchable now', filter: 'stitchableNow=1' }
const low: SavedFilter = { room: 'threads', name: 'Low', filter: 'stock=low' }
const winter: SavedFilter = { room: 'charts', name: 'Winter', filter: 'season=w' }

describe('kept filters', () => {
  it('have a name of their own in their room', () => {
    expect(addFilter([now], { ...winter, name: ' STITCHABLE  now' })).toMatchObject({
      error: { kind: 'name-taken', name: 'Stitchable now' },
    })
    expect(addFilter([now], { ...low, name: 'Stitchable now' })).toMatchObject({ ok: true })
  })

  it('keep something, and not without end', () => {
    expect(addFilter([], { ...now, filter: '' })).toMatchObject({ error: { kind: 'no-choice' } })
    const many = Array.from({ length: mostFilters }, (_, at): SavedFilter => ({ ...now, name: `F${at}` }))
    expect(addFilter(many, winter)).toMatchObject({ error: { kind: 'too-many', most: mostFilters } })
    expect(addFilter(many, low)).toMatchObject({ ok: true })
  })

  it('are renamed, but not to another’s name', () => {
    expect(renameFilter([now, winter], winter, 'Cold days')).toEqual({ ok: true, value: [now, { ...winter, name: 'Cold days' }] })
    expect(renameFilter([now, winter], winter, 'winter')).toMatchObject({ ok: true })
    expect(renameFilter([now, winter], winter, 'stitchable now')).toMatchObject({ error: { kind: 'name-taken' } })
    expect(renameFilter([now], winter, 'Cold')).toMatchObject({ error: { kind: 'no-such-filter', name: 'Winter' } })
  })

  it('change places within their room, past those of others', () => {
    expect(moveFilter([now, low, winter], winter, -1)).toEqual({ ok: true, value: [winter, low, now] })
    expect(moveFilter([now, low, winter], winter, 1)).toEqual({ ok: true, value: [now, low, winter] })
  })

  it('are taken away by name', () => {
    expect(removeFilter([now, winter], now)).toEqual({ ok: true, value: [winter] })
    expect(removeFilter([winter], now)).toMatchObject({ error: { kind: 'no-such-filter' } })
  })

  it('read what reads of the stored ones, each name once', () => {
    const stored = [now, { room: 'attic', name: 'x', filter: 'y' }, 7, { ...now, filter: 'other=1' }, low]
    expect(savedFiltersSchema.parse(stored)).toEqual([now, low])
    expect(savedFiltersSchema.parse('nonsense')).toEqual([])
  })
})
