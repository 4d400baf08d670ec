import { expect, it } from 'vitest'
import { boltLengthBothWays, metres, yards } from '#words/yardage'

const inch = 25_400

it.each([
  [31.5 * inch, '⅞ yd'],
  [36 * inch, '1 yd'],
  [63 * inch, '1¾ yd'],
  [4.5 * inch, '⅛ yd'],
  [800_000, '0.875 yd'],
  [10 * inch, '0.278 yd'],
])('%i µm is %s', (um, words) => {
  expect(yards(um)).toBe(words)
})

it('says a length in all a counter may ask in, the person’s own unit first', () => {
  expect(metres(800_100)).toBe('0.8 m')
  expect(boltLengthBothWays(31.5 * inch, 'in')).toBe('31½ in or ⅞ yd; 80.01 cm or 0.8 m')
  expect(boltLengthBothWays(800_000, 'cm')).toBe('80 cm or 0.8 m; 31.496 in or 0.875 yd')
})
