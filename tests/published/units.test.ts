// Exact metric values of inch and yard: International Yard and Pound agreement of 1 July 1959 (24 FR 5348); NIST SP 811, Appendix B.
// The products in data/units.json are exact decimals, but for the yards in 8 m, rounded to double precision; ours are whole tenths of a
// millimetre and whole micrometres, to the nearest.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { parseClothLength, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { formatThreadLength, parseThreadLength, TENTHS_PER_MM } from '#lib/quantity/thread-length'

type Units = {
  definitions: { inch_mm: number; yard_mm: number; foot_mm: number }
  derived: { from: string; to_m?: number; to_mm?: number; to_yd?: number }[]
}
const units = JSON.parse(readFileSync(new URL('./data/units.json', import.meta.url), 'utf8')) as Units

describe('lengths against the 1959 definitions', () => {
  it('holds an inch, a foot and a yard exactly', () => {
    expect(UM_PER_INCH).toBe(units.definitions.inch_mm * 1_000)
    expect(parseClothLength('1 ft', 'in')).toBe(units.definitions.foot_mm * 1_000)
    expect(parseClothLength('1 yd', 'cm')).toBe(units.definitions.yard_mm * 1_000)
    expect(parseThreadLength('1 in', 'm')).toBe(units.definitions.inch_mm * TENTHS_PER_MM)
    expect(parseThreadLength('1 yd', 'm')).toBe(units.definitions.yard_mm * TENTHS_PER_MM)
  })

  it.each(units.derived.filter((row) => row.to_m !== undefined))('reads $from of thread as $to_m m', ({ from, to_m }) => {
    expect(parseThreadLength(from, 'm')).toBe(Math.round((to_m as number) * 10_000))
  })

  it.each(units.derived.filter((row) => row.to_mm !== undefined))('reads $from of cloth as $to_mm mm', ({ from, to_mm }) => {
    expect(parseClothLength(from, 'cm')).toBe(Math.round((to_mm as number) * 1_000))
  })

  it('shows 8 m in yards', () => {
    const [eightMetres] = units.derived.filter((row) => row.to_yd !== undefined)
    expect(formatThreadLength(80_000, 'yd')).toBe(`${eightMetres?.to_yd?.toFixed(2)} yd`)
  })
})
