import { describe, expect, it } from 'vitest'
import type { DesignKits, KitThread } from '#lib/db/coverage/design-kits'
import { ordinal } from '#words/ordinal'
import {
  batchLotWords,
  boughtWords,
  chartWords,
  kitsAnswer,
  oneLotWords,
  toBuyWords,
} from '../../../app/designs/[designId]/kit-words'

const solid = { putUpWord: 'skein', lotsMatter: false }
const dyed = { putUpWord: 'hank', lotsMatter: true }

const aThread = (threadId: string, over: object = {}): KitThread =>
  ({
    threadId,
    line: solid,
    kits: 20,
    putUpsForAll: 7,
    toBuyPutUps: 0,
    lots: [{ lot: null, kits: 20 }],
    lotToMatch: null,
    ...over,
  }) as KitThread

const aCount = (threads: KitThread[], over: Partial<DesignKits> = {}): DesignKits => {
  const kits = Math.min(...threads.map((thread) => thread.kits))
  const stops = threads.filter((thread) => thread.kits === kits).map((thread) => ({ thread, toBuyPutUps: 1 }))
  const charts = { isFile: false, wanted: 12, onRecord: 1, toBuy: 11 }
  return { asked: 12, spares: 1, kits, threads, stops, beadsPerKit: 0, charts, cloth: { kind: 'unknown-size' }, ...over }
}

const nameOf = (threadId: string) => threadId

describe('kits in words', () => {
  it('counts them, and says what stops the next one and what to buy', () => {
    expect(kitsAnswer(aCount([aThread('0742', { kits: 7 }), aThread('0311')]), nameOf)).toEqual({
      answer: 'You can make 7 kits now.',
      stops: '0742 stops the eighth: buy 1 skein.',
    })
    const two = [aThread('0742', { kits: 0 }), aThread('Tarn Blue', { kits: 0, line: dyed, lotToMatch: { lot: '18', kits: 0 } })]
    expect(kitsAnswer(aCount(two), nameOf)).toEqual({
      answer: 'You can make no kit now.',
      stops: '0742 and Tarn Blue stop the first: buy 1 skein of 0742 and 1 hank of Tarn Blue (lot 18).',
    })
    const alike = [aThread('a', { kits: 2 }), aThread('b', { kits: 2 })]
    expect(kitsAnswer(aCount(alike), nameOf).stops).toBe('a and b stop the third: buy 1 skein of each.')
    const many = ['a', 'b', 'c', 'd', 'e'].map((id) => aThread(id, { kits: 0 }))
    expect(kitsAnswer(aCount(many), nameOf).stops).toBe('a, b, c and 2 more stop the first.')
    expect(kitsAnswer(aCount([], { kits: 0 }), nameOf).answer).toBe('Not known yet: its thread list is not in.')
  })

  it('numbers the kit that cannot be made', () => {
    expect([1, 2, 12, 13, 21, 22, 33, 111, 1_001].map(ordinal)).toEqual([
      'first',
      'second',
      'twelfth',
      '13th',
      '21st',
      '22nd',
      '33rd',
      '111th',
      '1,001st',
    ])
  })

  it('names the lot to ask for where lots matter', () => {
    expect(toBuyWords(aThread('a'), 3)).toBe('3 skeins')
    expect(toBuyWords(aThread('a', { line: dyed }), 3)).toBe('3 hanks of one lot')
    expect(toBuyWords(aThread('a', { line: dyed }), 1)).toBe('1 hank')
    expect(toBuyWords(aThread('a', { line: dyed, lotToMatch: { lot: '18', kits: 5 } }), 3)).toBe('3 hanks of lot 18')
  })

  it('sums up what is to be bought, over put-ups of several kinds too', () => {
    expect(boughtWords(aCount([aThread('a')]))).toBe('There is enough thread for 12 kits and 1 spare.')
    const short = [aThread('a', { toBuyPutUps: 3 }), aThread('b', { toBuyPutUps: 4 })]
    expect(boughtWords(aCount(short))).toBe('For 12 kits and 1 spare, buy 7 skeins of 2 threads.')
    const mixed = [aThread('a', { toBuyPutUps: 3 }), aThread('b', { toBuyPutUps: 4, line: dyed })]
    expect(boughtWords(aCount(mixed, { spares: 0 }))).toBe('For 12 kits, buy 7 put-ups of 2 threads.')
  })

  it('says whether all are of one lot, and what to do where they are not', () => {
    const oneLot = aThread('Tarn Blue', { line: dyed, lots: [{ lot: '18', kits: 14 }] })
    expect(oneLotWords(aCount([oneLot, aThread('a')]), nameOf)).toEqual({
      answer: 'Yes, every thread.',
      notes: ['Tarn Blue: all of lot 18.'],
    })
    const scattered = aThread('0311', {
      lots: [
        { lot: '4', kits: 12 },
        { lot: '5', kits: 8 },
      ],
    })
    expect(oneLotWords(aCount([oneLot, scattered]), nameOf)).toEqual({
      answer: 'Yes, of every thread whose lots matter.',
      notes: [
        'Tarn Blue: all of lot 18.',
        '0311 would come out of several batches or lots. In a solid that seldom shows; compare them by daylight.',
      ],
    })
    const short = { line: dyed, kits: 5, toBuyPutUps: 3, putUpsForAll: 5, lots: [{ lot: '18', kits: 5 }] }
    expect(oneLotWords(aCount([aThread('Tarn Blue', { ...short, lotToMatch: { lot: '18', kits: 5 } })]), nameOf)).toEqual({
      answer: 'Not from what is free.',
      notes: ['Tarn Blue: lot 18 gives 5; buy 3 hanks of lot 18, or where that is not to be had, 5 hanks of one new lot.'],
    })
    const unmarked = { ...short, toBuyPutUps: 5, lots: [{ lot: null, kits: 5 }] }
    expect(oneLotWords(aCount([aThread('Tarn Blue', unmarked)]), nameOf).notes).toEqual([
      'Tarn Blue: a batch without a lot mark gives 5; buy 5 hanks of one new lot.',
    ])
  })

  it('says of a kit batch which threads came out of several lots', () => {
    expect(batchLotWords({ promisedCount: 0, mixed: [] }, nameOf)).toBe('nothing is promised to it yet')
    expect(batchLotWords({ promisedCount: 8, mixed: [] }, nameOf)).toBe('all of one lot, thread by thread: 8 threads')
    const mixed = [
      { threadId: 'Tarn Blue', lotsMatter: true, lots: ['18', '22'] },
      { threadId: '0311', lotsMatter: false, lots: ['4', null, null] },
    ]
    expect(batchLotWords({ promisedCount: 8, mixed }, nameOf)).toBe(
      'Tarn Blue of lots 18 and 22; 0311 of lot 4 and 2 batches without a mark, a solid',
    )
  })

  it('asks for one bought chart to a kit and packs no file', () => {
    expect(chartWords(aCount([aThread('a')]))).toEqual([
      'One bought chart goes into each kit: 12. 1 is on record, so 11 are to buy; more if one of your own is among them.',
      'The spare has none until it is sold.',
    ])
    const file = { isFile: true, wanted: 12, onRecord: 0, toBuy: 12 }
    const [words, ...rest] = chartWords(aCount([aThread('a')], { charts: file, spares: 0 }))
    expect(words).toContain('a file is for one person: it is not packed')
    expect(rest).toEqual([])
  })
})
