import { describe, expect, it } from 'vitest'
import { canonicalJson, rowKeys } from '#lib/importing/row-key'

describe('rowKeys', () => {
  it('are the same for the same content and different for any other', () => {
    const [one, two, again, other] = rowKeys('threads', [
      { code: '17', lot: null },
      { code: '017' },
      { code: '17' },
      { lot: '17' },
    ])
    expect(new Set([one, two, again, other]).size).toBe(4)
    expect(rowKeys('threads', [{ lot: '', code: '17' }])).toEqual([one])
    expect(rowKeys('cloth', [{ code: '17' }])).not.toEqual([one])
  })

  it('never meet by chance among 200,000 rows', () => {
    const keys = rowKeys(
      'threads',
      Array.from({ length: 200_000 }, (_, index) => ({ code: String(index) })),
    )
    expect(new Set(keys.map((key) => key.slice(0, 16))).size).toBe(200_000)
    expect(new Set(keys.map((key) => key.slice(16))).size).toBe(200_000)
    expect(keys.every((key) => /^[0-9a-f]{32}$/.test(key))).toBe(true)
  })

  it('do not depend on the order in which a draft was put together', () => {
    expect(canonicalJson({ b: 1, a: { d: null, c: [] } })).toBe(canonicalJson({ a: {}, b: 1 }))
  })
})
