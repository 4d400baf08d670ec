import { describe, expect, it } from 'vitest'
import { addedRoom, checkMerge, rehoused } from '#lib/place/merge-places'
import type { PlaceKind } from '#lib/place/place'

const place = (id: string, kind: PlaceKind = 'drawer', path = `/${id}/`) => ({ id, kind, path })

describe('merging places', () => {
  it('may be done with furniture and furniture, person and person', () => {
    expect(checkMerge(place('a'), place('b', 'box'))).toEqual({ ok: true, value: null })
    expect(checkMerge(place('a', 'person'), place('b', 'framer'))).toEqual({ ok: true, value: null })
    // What stands in the other may go into it.
    expect(checkMerge(place('b', 'box', '/a/b/'), place('a'))).toEqual({ ok: true, value: null })
  })

  it.each([
    [place('a'), place('a'), 'same-place'],
    [place('a'), place('b', 'drawer', '/a/b/'), 'inside-itself'],
    [place('a', 'person'), place('b'), 'person-and-place'],
    [place('a'), place('b', 'not found'), 'kept-by-record'],
    [place('a', 'not found'), place('b'), 'kept-by-record'],
  ])('is refused otherwise', (from, into, kind) => {
    expect(checkMerge(from, into)).toMatchObject({ ok: false, error: { kind } })
  })

  it('takes along what lives or lies there, and leaves what is elsewhere', () => {
    expect(rehoused({ homePlaceId: 'a', currentPlaceId: 'a' }, 'a', 'b')).toEqual({ homePlaceId: 'b', currentPlaceId: 'b' })
    expect(rehoused({ homePlaceId: 'a', currentPlaceId: 'bag' }, 'a', 'b')).toEqual({ homePlaceId: 'b', currentPlaceId: 'bag' })
    expect(rehoused({ homePlaceId: 'c', currentPlaceId: 'a' }, 'a', 'b')).toEqual({ homePlaceId: 'c', currentPlaceId: 'b' })
    expect(rehoused({ homePlaceId: 'c', currentPlaceId: null }, 'a', 'b')).toEqual({ homePlaceId: 'c', currentPlaceId: null })
  })

  it('adds room up as far as it is known', () => {
    const skeins = (most: number) => [{ putUpWord: 'skein', most }]
    expect(addedRoom({ capacity: 40, putUps: skeins(6) }, { capacity: null, putUps: skeins(4) })).toEqual({
      capacity: 40,
      putUps: skeins(10),
    })
    expect(addedRoom({ capacity: null, putUps: [] }, { capacity: null, putUps: [] })).toEqual({ capacity: null, putUps: [] })
    expect(addedRoom({ capacity: 3, putUps: [] }, { capacity: 4, putUps: [] }).capacity).toBe(7)
  })
})
