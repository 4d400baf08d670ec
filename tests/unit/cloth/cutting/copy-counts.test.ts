import { describe, expect, it } from 'vitest'
import { CopyCounts } from '#lib/cloth/cutting/copy-counts'

describe('CopyCounts', () => {
  it('adds counts of many kinds in a few words, and notices a kind that goes over its copies', () => {
    const copies = [1, 3, 24, 2, 7, 1, 1, 60, 5, 12, 1, 1, 1]
    const counts = new CopyCounts(copies)
    for (const [kind, most] of copies.entries()) {
      const table = new Int32Array(2 * counts.words)
      const put = (at: number, many: number) => {
        table[at * counts.words + counts.wordOf(kind)] = many * counts.oneOf(kind)
      }
      for (const [one, other] of [
        [most, 0],
        [most - 1, 1],
        [0, most],
      ] as const) {
        put(0, one)
        put(1, other)
        expect(counts.isWithin(table, 0, counts.words)).toBe(true)
        put(1, other + 1)
        expect(counts.isWithin(table, 0, counts.words)).toBe(false)
      }
    }
  })

  it('refuses more copies than a word holds', () => {
    expect(() => new CopyCounts([2 ** 31])).toThrow(RangeError)
  })
})
