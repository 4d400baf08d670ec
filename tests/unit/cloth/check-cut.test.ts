import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkCut } from '#lib/cloth/check-cut'

const size = (widthUm: number, heightUm: number) => ({ widthUm, heightUm })

describe('planning a cut', () => {
  it('allows a part that comes out only when turned', () => {
    expect(checkCut(size(10, 20), null, [size(20, 10)])).toEqual({ ok: true, value: { wasteUm2: 0 } })
  })

  it('refuses a part longer than the piece, though there is area enough', () => {
    expect(checkCut(size(10, 20), null, [size(21, 2)])).toEqual({
      ok: false,
      error: { kind: 'part-too-large', part: 1, widthUm: 21, heightUm: 2 },
    })
    expect(checkCut(size(10, 20), size(11, 11), [])).toMatchObject({ error: { kind: 'part-too-large', part: 0 } })
  })

  it('refuses a cut that changes nothing', () => {
    expect(checkCut(size(10, 20), size(10, 20), [])).toEqual({ ok: false, error: { kind: 'nothing-cut' } })
  })

  it('refuses sides that are not whole', () => {
    expect(() => checkCut(size(10, 20), size(9.5, 20), [])).toThrow(RangeError)
    expect(() => checkCut(size(10, 20), null, [size(0, 5)])).toThrow(RangeError)
  })

  it('never lets a cut make cloth, and accounts for all of it', () => {
    const side = fc.integer({ min: 1, max: 50 })
    const piece = fc.record({ widthUm: side, heightUm: side })
    fc.assert(
      fc.property(piece, fc.option(piece), fc.array(piece, { maxLength: 4 }), (whole, remaining, offcuts) => {
        const plan = checkCut(whole, remaining, offcuts)
        const parts = [...(remaining ? [remaining] : []), ...offcuts]
        const cloth = parts.reduce((sum, part) => sum + part.widthUm * part.heightUm, 0)
        if (plan.ok) expect(cloth + plan.value.wasteUm2).toBe(whole.widthUm * whole.heightUm)
        else if (plan.error.kind === 'more-than-it-was') expect(cloth).toBeGreaterThan(whole.widthUm * whole.heightUm)
      }),
      { seed: 20260907, numRuns: 200 },
    )
  })
})
