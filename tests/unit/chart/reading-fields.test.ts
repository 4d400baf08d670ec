import { describe, expect, it } from 'vitest'
import type { KeyReading, ReadFacts, ReadField, ReadKeyLine } from '#lib/chart/key-text/reading'
import { lineFields, sumReading, threadStanding } from '#lib/chart/reading-fields'
import { unknownKey, unknownLines, unknownThreads } from '#lib/chart/unknown-threads'

const field = <T>(value: T, confidence = 1): ReadField<T> => ({ value, confidence, line: 0 })
const byHand = <T>(value: T): ReadField<T> => ({ value, confidence: 0, line: null, byHand: true })
type ReadThread = ReadKeyLine['threads'][number]

const aThread = (match: ReadThread['match'], over: Partial<ReadThread['named']> = {}): ReadThread => ({
  named: {
    maker: field('Larkholm'),
    threadLine: field('Stranded Cotton'),
    code: field('0311'),
    name: null,
    strands: null,
    ...over,
  },
  match,
})
const known = (confidence: number) => aThread({ kind: 'known', threadId: 't1', confidence, by: 'code' })
const fresh = (over: Partial<ReadThread['named']> = {}) => aThread({ kind: 'new', lacks: [] }, over)
const aLine = (threads: ReadThread[], over: Partial<ReadKeyLine> = {}): ReadKeyLine => ({
  ...{ from: [0], symbol: null, threads, stitches: null, amounts: [], rest: null },
  ...over,
})
const facts: ReadFacts = {
  ...{ title: null, designer: null, widthStitches: null, heightStitches: null, measuredWidthUm: null, measuredHeightUm: null },
  ...{ count: null, over: null, weave: null, cloth: null },
}
const aReading = (lines: ReadKeyLine[], over: Partial<ReadFacts> = {}, unread: number[] = []): KeyReading => ({
  designs: [{ facts: { ...facts, ...over }, lists: [{ name: null, lines }] }],
  unread,
})
const place = { design: 0, list: 0, line: 0 }

describe('how a field that was read stands', () => {
  it('is sure from a confidence of 0.8 on, and by hand always', () => {
    const amounts = [
      { kind: 'stitches', stitch: 'full', count: field(120, 0.8) },
      { kind: 'put-ups', hundredths: field(100, 0.79), putUpWord: null },
    ] as const
    const line = aLine([known(0.9)], { symbol: byHand('●'), amounts: [...amounts] })
    expect(lineFields(line, place).map(({ field: { kind }, standing }) => [kind, standing])).toEqual([
      ['symbol', 'sure'],
      ['thread', 'sure'],
      ['amount', 'sure'],
      ['amount', 'look'],
    ])
  })

  it('lacks a thread where a line names none', () => {
    expect(lineFields(aLine([]), place)).toEqual([{ place, field: { kind: 'thread', thread: 0 }, standing: 'lacking' }])
  })

  it.each([
    ['a doubtful match is to be looked at', known(0.5), 'look'],
    ['several that may be meant are to be chosen from', aThread({ kind: 'several', threadIds: ['a', 'b'] }), 'choose'],
    ['one named in full would be new', fresh(), 'new'],
    ['one whose code is doubtful is looked at before it is new', fresh({ code: field('O311', 0.4) }), 'look'],
    ['one without a code is no thread yet', aThread({ kind: 'new', lacks: ['code'] }, { code: null }), 'lacking'],
    [
      'one without a line may be of its maker’s only one',
      aThread({ kind: 'new', lacks: ['thread line'] }, { threadLine: null }),
      'new',
    ],
  ] as const)('%s', (_says, thread, standing) => {
    expect(threadStanding(thread)).toBe(standing)
  })

  it('sums up what there is to do: fields, facts and lines nobody read, but for those that were dismissed', () => {
    const lines = [aLine([known(0.5), fresh()], { symbol: field('●', 0.2) }), aLine([fresh()])]
    expect(sumReading(aReading(lines, { title: field('Nine Wrens', 0.3), over: field(2 as const) }, [4, 5, 6]), [5])).toEqual({
      ...{ lines: 2, toLookAt: 3, newThreads: 2, unread: 2 },
    })
  })
})

describe('threads that are not on record', () => {
  it('names each once, however its maker is spelt, with the lines it stands in', () => {
    const lines = [aLine([fresh()]), aLine([fresh({ maker: field('LARKHOLM') })]), aLine([fresh({ code: field('311') })])]
    expect(unknownThreads(aReading(lines)).map(({ code, places }) => [code, places.map(({ line }) => line)])).toEqual([
      ['0311', [0, 1]],
      ['311', [2]],
    ])
  })

  it('leaves out what is known and what names too little', () => {
    expect(unknownKey(known(0.1))).toBeNull()
    expect(unknownKey(fresh({ maker: null }))).toBeNull()
    expect(unknownKey(fresh({ code: null }))).toBeNull()
  })

  it('tells the lines that would be new with them, and whether their maker is', () => {
    const lines = [
      aLine([fresh()]),
      aLine([fresh({ threadLine: null })]),
      aLine([fresh({ threadLine: field('Perle'), code: field('7') })]),
      aLine([fresh({ maker: field('Oddny Loft'), threadLine: null, code: field('Fog') })]),
    ]
    const onRecord = [{ makerName: 'larkholm', name: 'stranded cotton' }]
    expect(unknownLines(unknownThreads(aReading(lines)), onRecord)).toMatchObject([
      { makerName: 'Larkholm', lineName: 'Perle', isNewMaker: false, threadCount: 1 },
      { makerName: 'Oddny Loft', lineName: null, isNewMaker: true, threadCount: 1 },
    ])
  })
})
