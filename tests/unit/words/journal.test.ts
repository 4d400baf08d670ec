import { describe, expect, it } from 'vitest'
import { countedWords } from '#lib/db/cloth/count-cloth'
import { sizeChange } from '#lib/db/cloth/edit-cloth'
import { reasonSaid } from '#words/journal'

const inch = 25_400

describe('why a thing moved', () => {
  it('is said in the unit of whoever reads it, with what a person wrote behind it', () => {
    const size = (widthUm: number, isSquared: boolean) => ({ widthUm, heightUm: 27 * inch, isSquared })
    const written = sizeChange(size(18 * inch, false), size(17 * inch, true))
    expect(written).toBe('45.72 × 68.58 cm to 43.18 × 68.58 cm squared')
    expect(reasonSaid(`${written}; pulled straight`, 'in')).toBe('18 × 27 in to 17 × 27 in, squared; pulled straight')
    expect(reasonSaid(written, 'cm')).toBe('45.72 × 68.58 cm to 43.18 × 68.58 cm, squared')
    expect(reasonSaid('still 45.72 × 68.58 cm', 'in')).toBe('still 18 × 27 in')
    expect(reasonSaid('washed 2026-03-01; 45.72 × 68.58 cm squared to 44.45 × 66.04 cm squared', 'in')).toBe(
      'washed Sun 1 Mar 2026; 18 × 27 in, squared to 17½ × 26 in, squared',
    )
  })

  it('is of threads along a ruler, then of counts', () => {
    const along = (threads: number) => ({ threads, lengthUm: 2 * inch })
    const written = countedWords({ across: [along(64), along(63)], up: [along(61)], unit: 'in' })
    expect(reasonSaid(`${written}: 32 count to 31.75 × 30.5 count`, 'in')).toBe(
      'counted 64, 63 in 2 in across and 61 in 2 in up: 32 count to 31.75 × 30.5 count',
    )
  })

  it.each(['gift from Ines', '3 of them were wet', 'still wet', '28 to the inch'])('stays as a person wrote it: %j', (reason) => {
    expect(reasonSaid(reason, 'cm')).toBe(reason)
  })

  it('is nothing where nobody said', () => {
    expect(reasonSaid(null, 'in')).toBe('')
  })
})
