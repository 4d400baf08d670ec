import { describe, expect, it } from 'vitest'
import { hexToLab } from '#lib/colour/convert'
import { colourFamilies, compareForChoosing, familyNamed, familyOf, filedFamily } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'

const lab = (hex: string) => hexToLab(hex) as Lab

describe('the family of a colour', () => {
  // Plain colours anybody would call so.
  it.each([
    ['#ffffff', 'white'],
    ['#808080', 'grey'],
    ['#000000', 'black'],
    ['#ff0000', 'red'],
    ['#ffb6c1', 'pink'],
    ['#ff8000', 'orange'],
    ['#6b4423', 'brown'],
    ['#ffff00', 'yellow'],
    ['#808000', 'olive'],
    ['#008000', 'green'],
    ['#008080', 'blue-green'],
    ['#0000ff', 'blue'],
    ['#800080', 'purple'],
  ])('of %s is %s', (hex, family) => expect(familyOf(lab(hex))).toBe(family))

  it('is some family wherever the colour lies', () => {
    const seen = new Set<string>()
    for (let L = 0; L <= 100; L += 4)
      for (let a = -128; a <= 128; a += 8) for (let b = -128; b <= 128; b += 8) seen.add(familyOf({ L, a, b }))
    expect([...seen].sort()).toEqual([...colourFamilies].sort())
  })

  it('is a person’s word where there is one, and unknown without word or colour', () => {
    expect(filedFamily({ lab: lab('#008080'), family: 'blue' })).toBe('blue')
    expect(filedFamily({ lab: lab('#008080'), family: null })).toBe('blue-green')
    expect(filedFamily({ lab: null, family: 'brown' })).toBe('brown')
    expect(filedFamily({ lab: null, family: null })).toBeNull()
    expect(['brown', 'mud', null].map(familyNamed)).toEqual(['brown', null, null])
  })
})

describe('the order for choosing', () => {
  it('goes by family, hue and light before dark, with the unknown last', () => {
    const hexes = ['#000080', '#ffe0e6', '#800000', '#ff9999', '#99ccff', '#ffffff']
    const threads = [{ lab: null, family: null }, ...hexes.map((hex) => ({ lab: lab(hex), family: null }))]
    const inOrder = threads.sort(compareForChoosing).map((thread) => filedFamily(thread))
    expect(inOrder).toEqual(['white', 'pink', 'pink', 'red', 'blue', 'blue', null])
  })

  it('keeps reds on both sides of the circle’s beginning together, light before dark', () => {
    const shades = [
      { L: 40, a: 50, b: 3 },
      { L: 50, a: 50, b: 3 },
      { L: 45, a: 50, b: -6 },
    ].map((shade) => ({ lab: shade, family: null }))
    expect(shades.sort(compareForChoosing).map((shade) => shade.lab.L)).toEqual([45, 50, 40])
  })
})
