import { describe, expect, it } from 'vitest'
import { Sample } from '#lib/checking/sample'

const takeOf = (count: number, most: number, seed: number) => {
  const sample = new Sample(most, seed)
  for (let turn = 0; turn < count; turn++) sample.offer(String(turn))
  return sample
}

describe('Sample', () => {
  it('is all of a few, in their order', () => {
    const sample = takeOf(3, 5, 7)
    expect(sample.taken).toEqual(['0', '1', '2'])
    expect(sample.isWhole).toBe(true)
  })

  it('is so many of more, none twice, and the same for the same seed', () => {
    const sample = takeOf(10_000, 50, 7)
    expect(new Set(sample.taken).size).toBe(50)
    expect([sample.seen, sample.isWhole]).toEqual([10_000, false])
    expect(takeOf(10_000, 50, 7).taken).toEqual(sample.taken)
    expect(takeOf(10_000, 50, 8).taken).not.toEqual(sample.taken)
  })

  it('takes each about as often as any other', () => {
    const often = new Array(20).fill(0)
    for (let seed = 1; seed <= 4_000; seed++) for (const id of takeOf(20, 5, seed).taken) often[Number(id)] += 1
    // Each is taken with a chance of 1 in 4: 1,000 of 4,000, with a spread of sqrt(4000 · 1/4 · 3/4) = 27.4; five of them either way.
    for (const count of often) expect(Math.abs(count - 1_000)).toBeLessThan(137)
  })
})
