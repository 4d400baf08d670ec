import { describe, expect, it } from 'vitest'
import { clothFamilies, isOfColour } from '#lib/cloth/cloth-colour'

const blueGrey = { colourName: null, lab: { L: 66, a: -2, b: -7 } }
const named = (colourName: string) => ({ colourName, lab: null })

describe('the colour cloth is looked for under', () => {
  it('is the family of its recorded colour, and those it lies beside', () => {
    expect(clothFamilies(blueGrey)).toEqual(['grey', 'blue-green', 'blue'])
    expect(clothFamilies({ colourName: null, lab: { L: 30, a: 5, b: -45 } })).toEqual(['blue'])
  })

  it('is what its name says, where no colour is recorded or beside it', () => {
    expect(clothFamilies(named('Pale Grey'))).toEqual(['grey'])
    expect(clothFamilies(named('Cream'))).toEqual(['white', 'yellow'])
    expect(clothFamilies({ lab: { L: 95, a: 0, b: 2 }, colourName: 'Lilac Mist' })).toEqual(['white', 'purple'])
    expect(clothFamilies(named('Something else'))).toEqual([])
    expect(clothFamilies({ colourName: null, lab: null })).toEqual([])
  })

  it('answers to one word, to two that both hold, and to words as people say them', () => {
    for (const words of ['blue', 'grey', 'grey-blue', 'Blue Gray', 'anything in a greyish blue', 'a bluish grey']) {
      expect(isOfColour(blueGrey, words), words).toBe(true)
    }
    for (const words of ['green', 'white', 'reddish grey']) expect(isOfColour(blueGrey, words), words).toBe(false)
    expect(isOfColour(named('Teal'), 'blue-green')).toBe(true)
    expect(isOfColour(named('Blue Green'), 'blue')).toBe(true)
    expect(isOfColour(named('Grey Blue'), 'blue-green')).toBe(false)
  })

  it('answers to its name and the beginning of it', () => {
    expect(isOfColour(named('Antique White'), 'antique')).toBe(true)
    expect(isOfColour(named('Oatmeal'), 'oat')).toBe(true)
    expect(isOfColour(named('Oatmeal'), 'white oat')).toBe(false)
    // Among the browns both, but not each other.
    expect(isOfColour(named('Oatmeal'), 'brown')).toBe(true)
    expect(isOfColour(named('Oatmeal'), 'flax')).toBe(false)
  })
})
