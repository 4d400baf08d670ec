import { describe, expect, it } from 'vitest'
import { answerWords, bagWords, notSupposedWords, stateWords } from '../../../app/what-if/words'

const none = { opened: 0, openedWithSwaps: 0, nearer: 0, worse: 0, inPart: 0 }

describe('what if, in words', () => {
  it('gives the counts first', () => {
    expect(answerWords({ ...none, opened: 4, openedWithSwaps: 2, nearer: 11, worse: 1, inPart: 3 })).toBe(
      '4 designs would become stitchable, 2 more with swaps, 11 would come nearer and 1 would want more than now.',
    )
    expect(answerWords({ ...none, nearer: 2 })).toBe('No design would become stitchable and 2 would come nearer.')
    expect(answerWords(none)).toBe('No design would stand otherwise.')
    expect(answerWords({ ...none, inPart: 1 })).toBe(
      'No design would be opened or come nearer; 1 design would stand otherwise in a part only.',
    )
  })

  it('says how a design stands', () => {
    const state = { isStitchable: false, isStitchableWithSwaps: false, buyPutUps: 0 }
    expect(stateWords({ ...state, status: 'short', buyPutUps: 3 })).toEqual({ state: 'short', word: '3 to buy' })
    expect(stateWords({ ...state, status: 'lots', buyPutUps: 2 }).word).toBe("Lots don't match, 2 to buy")
    expect(stateWords({ ...state, status: 'elsewhere' }).word).toBe('Out or promised')
    expect(stateWords({ ...state, status: 'mixed', isStitchable: true, isStitchableWithSwaps: true }).word).toBe(
      'Stitchable, mixed lots',
    )
    expect(stateWords({ ...state, status: 'swap', isStitchableWithSwaps: true })).toEqual({ state: 'swap', word: 'With swaps' })
  })

  it('says what is in a bag', () => {
    const place = { label: 'K-07', kind: 'bag' } as never
    const person = { label: 'Petra Lisle', kind: 'person' } as never
    expect(bagWords({ place: person, promisedCount: 2, lyingCount: 0 })).toBe('with Petra Lisle, 2 batches promised to it')
    expect(bagWords({ place, promisedCount: 5, lyingCount: 1 })).toBe('in K-07, 5 batches promised to it, 1 more lying there')
    expect(bagWords({ place, promisedCount: 0, lyingCount: 0 })).toBe('in K-07, nothing in it')
    expect(bagWords({ place: null, promisedCount: 1, lyingCount: 0 })).toBe('1 batch promised to it')
  })

  it('says why a part of the question was left out', () => {
    expect(notSupposedWords({ kind: 'empty-bag', id: 'p', title: 'Little Barge' })).toBe(
      'Little Barge has neither a bag nor anything promised to it, so there is nothing to unpack.',
    )
  })
})
