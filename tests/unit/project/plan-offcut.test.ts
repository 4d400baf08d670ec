import { describe, expect, it } from 'vitest'
import { planOffcuts } from '#lib/project/plan-offcut'

const inches = (width: number, height: number) => ({ widthUm: width * 25_400, heightUm: height * 25_400 })

describe('offcuts', () => {
  it('are cut so that the larger one is as large as can be', () => {
    // 18 × 27 less 12 × 12: across first leaves 18 × 15 = 270 and 6 × 12; up first would leave at most 12 × 15 or 6 × 27.
    expect(planOffcuts(inches(18, 27), inches(12, 12))).toEqual({ ok: true, value: [inches(18, 15), inches(6, 12)] })
    expect(planOffcuts(inches(27, 18), inches(12, 12))).toEqual({ ok: true, value: [inches(15, 18), inches(12, 6)] })
  })

  it('are not named when too small, and there are none of a piece used whole', () => {
    expect(planOffcuts(inches(18, 27), inches(16, 24))).toEqual({ ok: true, value: [] })
    expect(planOffcuts(inches(10, 10), inches(10, 10))).toEqual({ ok: true, value: [] })
  })

  it('cannot come of a piece smaller than the cut', () => {
    expect(planOffcuts(inches(10, 10), inches(12, 9))).toEqual({
      ok: false,
      error: { kind: 'larger-than-piece', lackWidthUm: 50_800, lackHeightUm: 0 },
    })
  })
})
