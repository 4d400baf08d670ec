import { describe, expect, it } from 'vitest'
import type { Place } from '#lib/place/place'
import { isInside, pathUnder, placePath, planMovePlace } from '#lib/place/place-tree'

const aPlace = (id: string, parentId: string | null, path: string): Place => ({
  id,
  label: id,
  name: null,
  kind: 'box',
  parentId,
  path,
  walkOrder: null,
  capacity: null,
})
const room = aPlace('room', null, '/room/')
const box = aPlace('box', 'room', '/room/box/')
const bag = aPlace('bag', 'box', '/room/box/bag/')
const loft = aPlace('loft', null, '/loft/')
const places = [room, box, bag, loft]

describe('the tree of places', () => {
  it('gives the way down to a place', () => {
    const byId = new Map(places.map((place) => [place.id, place]))
    expect(placePath(bag, byId).map((place) => place.id)).toEqual(['room', 'box', 'bag'])
    expect(() => placePath(bag, new Map())).toThrow(RangeError)
    expect(() => placePath({ ...box, parentId: 'box' }, new Map([['box', { ...box, parentId: 'box' }]]))).toThrow(RangeError)
  })

  it('knows what is inside what', () => {
    expect(isInside(bag, room)).toBe(true)
    expect(isInside(room, bag)).toBe(false)
    expect(pathUnder(null, 'loft')).toBe('/loft/')
  })

  it('moves a box with all that is in it', () => {
    expect(planMovePlace('box', 'loft', places)).toEqual({
      ok: true,
      value: [
        { id: 'box', parentId: 'loft', path: '/loft/box/' },
        { id: 'bag', parentId: 'box', path: '/loft/box/bag/' },
      ],
    })
    expect(planMovePlace('box', null, places)).toMatchObject({ ok: true, value: [{ path: '/box/' }, { path: '/box/bag/' }] })
  })

  it('refuses to put a place inside itself, where it is, or nowhere known', () => {
    expect(planMovePlace('box', 'bag', places)).toMatchObject({ error: { kind: 'inside-itself' } })
    expect(planMovePlace('box', 'box', places)).toMatchObject({ error: { kind: 'inside-itself' } })
    expect(planMovePlace('box', 'room', places)).toMatchObject({ error: { kind: 'already-there' } })
    expect(planMovePlace('shed', 'room', places)).toMatchObject({ error: { kind: 'no-such-place', placeId: 'shed' } })
    expect(planMovePlace('box', 'shed', places)).toMatchObject({ error: { kind: 'no-such-place', placeId: 'shed' } })
  })
})
