import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { confirmCut, listYield } from '#lib/cloth/confirm-cut'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { fatQuarter, fifteenSquares } from './cut-layouts'

const inches = (width: number, height: number) => ({ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH })
const quarter = inches(18, 27)
const parts = listYield(fatQuarter()).map(({ key, widthUm, heightUm }) => ({ key, widthUm, heightUm }))
const confirm = (some: typeof parts, held = quarter) => confirmCut(fatQuarter(), { held, planned: quarter, parts: some })

describe('what a layout yields', () => {
  it('is what was wanted in the order it lies, then the offcuts, each by a key of its own', () => {
    expect(listYield(fatQuarter())).toMatchObject([
      { key: 'eleven-1', kind: 'wanted', ...inches(11, 11), xUm: 0, yUm: 0 },
      { key: 'six-1', kind: 'wanted', ...inches(6, 12) },
      { key: 'eight-1', kind: 'wanted', ...inches(8, 8) },
      { key: 'eight-2', kind: 'wanted', ...inches(8, 8), xUm: 8 * UM_PER_INCH, yUm: 12 * UM_PER_INCH },
      { key: 'offcut-1', kind: 'offcut', number: 1, ...inches(18, 7), yUm: 20 * UM_PER_INCH },
    ])
    const keys = listYield(fifteenSquares()).map(({ key }) => key)
    expect(keys).toHaveLength(15)
    expect(new Set(keys).size).toBe(15)
    expect(keys.slice(-2)).toEqual(['offcut-1', 'offcut-2'])
  })
})

describe('confirming a cut', () => {
  it('leaves as waste what was planned to be, when all is as planned', () => {
    // Trade scenario A8: 321 of 486 square inches are used and 126 left over.
    const done = confirm(parts)
    expect(done).toMatchObject({ ok: true, value: { wasteUm2: (486 - 321 - 126) * UM_PER_INCH ** 2 } })
  })

  it('takes the sizes as measured, and what is left out as waste', () => {
    const measured = parts.map((part) => (part.key === 'offcut-1' ? { ...part, ...inches(17.75, 7) } : part))
    const spoilt = measured.filter(({ key }) => key !== 'eleven-1')
    const done = confirm(spoilt)
    expect(done).toMatchObject({ ok: true, value: { wasteUm2: (39 + 121 + 1.75) * UM_PER_INCH ** 2 } })
  })

  it('says what is wrong', () => {
    expect(confirm([])).toEqual({ ok: false, error: { kind: 'nothing-cut' } })
    expect(confirm(parts, inches(17.5, 26.5))).toEqual({
      ok: false,
      error: { kind: 'size-changed', was: quarter, is: inches(17.5, 26.5) },
    })
    expect(confirm([...parts, { key: 'nine-1', ...inches(1, 1) }])).toEqual({
      ok: false,
      error: { kind: 'no-such-part', key: 'nine-1' },
    })
    const [first] = parts as [(typeof parts)[number]]
    expect(confirm([...parts, first])).toEqual({ ok: false, error: { kind: 'no-such-part', key: first.key } })
    expect(confirm([{ ...first, ...inches(18.25, 1) }])).toMatchObject({ ok: true })
    expect(confirm([{ ...first, ...inches(27.25, 1) }])).toMatchObject({ error: { kind: 'part-too-large' } })
    expect(confirm(parts.map((part) => ({ ...part, ...inches(10, 10) })))).toMatchObject({ error: { kind: 'more-than-it-was' } })
  })

  it('never makes or loses cloth: what comes out and what is waste are what went in', () => {
    const side = fc.integer({ min: 1, max: 700_000 })
    const changes = fc.array(fc.record({ isKept: fc.boolean(), widthUm: side, heightUm: side }), {
      minLength: parts.length,
      maxLength: parts.length,
    })
    fc.assert(
      fc.property(changes, (changed) => {
        const some = parts.flatMap((part, at) => {
          const { isKept, ...size } = changed[at] as (typeof changed)[number]
          return isKept ? [{ ...part, ...size }] : []
        })
        const done = confirm(some)
        const area = some.reduce((sum, { widthUm, heightUm }) => sum + widthUm * heightUm, 0)
        if (done.ok) {
          expect(area + done.value.wasteUm2).toBe(quarter.widthUm * quarter.heightUm)
          expect(done.value.wasteUm2).toBeGreaterThanOrEqual(0)
        } else if (done.error.kind === 'more-than-it-was') expect(area).toBeGreaterThan(quarter.widthUm * quarter.heightUm)
      }),
      { seed: 4 },
    )
  })
})
