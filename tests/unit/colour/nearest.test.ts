import { describe, expect, it } from 'vitest'
import { deltaE00 } from '#lib/colour/convert'
import { NearestColours } from '#lib/colour/nearest'

const grey = { L: 50, a: 0, b: 0 }
const at = (L: number, a = 0, b = 0) => ({ L, a, b })

describe('the nearest of many colours', () => {
  it('come nearest first, with their difference', () => {
    const colours = [
      { id: 'light', lab: at(90) },
      { id: 'near', lab: at(52) },
      { id: 'same', lab: grey },
    ]
    const near = new NearestColours(colours).nearest(grey, { count: 2 })
    expect(near).toEqual([
      { id: 'same', deltaE00: 0 },
      { id: 'near', deltaE00: deltaE00(grey, at(52)) },
    ])
  })

  it('are told apart by id where they differ alike, whatever their order', () => {
    const alike = ['c', 'a', 'd', 'b'].map((id) => ({ id, lab: at(40, 10, 10) }))
    for (const colours of [alike, [...alike].reverse()])
      expect(new NearestColours(colours).nearest(grey, { count: 3 }).map(({ id }) => id)).toEqual(['a', 'b', 'c'])
  })

  it('can be kept within a difference, the limit itself included, and to those that will do', () => {
    const colours = [50, 51, 52, 53].map((L) => ({ id: `L${L}`, lab: at(L) }))
    const finder = new NearestColours(colours)
    const within = deltaE00(grey, at(52))
    expect(finder.nearest(grey, { count: 9, within }).map(({ id }) => id)).toEqual(['L50', 'L51', 'L52'])
    expect(finder.nearest(grey, { count: 1, accepts: (id) => id !== 'L50' }).map(({ id }) => id)).toEqual(['L51'])
    expect(finder.nearest(grey, { count: 0 })).toEqual([])
  })

  it('are none where there are none', () => {
    expect(new NearestColours([]).nearest(grey, { count: 5 })).toEqual([])
  })

  it('are not looked for among figures that are no colour', () => {
    expect(() => new NearestColours([{ id: 'x', lab: at(Number.NaN) }])).toThrow(RangeError)
    expect(() => new NearestColours([]).nearest(at(200), { count: 1 })).toThrow(RangeError)
  })
})
