import { describe, expect, it } from 'vitest'
import { heightAt, never, StaircaseBuilder, widthAt } from '#lib/cloth/cutting/staircase'

const stairsOf = (...boxes: [width: number, height: number][]) => {
  const builder = new StaircaseBuilder()
  for (const [width, height] of boxes) builder.addBox(width, height)
  return builder.take()
}
const boxesOf = ({ widths, heights }: ReturnType<typeof stairsOf>) =>
  [...widths].map((width, at) => [width, heights[at] as number])

describe('StaircaseBuilder', () => {
  it('keeps only boxes that no other lies within, heights rising', () => {
    expect(boxesOf(stairsOf([4, 2], [2, 5], [5, 5], [4, 3], [3, 2]))).toEqual([
      [3, 2],
      [2, 5],
    ])
  })

  it('sets two side by side: at each height both widths together', () => {
    const builder = new StaircaseBuilder()
    // 3 × 2 or 2 × 5 beside 4 × 3: at height 3 it is 3 + 4, at height 5 it is 2 + 4.
    builder.addBeside(stairsOf([3, 2], [2, 5]), stairsOf([4, 3]), 10)
    expect(boxesOf(builder.take())).toEqual([
      [7, 3],
      [6, 5],
    ])
  })

  it('sets one above the other: at each width both heights together, as far as there is room', () => {
    const builder = new StaircaseBuilder()
    builder.addAbove(stairsOf([3, 2], [2, 5]), stairsOf([1, 4], [3, 1]), 8)
    // Width 3: 2 + 1. Width 2: 5 + 4, too high.
    expect(boxesOf(builder.take())).toEqual([[3, 3]])
  })
})

describe('widthAt and heightAt', () => {
  const stairs = stairsOf([3, 2], [2, 5])

  it('tell the least width at a height, and the least height at a width', () => {
    expect([1, 2, 4, 5, 9].map((height) => widthAt(stairs, height))).toEqual([never, 3, 3, 2, 2])
    expect([1, 2, 3, 9].map((width) => heightAt(stairs, width))).toEqual([never, 5, 2, 2])
  })
})
