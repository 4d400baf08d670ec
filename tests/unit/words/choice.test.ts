import { describe, expect, it } from 'vitest'
import { boughtWords, buyingWords, choiceWords, ladderProof, leftOutWords, neverWords, valueWords } from '#words/choice'
import { cutPlanHref } from '#words/cut-plan-href'

const names = {
  design: (id: string) => (id === 'barge' ? 'Little Barge' : 'Three Jugs'),
  thread: (id: string) => `Larkholm ${id}`,
  piece: (id: string) => id,
}
const length = (_: string, strandTenths: number) => `${strandTenths / 60_000} m`

const choice = {
  ...{ placed: [], cuts: [], value: 14, bound: 16, isProved: false, endedBy: 'time' as const, rounds: 3 },
  ...{ bought: [], spent: 0 },
}
const placed = [{ designId: 'barge', listId: 'l', pieceIds: ['L-09'], lots: {} }]
const root = { kind: 'waste' as const, xUm: 0, yUm: 0, widthUm: 1, heightUm: 1 }
const cuts = [{ pieceId: 'L-09', designIds: ['barge'], layout: { pieceId: 'L-09', root } }]

describe('a choice in words', () => {
  it('says how good it is, and whether that is proved', () => {
    expect(choiceWords({ ...choice, placed, cuts, value: 16, isProved: true, endedBy: 'proof' })).toEqual({
      answer: '1 design from 1 piece, nothing bought.',
      proof: 'Worth 16 together: no other choice is worth more.',
    })
    // (16 − 14) ÷ 16.
    expect(choiceWords({ ...choice, placed, cuts }).proof).toBe(
      'Worth 14 together. The time was up: no choice is worth more than 16, which is 12.5 % away at most. A longer search may find a better one.',
    )
    expect(choiceWords({ ...choice, bound: 0, value: 0, isProved: true, endedBy: 'proof' }).answer).toBe(
      'None of these can be stitched from what is there.',
    )
  })

  it('says what is in the way of one left out', () => {
    const taken = {
      ...{ threadId: '0311', needStrandTenths: 360_000, leftStrandTenths: 0, isOneLot: true, morePutUps: 1 },
      takenBy: [{ designId: 'barge', strandTenths: 360_000 }],
    }
    const pieces = [{ pieceId: 'L-09', cutFor: ['barge'] }]
    expect(leftOutWords({ designId: 'jugs', threads: [taken], room: 'none', pieces }, names, length)).toEqual([
      'Larkholm 0311: needs 6 m in one lot, nothing is left: 6 m, 1 put-up, short; Little Barge takes it.',
      'No room on L-09 beside what is cut from it.',
    ])
    expect(leftOutWords({ designId: 'jugs', threads: [], room: 'some', pieces }, names, length)).toEqual([
      'There is room for it and thread enough: a longer search would take it in.',
    ])
  })

  it('says why one can never be had', () => {
    const one = { designId: 'jugs', title: 'Three Jugs' }
    const lacking = { threadId: '0742', needStrandTenths: 600_000, freeStrandTenths: 300_000, isOneLot: false, putUps: 2 }
    expect(neverWords({ ...one, kind: 'threads', threads: [lacking] }, names, length, 'in')).toBe(
      'Not enough even by itself of Larkholm 0742 (5 m free, needs 10 m, 2 put-ups short).',
    )
    expect(neverWords({ ...one, kind: 'no-cloth' }, names, length, 'in')).toMatch(/count and weave/)
  })

  it('says why a design counts what it does, as a sum', () => {
    expect(
      valueWords([
        { kind: 'wish', stars: 4, points: 8 },
        { kind: 'due', dueOn: '2026-12-12', points: 4 },
        { kind: 'season', theme: 'Winter', weeks: 3, points: 3 },
        { kind: 'bought', years: 1, points: 1 },
      ]),
    ).toBe('4 stars → 8, wanted by Sat 12 Dec 2026 → +4, Winter in 3 weeks → +3, bought 1 year ago → +1')
    expect(valueWords([{ kind: 'wish', stars: null, points: 6 }])).toBe('wanted, no stars given → 6')
    expect(valueWords([{ kind: 'plain', points: 1 }])).toBe('not among the wishes → 1')
  })

  it('says what is bought, and does not guess a price', () => {
    const skein = { threadId: '0742', putUps: 2, minor: 230, isOneLot: false }
    expect(boughtWords([], '£')).toBe('nothing bought')
    expect(boughtWords([skein], '£')).toBe('2 put-ups bought for £ 2.30')
    expect(boughtWords([skein, { ...skein, putUps: 1, minor: null }], '£')).toBe(
      '3 put-ups bought for £ 2.30, 1 thread of them without a price',
    )
    expect(buyingWords({ kind: 'budget', mostMinor: 1_250 }, '£')).toBe('for at most £ 12.50')
    expect(buyingWords({ kind: 'put-ups', most: 1 }, '£')).toBe('at most 1 put-up')
    expect(ladderProof({ isProved: false, value: 14, bound: 16 })).toBe('16 at most (12.5 %)')
  })
})

it('leads to the plan of cuts with its designs, their copies and the pieces', () => {
  expect(
    cutPlanHref(
      [
        { id: 'd1', copies: 13, finishing: 'ornament' },
        { id: 'd2', copies: 1 },
      ],
      ['c4', 'c9'],
    ),
  ).toBe('/cloth/cut/new?w1=design-d1&n1=13&f1=ornament&w2=design-d2&n2=1&piece=c4&piece=c9')
})
