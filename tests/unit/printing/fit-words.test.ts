import { describe, expect, it } from 'vitest'
import { shorten, tidyWords, wrapWords } from '../../../lib/printing/fit-words'
import type { Measure } from '../../../lib/printing/mark'

/** A letter is as wide as it is high. */
const measure: Measure = ({ text, size }) => Array.from(text).length * size
const style = { size: 1 }

describe('wrapWords', () => {
  it('breaks between words', () => {
    expect(wrapWords('Rook Hill in Snow', 9, style, measure)).toEqual(['Rook Hill', 'in Snow'])
  })

  it('breaks within a word only when it is too long by itself', () => {
    expect(wrapWords('a Weighhouse', 5, style, measure)).toEqual(['a', 'Weigh', 'house'])
  })

  it('ends in an ellipsis where there are too many lines', () => {
    expect(wrapWords('Rook Hill in Snow and Winter', 9, style, measure, 2)).toEqual(['Rook Hill', 'in Snow…'])
  })

  it('goes on where not even a letter fits', () => {
    expect(wrapWords('abc', 0.5, style, measure)).toEqual(['a', 'b', 'c'])
  })

  it('has one empty line for nothing', () => {
    expect(wrapWords(' \n ', 9, style, measure)).toEqual([''])
  })
})

describe('shorten', () => {
  it('leaves what fits and cuts what does not', () => {
    expect(shorten('Nine Wrens', 10, style, measure)).toBe('Nine Wrens')
    expect(shorten('Nine Wrens', 7, style, measure)).toBe('Nine W…')
    expect(shorten('Nine Wrens', 6, style, measure)).toBe('Nine…')
  })

  it('does not part a character written in two halves', () => {
    expect(shorten('🧵🧵🧵🧵', 3, style, measure)).toBe('🧵🧵…')
  })

  it('is nothing where nothing fits', () => {
    expect(shorten('Nine Wrens', 0.5, style, measure)).toBe('')
  })
})

describe('tidyWords', () => {
  it('keeps one space for any white space, and no character without a shape', () => {
    expect(tidyWords('  Nine\u00a0\t\nWrens\u200b\u202e! ')).toBe('Nine Wrens !')
    expect(tidyWords('a\ud800b\u0000c')).toBe('a b c')
  })
})
