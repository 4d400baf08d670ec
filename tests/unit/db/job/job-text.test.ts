import { describe, expect, it } from 'vitest'
import { fromJobText, toJobText } from '#lib/db/job/job-text'

const thereAndBack = (value: unknown) => fromJobText(toJobText(value))

describe('what a job is about, as text', () => {
  it('comes back as it went', () => {
    const value = {
      ...{
        text: '0017 ½ “Écru”',
        count: 12,
        part: 0.1,
        no: null,
        yes: true,
        none: Number.POSITIVE_INFINITY,
        less: Number.NEGATIVE_INFINITY,
      },
      at: new Date('2026-11-30T03:00:00.007Z'),
      pins: new Map<string, unknown>([
        ['d1', 'in'],
        ['d2', new Map([[1, new Set(['a', 'b'])]])],
      ]),
      picture: new Uint8Array([0, 255, 7]),
      columns: { ids: new Int32Array([-1, 2_147_483_647]), lengths: new Float64Array([0.1, 1e300]) },
      list: [undefined, 1, [new Date(0)]],
      large: 2n ** 70n,
      deep: { deeper: { map: new Map() } },
    }
    expect(thereAndBack(value)).toEqual(value)
    expect(Number.isNaN(thereAndBack(Number.NaN))).toBe(true)
  })

  it('has nothing for nothing, and leaves out what an object has not', () => {
    expect(thereAndBack(null)).toBeNull()
    expect(thereAndBack(undefined)).toBeNull()
    expect(Object.keys(thereAndBack({ a: undefined, b: 1 }) as object)).toEqual(['b'])
  })
})
