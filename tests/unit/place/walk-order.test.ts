import { describe, expect, it } from 'vitest'
import type { Place } from '#lib/place/place'
import { compareLabels, walkOrder, walkRanks } from '#lib/place/walk-order'

const aPlace = (label: string, parentId: string | null = null, walkOrder: number | null = null): Place => ({
  id: label,
  label,
  name: null,
  kind: 'drawer',
  parentId,
  path: parentId ? `/${parentId}/${label}/` : `/${label}/`,
  walkOrder,
  capacity: null,
})

describe('labels', () => {
  it('are read as one walks: column 2 before column 10', () => {
    const labels = ['T10.1-03', 'T2.2-05', 'T4.3-01', 'T2.1-14', 'T2.1-2']
    expect(labels.sort(compareLabels)).toEqual(['T2.1-2', 'T2.1-14', 'T2.2-05', 'T4.3-01', 'T10.1-03'])
  })

  it('differ whenever their texts do', () => {
    expect(compareLabels('K-7', 'K-07')).not.toBe(0)
    expect(compareLabels('k-07', 'K-07')).not.toBe(0)
    expect(compareLabels('K-07', 'K-07')).toBe(0)
  })
})

describe('the walk', () => {
  it('passes each place before what is inside it, and follows a set order before labels', () => {
    const places = [
      aPlace('T10', 'Kitting room'),
      aPlace('T2.1', 'T2'),
      aPlace('T2', 'Kitting room'),
      aPlace('Kitting room', null, 2),
      aPlace('Front', null, 1),
      aPlace('Attic'),
      aPlace('T9', 'Kitting room', 0),
      aPlace('lost', 'not among them'),
    ]
    const walked = ['Front', 'Kitting room', 'T9', 'T2', 'T2.1', 'T10', 'Attic', 'lost']
    expect(walkOrder(places).map((place) => place.label)).toEqual(walked)
    expect(walkOrder([...places].reverse()).map((place) => place.label)).toEqual(walked)
    expect(walkRanks(places).get('T2.1')).toBe(4)
  })

  it('refuses places that are inside each other', () => {
    expect(() => walkOrder([aPlace('a', 'b'), aPlace('b', 'a')])).toThrow(RangeError)
  })
})
