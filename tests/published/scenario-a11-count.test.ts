// Unmarked cloth: a scenario of the trade worked by hand. Along a 2 in ruler 64 threads across and 61 down: 32.0 × 30.5, not square, 4.9 %.
// A design of 128 × 128 over two comes out 128/16 = 8.000 wide and 128/15.25 = 8.393 in high, 0.39 in taller than wide; with 3 in all
// round 14.000 × 14.393, so 14 × 14.5 in is to be cut.
import { describe, expect, it } from 'vitest'
import { cutSize, finishedSize } from '#lib/cloth/finished-size'
import { finishingMargins } from '#lib/cloth/margins'
import { countByRuler } from '#lib/cloth/ruler-count'
import { formatClothSize, UM_PER_INCH } from '#lib/quantity/cloth-length'
import { parseCount } from '#lib/quantity/count'

const lengthUm = 2 * UM_PER_INCH
const result = countByRuler(
  { across: [{ threads: 64, lengthUm }], up: [{ threads: 61, lengthUm }] },
  { weave: 'single', unit: 'in' },
)
if (!result.ok) throw new Error(result.error.kind)
const counted = result.value
const inches = (um: number) => (um / UM_PER_INCH).toFixed(3)

describe('an unmarked piece counted along a ruler', () => {
  it('is 32 × 30.5 to the inch, as it would be read from a label', () => {
    const label = parseCount('32 x 30.5')
    expect([counted.ends.count, counted.picks.count]).toEqual([label?.ends, label?.picks])
  })

  it('is not square, by 4.9 %', () => {
    expect(counted.squareness).toBe('uneven')
    expect(counted.unevenPercent.toFixed(1)).toBe('4.9')
  })

  it('makes a design 8 × 8.393 in, to be cut at 14 × 14½', () => {
    const cloth = { ends: counted.ends.count, picks: counted.picks.count }
    const finished = finishedSize({ ...cloth, width: 128, height: 128, over: 2, isTurned: false })
    expect([inches(finished.widthUm), inches(finished.heightUm)]).toEqual(['8.000', '8.393'])
    expect(((finished.heightUm - finished.widthUm) / UM_PER_INCH).toFixed(2)).toBe('0.39')
    const cut = cutSize({ finished, margins: finishingMargins.framed, shrinkPercent: 0, roundingUm: UM_PER_INCH / 2 })
    expect([inches(cut.exactWidthUm), inches(cut.exactHeightUm)]).toEqual(['14.000', '14.393'])
    expect(formatClothSize(cut, 'in')).toBe('14 × 14½ in')
  })
})
