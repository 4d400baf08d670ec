// Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and mathematical
// observations", Color Research and Application 30(1), 21-30, 2005, Table 1: 34 pairs of Lab colours with their difference to four
// decimals. Copied in data/ciede2000-sharma-2005.csv; the numbers were taken from the test data of the culori repository, and are equal
// row by row in a second, unrelated public test file.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { deltaE00 } from '#lib/colour/convert'

const rows = readFileSync(new URL('./data/ciede2000-sharma-2005.csv', import.meta.url), 'utf8')
  .trim()
  .split(/\r?\n/)
  .slice(1)
  .map((line) => line.split(',').map(Number) as [number, number, number, number, number, number, number, number])

describe('CIEDE2000 against the published pairs', () => {
  it('has all 34 pairs', () => expect(rows).toHaveLength(34))

  it.each(rows)('pair %i gives the printed difference in both orders', (_pair, L1, a1, b1, L2, a2, b2, expected) => {
    const one = { L: L1, a: a1, b: b1 }
    const other = { L: L2, a: a2, b: b2 }
    expect(Math.abs(deltaE00(one, other) - expected)).toBeLessThan(0.000_051)
    expect(Math.abs(deltaE00(other, one) - expected)).toBeLessThan(0.000_051)
  })
})
