import { describe, expect, it } from 'vitest'
import { type KitReckoning, type ReckonedLine, reckonKits } from '#lib/project/kit/reckoning'
import type { Batch } from '#lib/stock/batch'
import {
  answerWords,
  chartStandingWords,
  type LineNames,
  lotWords,
  numberWords,
  toBuyWords,
} from '../../../app/projects/[projectId]/kit/kit-words'

const nameOf: LineNames = (key) => ({
  name: key.replace(/^.*:/, ''),
  putUpWord: 'skein',
  lot: key === 'thread:Tarn Blue' ? { mark: '18' } : null,
})

/** Of each thread so many put-ups, one cut to a put-up. */
function reckoned(have: Record<string, number>, over: { copies?: number; needles?: number } = {}): KitReckoning {
  const { copies = 3, needles = 3 } = over
  const threadIds = Object.keys(have)
  return reckonKits({
    ...{ copies, spares: 1, soldSpares: 0 },
    threads: {
      needs: threadIds.map((threadId) => ({ threadId, strandTenths: 60 })),
      cut: new Map(),
      batches: threadIds.map(
        (threadId): Batch => ({
          ...{ id: threadId, threadId, ownerId: 'o', lot: '18', putUpWord: null, putUpStrandTenths: 80 },
          ...{ wholePutUps: have[threadId] ?? 0, partStrandTenths: 0, partCertainty: 'none' },
          ...{ homePlaceId: null, currentPlaceId: null },
        }),
      ),
      promises: [],
      lines: new Map(threadIds.map((id) => [id, { lotsMatter: id === 'Tarn Blue', putUpStrandTenths: 80 }])),
      projectId: 'p',
    },
    cloth: { cut: 3, kept: 0, free: 0, bolt: null },
    chart: { isFile: false, copies: 2 },
    items: [{ id: 'needle', perKit: 1, have: needles, packOf: 6 }],
  })
}

describe('what is said of kits', () => {
  it('counts spares apart', () => {
    expect(numberWords({ copies: 13, spares: 1 })).toBe('12 kits and 1 spare')
    expect(numberWords({ copies: 1, spares: 0 })).toBe('1 kit')
  })

  it('says how many can be made, what stops the next one and what to buy of it', () => {
    expect(answerWords(reckoned({ '0311': 2, 'Tarn Blue': 3 }), nameOf, 'in')).toEqual({
      answer: 'You can make 2 kits now.',
      stops: '0311 stops the third: buy 1 skein.',
    })
    expect(answerWords(reckoned({ '0311': 2, 'Tarn Blue': 2 }, { needles: 2 }), nameOf, 'in').stops).toBe(
      '0311 stops the third: buy 1 skein. Tarn Blue stops the third: buy 1 skein of lot 18. needle stops the third: buy 1 pack, 1 short.',
    )
    expect(answerWords(reckoned({ '0311': 0 }), nameOf, 'in').answer).toBe('You can make no kit now.')
  })

  it('names three lines at most', () => {
    const { stops } = answerWords(reckoned({ a: 0, b: 0, c: 0, d: 0 }, { needles: 0 }), nameOf, 'in')
    expect(stops).toBe(
      'a stops the first: buy 1 skein. b stops the first: buy 1 skein. c stops the first: buy 1 skein. So do 2 other lines.',
    )
  })

  it('says when all is there, and when nothing is known', () => {
    expect(answerWords(reckoned({ '0311': 3 }), nameOf, 'in')).toEqual({
      answer: 'All 2 kits and 1 spare can be made from what is there.',
      stops: 'Nothing is to be bought.',
    })
    const nothing = { ...reckoned({}), makeable: null, lines: [] as ReckonedLine[] }
    expect(answerWords(nothing, nameOf, 'in').answer).toBe('Not known yet.')
  })

  it('says what to buy of each kind', () => {
    expect(toBuyWords({ kind: 'thread', putUps: 5 }, 'one', 'hank', 'in')).toBe('5 hanks of one lot')
    expect(toBuyWords({ kind: 'thread', putUps: 1 }, 'one', 'hank', 'in')).toBe('1 hank')
    expect(toBuyWords({ kind: 'cloth', pieces: 13, lengthUm: 800_100 }, null, '', 'in')).toBe(
      '31½ in (⅞ yd) of cloth off the bolt, for 13 cuts',
    )
    expect(toBuyWords({ kind: 'cloth', pieces: 1, lengthUm: null }, null, '', 'in')).toBe('cloth for 1 cut')
    expect(toBuyWords({ kind: 'chart', copies: 12 }, null, '', 'in')).toBe('12 copies')
    expect(toBuyWords({ kind: 'item', count: 7, packs: null }, null, '', 'in')).toBe('7 more')
  })

  it('says where the charts are', () => {
    const chart = { isFile: false, onRecord: 12, away: 1, elsewhere: 3, packed: 2 }
    expect(chartStandingWords(chart)).toBe('12 copies on record, 2 in closed kits, 1 lent or out, 3 for earlier kits')
    expect(chartStandingWords({ ...chart, isFile: true })).toContain('one person')
  })
})

describe('whether all kits are of one lot', () => {
  const threadsOf = (lots: Record<string, { lot: string | null; kits: number }[]>, cut = 0) =>
    new Map(Object.entries(lots).map(([id, own]) => [id, { line: { lotsMatter: id === 'Tarn Blue' }, lots: own, cut }]))

  it('is said of those whose lots matter first', () => {
    const reckoning = reckoned({ '0311': 3, 'Tarn Blue': 3 })
    const one = { '0311': [{ lot: '18', kits: 3 }], 'Tarn Blue': [{ lot: '18', kits: 3 }] }
    expect(lotWords({ reckoning, threads: threadsOf(one) }, nameOf)).toEqual({
      answer: 'Yes, every thread.',
      notes: ['Tarn Blue: all of lot 18.', 'The solid is of one lot too.'],
    })
    const solidMixed = {
      ...one,
      '0311': [
        { lot: '18', kits: 2 },
        { lot: '22', kits: 1 },
      ],
    }
    expect(lotWords({ reckoning, threads: threadsOf(solidMixed) }, nameOf).answer).toBe('Yes, of every thread whose lots matter.')
    const dyedShort = {
      ...one,
      'Tarn Blue': [
        { lot: '18', kits: 2 },
        { lot: '22', kits: 2 },
      ],
    }
    const { answer, notes } = lotWords({ reckoning, threads: threadsOf(dyedShort) }, nameOf)
    expect(answer).toBe('Not from what is there.')
    expect(notes).toContain('Tarn Blue: lot 18 gives 2. Buy more of that lot, or all of a new one.')
  })

  it('is settled once all have their cut', () => {
    const reckoning = reckoned({ 'Tarn Blue': 3 })
    expect(lotWords({ reckoning, threads: threadsOf({ 'Tarn Blue': [] }, 3) }, nameOf).notes).toEqual([
      'Tarn Blue: cut for all; see the batch record.',
    ])
  })
})
