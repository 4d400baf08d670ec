import { describe, expect, it } from 'vitest'
import type { ListAnswer } from '#lib/coverage/design-cover'
import { countPhrases, listStateWords } from '#words/cover'

const anAnswer = (over: Partial<ListAnswer> = {}): ListAnswer =>
  ({
    ...{ threadCount: 8, readyCount: 8, swapCount: 0, elsewhereCount: 0, unknownCount: 0, lotsCount: 0, shortCount: 0 },
    ...{ shortPutUps: 0, isStitchable: true, isStitchableWithSwaps: true, status: 'ready' },
    ...over,
  }) as ListAnswer

describe('words for how a thread list stands', () => {
  it('says all ready, and where lots are mixed', () => {
    expect(listStateWords(anAnswer())).toMatchObject({ word: 'All 8 ready', note: null })
    expect(listStateWords(anAnswer({ status: 'mixed' })).note).toBe('some in mixed lots')
    expect(listStateWords(anAnswer({ threadCount: 0 }))).toMatchObject({ state: 'unknown', word: 'No thread list' })
  })

  it('names the nearest way first: swaps, then what is short, lots, elsewhere, unknown', () => {
    const not = { isStitchable: false, isStitchableWithSwaps: false, readyCount: 6 }
    const word = (over: Partial<ListAnswer>) => listStateWords(anAnswer({ ...not, ...over })).word
    expect(word({ isStitchableWithSwaps: true, swapCount: 2 })).toBe('2 swaps')
    expect(word({ shortCount: 1, shortPutUps: 3, lotsCount: 1 })).toBe('Short by 3')
    expect(word({ lotsCount: 1, elsewhereCount: 1 })).toBe("1 whose lots don't match")
    expect(word({ elsewhereCount: 2 })).toBe('2 elsewhere')
    expect(word({ unknownCount: 2 })).toBe('2 of unknown amount')
  })

  it('counts what stands in the way, leaving out what does not', () => {
    expect(countPhrases(anAnswer({ readyCount: 6, swapCount: 1, elsewhereCount: 1 }))).toEqual([
      '6 of 8 threads ready',
      '1 swap held',
      '1 out or promised',
    ])
  })
})
