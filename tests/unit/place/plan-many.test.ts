import { expect, it } from 'vitest'
import { parseLabelPattern } from '#lib/place/label-pattern'
import { planManyPlaces } from '#lib/place/plan-many'

const pattern = (text: string) => {
  const read = parseLabelPattern(text)
  if (!read.ok) throw new Error(read.error.kind)
  return read.value
}

it('says of each label whether it is new, stands there already, or stands somewhere else', () => {
  const places = [
    { id: 't2', label: 't2', parentId: 'room' },
    { id: 't21', label: 'T2.1', parentId: 't2' },
    { id: 't32', label: 'T3.2', parentId: 'room' },
  ]
  const { lines, count } = planManyPlaces({
    pattern: pattern('T[2-3] > .[1-2]'),
    kinds: ['cabinet', 'drawer'],
    parentId: 'room',
    places,
  })
  expect(lines.map(({ label, kind, outcome, placeId }) => [label, kind, outcome, placeId])).toEqual([
    ['T2', 'cabinet', 'there', 't2'],
    ['T2.1', 'drawer', 'there', 't21'],
    ['T2.2', 'drawer', 'new', null],
    ['T3', 'cabinet', 'new', null],
    ['T3.1', 'drawer', 'new', null],
    // T3 is yet to be made, so T3.2 cannot stand in it.
    ['T3.2', 'drawer', 'clash', 't32'],
  ])
  expect(count).toEqual({ new: 3, there: 2, clash: 1 })
})

it('goes on with the last sort of place for deeper levels', () => {
  const { lines } = planManyPlaces({ pattern: pattern('a > b > c'), kinds: ['box', 'bag'], parentId: null, places: [] })
  expect(lines.map(({ kind }) => kind)).toEqual(['box', 'bag', 'bag'])
})
