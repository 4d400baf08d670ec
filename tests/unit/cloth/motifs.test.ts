import { describe, expect, it } from 'vitest'
import { finishedSize } from '#lib/cloth/finished-size'
import { marginsAllRound } from '#lib/cloth/margins'
import { motifBox, oneMotif, requestInThreads, type SizeQuestion } from '#lib/cloth/motifs'
import { inches, toTheInch } from './cloth-pieces'

const question = (overrides: Partial<SizeQuestion> = {}): SizeQuestion => ({
  width: 40,
  height: 30,
  uncertaintyUm: 0,
  motifs: oneMotif,
  margins: marginsAllRound(inches(2)),
  shrinkPercent: 0,
  roundingUm: inches(0.5),
  ...overrides,
})

describe('several motifs on one cloth', () => {
  it('keeps an odd gap whole over two threads', () => {
    // Three across: 3 × 40 × 2 + 2 × 11 = 262 threads; two down: 2 × 30 × 2 + 11 = 131.
    expect(motifBox(question(), 2, { across: 3, down: 2, gapThreads: 11 })).toEqual({ widthThreads: 262, heightThreads: 131 })
  })

  it('comes out exactly by its threads: 262 on 28 to the inch are 9.357 in, not 3 × 2.857 and a ruled gap', () => {
    const request = requestInThreads(question({ motifs: { across: 3, down: 2, gapThreads: 11 } }), 2)
    const finished = finishedSize({ ...request, ends: toTheInch(28), picks: toTheInch(28), isTurned: false })
    expect(finished.widthUm).toBeCloseTo((262 / 28) * 25_400, 6)
    expect(finished.heightUm).toBeCloseTo((131 / 28) * 25_400, 6)
  })

  it('takes a gap in blocks on block cloth', () => {
    expect(motifBox(question(), 1, { across: 2, down: 1, gapThreads: 7 })).toEqual({ widthThreads: 87, heightThreads: 30 })
  })

  it('lets every motif of an estimated size be out by as much', () => {
    const estimated = question({ uncertaintyUm: inches(0.125), motifs: { across: 3, down: 2, gapThreads: 4 } })
    expect(requestInThreads(estimated, 2).uncertaintyUm).toBe(inches(0.375))
    expect(requestInThreads(question({ uncertaintyUm: inches(0.125) }), 2).uncertaintyUm).toBe(inches(0.125))
  })

  it('throws on half a motif or half a thread', () => {
    expect(() => motifBox(question(), 2, { across: 1.5, down: 1, gapThreads: 0 })).toThrow(RangeError)
    expect(() => motifBox(question(), 2, { across: 0, down: 1, gapThreads: 0 })).toThrow(RangeError)
    expect(() => motifBox(question(), 2, { across: 2, down: 1, gapThreads: 2.5 })).toThrow(RangeError)
  })
})
