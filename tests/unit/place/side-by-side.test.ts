import { expect, it } from 'vitest'
import type { Place } from '#lib/place/place'
import { sideBySide } from '#lib/place/side-by-side'

const place = (id: string, parentId: string | null): Place => ({
  ...{ id, label: id, name: null, kind: 'compartment', parentId, path: parentId ? `/${parentId}/${id}/` : `/${id}/` },
  ...{ walkOrder: null, capacity: null },
})
const areSideBySide = sideBySide([
  ...['T2.1', 'T2.2'].map((id) => place(id, null)),
  ...['T2.1-2', 'T2.1-10', 'T2.1-3'].map((id) => place(id, 'T2.1')),
  place('T2.2-1', 'T2.2'),
])

it('calls places side by side that follow one another inside one place', () => {
  expect(areSideBySide('T2.1-2', 'T2.1-3')).toBe(true)
  expect(areSideBySide('T2.1-10', 'T2.1-3')).toBe(true)
  expect(areSideBySide('T2.1', 'T2.2')).toBe(true)
})

it('not those with one between them, in different places, the same, or unknown', () => {
  expect(areSideBySide('T2.1-2', 'T2.1-10')).toBe(false)
  expect(areSideBySide('T2.1-10', 'T2.2-1')).toBe(false)
  expect(areSideBySide('T2.1-2', 'T2.1-2')).toBe(false)
  expect(areSideBySide('T2.1', 'elsewhere')).toBe(false)
})
