import { describe, expect, it } from 'vitest'
import type {
  KeyReading,
  NamedThread,
  ReadAmount,
  ReadDesign,
  ReadField,
  ReadKeyLine,
  ReadList,
  ThreadMatch,
} from '#lib/chart/key-text/reading'
import { pairUp, type ScoredField, scoreReading, type Tally } from '#tests/corpus/score'
import { askedOf, overall, sumScores } from '#tests/corpus/score-table'
import type { TruthDesign, TruthLine, TruthThread } from '#tests/corpus/truth'
import { keyLine, noFacts, putUps, saidCloth, stitchCount } from '#tests/corpus/writing'

const read = <T>(value: T, confidence = 0.95): ReadField<T> => ({ value, confidence, line: 0 })

const aThread = (overrides: Partial<TruthThread> = {}): TruthThread => ({
  maker: 'Larkholm',
  threadLine: null,
  code: '0311',
  name: 'Pine',
  strands: 2,
  implied: { maker: 'Larkholm', threadLine: 'Stranded Cotton', code: '0311', name: 'Pine' },
  meant: { kind: 'known', threadId: 't311' },
  ...overrides,
})
const readThread = (
  named: Partial<NamedThread> = {},
  match: ThreadMatch = { kind: 'known', threadId: 't311', confidence: 0.95, by: 'code' },
): ReadKeyLine['threads'][number] => ({
  named: { maker: read('Larkholm'), threadLine: null, code: read('0311'), name: read('Pine'), strands: read(2), ...named },
  match,
})
const readLine = (overrides: Partial<ReadKeyLine> = {}): ReadKeyLine => ({
  from: [0],
  symbol: read('●'),
  threads: [readThread()],
  stitches: null,
  amounts: [],
  rest: null,
  ...overrides,
})
const aLine = (overrides: Partial<TruthLine> = {}): TruthLine => ({
  ...keyLine({ symbol: '●', threads: [aThread()] }),
  ...overrides,
})

const aDesign = (lists: TruthLine[][], facts: Partial<TruthDesign['facts']> = {}): TruthDesign => ({
  facts: { ...noFacts, ...facts },
  notAsked: [],
  lists: lists.map((lines) => ({ name: null, lines })),
})
const nothingRead: ReadDesign['facts'] = {
  title: null,
  designer: null,
  widthStitches: null,
  heightStitches: null,
  measuredWidthUm: null,
  measuredHeightUm: null,
  count: null,
  over: null,
  weave: null,
  cloth: null,
}
const readDesign = (lists: ReadKeyLine[][], facts: Partial<ReadDesign['facts']> = {}): ReadDesign => ({
  facts: { ...nothingRead, ...facts },
  lists: lists.map((lines): ReadList => ({ name: null, lines })),
})
const reading = (...designs: ReadDesign[]): KeyReading => ({ designs, unread: [] })

/** The counts of the fields that have any: right, wrong, missing, extra, sure and wrong. */
function counts(wanted: TruthDesign[], got: KeyReading): Partial<Record<ScoredField, string>> {
  return Object.fromEntries(
    [...scoreReading(wanted, got).byField]
      .filter(([, tally]) => askedOf(tally) > 0)
      .map(([field, { right, wrong, missing, extra, confidentlyWrong }]: [ScoredField, Tally]) => [
        field,
        `${right} ${wrong} ${missing} ${extra} ${confidentlyWrong}`,
      ]),
  )
}
const oneLine = (wanted: TruthLine, got: ReadKeyLine) => counts([aDesign([[wanted]])], reading(readDesign([[got]])))

describe('the scoring of a reading', () => {
  it('counts each part of a line that was read as it stands', () => {
    expect(oneLine(aLine(), readLine())).toEqual({
      line: '1 0 0 0 0',
      symbol: '1 0 0 0 0',
      maker: '1 0 0 0 0',
      code: '1 0 0 0 0',
      name: '1 0 0 0 0',
      strands: '1 0 0 0 0',
      thread: '1 0 0 0 0',
    })
  })

  it('gives nothing to a reader that reads nothing', () => {
    const score = scoreReading([aDesign([[aLine(), aLine()]], { title: 'Nine Wrens' })], reading())
    expect(overall(score.byField)).toEqual({ right: 0, asked: 13, confidentlyWrong: 0, shareRight: 0, shareConfidentlyWrong: 0 })
  })

  it('keeps the zeros of a code and tells sure from unsure', () => {
    const lost = (confidence: number) =>
      oneLine(aLine(), readLine({ threads: [readThread({ code: read('311', confidence) })] })).code
    expect(lost(0.8)).toBe('0 1 0 0 1')
    expect(lost(0.79)).toBe('0 1 0 0 0')
  })

  it('makes a line of nothing extra in each of its fields, and takes it off the share', () => {
    const score = scoreReading(
      [aDesign([[aLine()]])],
      reading(
        readDesign([
          [
            readLine(),
            readLine({
              symbol: null,
              threads: [
                readThread(
                  { maker: null, code: read('2019'), name: read('Copyright'), strands: null },
                  { kind: 'new', lacks: ['maker'] },
                ),
              ],
            }),
          ],
        ]),
      ),
    )
    expect(
      Object.fromEntries(
        ['line', 'code', 'name', 'thread'].map((field) => [field, askedOf(score.byField.get(field as ScoredField) as Tally)]),
      ),
    ).toEqual({ line: 2, code: 2, name: 2, thread: 1 })
    expect(overall(score.byField)).toMatchObject({ right: 6, asked: 8, confidentlyWrong: 2 })
  })

  it('makes every field of a line that was not read missing', () => {
    const two = [
      aLine(),
      aLine({
        symbol: '■',
        threads: [aThread({ code: '0742', name: 'Slate', meant: { kind: 'known', threadId: 't742' } })],
        amounts: [putUps(2)],
      }),
    ]
    expect(counts([aDesign([two])], reading(readDesign([[readLine()]])))).toMatchObject({
      line: '1 0 1 0 0',
      symbol: '1 0 1 0 0',
      code: '1 0 1 0 0',
      thread: '1 0 1 0 0',
      'put-ups': '0 0 1 0 0',
    })
  })

  it('pairs lines by what is in them when one is left out above', () => {
    const codes = ['0101', '0202', '0303']
    const wanted = codes.map((code) =>
      aLine({
        symbol: null,
        threads: [aThread({ code, name: null, implied: { maker: 'Larkholm', threadLine: '', code, name: null } })],
      }),
    )
    const got = codes.slice(1).map((code) => readLine({ symbol: null, threads: [readThread({ code: read(code), name: null })] }))
    expect(counts([aDesign([wanted])], reading(readDesign([got]))).code).toBe('2 0 1 0 0')
  })

  it('holds a misread code against the line it stands for, not as one missing and one too many', () => {
    expect(
      oneLine(
        aLine({ symbol: null }),
        readLine({ symbol: null, threads: [readThread({ code: read('O311', 0.5), name: null })] }),
      ),
    ).toMatchObject({ line: '1 0 0 0 0', code: '0 1 0 0 0', name: '0 0 1 0 0' })
  })

  it('does not count what the vocabulary adds of the right thread, but counts what is made up', () => {
    const bare = aThread({ maker: null, name: null, strands: null })
    expect(
      oneLine(
        aLine({ threads: [bare] }),
        readLine({ threads: [readThread({ threadLine: read('Stranded Cotton'), strands: null })] }),
      ),
    ).not.toHaveProperty('maker')
    expect(
      oneLine(
        aLine({ threads: [bare] }),
        readLine({ threads: [readThread({ maker: read('Quillwater'), strands: read(2, 0.5) })] }),
      ),
    ).toMatchObject({ maker: '0 0 0 1 1', strands: '0 0 0 1 0' })
  })

  it('lets a thread that has a name alone stand in either place', () => {
    const named = aThread({
      maker: 'Oddny Loft',
      code: null,
      name: 'Tarn Blue',
      strands: null,
      implied: { maker: 'Oddny Loft', threadLine: 'Hand-dyed Cotton', code: 'Tarn Blue', name: null },
      meant: { kind: 'new' },
    })
    for (const place of [
      { code: read('Tarn Blue'), name: null },
      { code: null, name: read('Tarn blue') },
    ]) {
      const found = oneLine(
        aLine({ threads: [named] }),
        readLine({ threads: [readThread({ maker: read('Oddny Loft'), strands: null, ...place }, { kind: 'new', lacks: [] })] }),
      )
      expect(found).toMatchObject({ name: '1 0 0 0 0', thread: '1 0 0 0 0' })
      expect(found).not.toHaveProperty('code')
    }
  })

  it('takes an accent for a letter of its own, and no difference of dashes or quotes', () => {
    const name = (wanted: string, got: string) =>
      oneLine(aLine({ threads: [aThread({ name: wanted })] }), readLine({ threads: [readThread({ name: read(got) })] })).name
    expect(name('Rosé', 'Rose')).toBe('0 1 0 0 1')
    expect(name("Miller's Red", 'Miller’s  red')).toBe('1 0 0 0 0')
  })

  it('asks for the very thread: another is wrong, an undecided one missing', () => {
    const thread = (meant: TruthThread['meant'], match: ThreadMatch) =>
      oneLine(aLine({ threads: [aThread({ meant })] }), readLine({ threads: [readThread({}, match)] })).thread
    const known: ThreadMatch = { kind: 'known', threadId: 'other', confidence: 0.9, by: 'name' }
    expect(thread({ kind: 'known', threadId: 't311' }, known)).toBe('0 1 0 0 1')
    expect(thread({ kind: 'new' }, known)).toBe('0 1 0 0 1')
    expect(thread({ kind: 'known', threadId: 't311' }, { kind: 'several', threadIds: ['t311', 'p311'] })).toBe('0 0 1 0 0')
    expect(thread({ kind: 'known', threadId: 't311' }, { kind: 'new', lacks: [] })).toBe('0 0 1 0 0')
    expect(thread({ kind: 'new' }, { kind: 'new', lacks: ['maker'] })).toBe('1 0 0 0 0')
    expect(thread({ kind: 'several', threadIds: ['a', 'b'] }, { kind: 'several', threadIds: ['b', 'a'] })).toBe('1 0 0 0 0')
    expect(thread({ kind: 'several', threadIds: ['a', 'b'] }, { kind: 'several', threadIds: ['b', 'c'] })).toBe('0 0 1 0 0')
  })

  it('counts no credit for crosses that nobody spoke of, and holds a wrong kind of stitch', () => {
    const kind = (wanted: TruthLine['stitches'], got: ReadKeyLine['stitches']) =>
      oneLine(aLine({ stitches: wanted }), readLine({ stitches: got })).stitches
    expect(kind(null, read(['full']))).toBeUndefined()
    expect(kind(['full'], null)).toBeUndefined()
    expect(kind(['backstitch'], read(['backstitch']))).toBe('1 0 0 0 0')
    expect(kind(['backstitch'], null)).toBe('0 0 1 0 0')
    expect(kind(null, read(['backstitch']))).toBe('0 0 0 1 1')
    expect(kind(['backstitch'], read(['half'], 0.3))).toBe('0 1 0 0 0')
  })

  it('holds amounts by their kind and figure', () => {
    const stitches = (count: number): ReadAmount => ({ kind: 'stitches', stitch: 'full', count: read(count) })
    const wanted = aLine({ amounts: [stitchCount('full', 1_240), putUps(2)] })
    expect(
      oneLine(wanted, readLine({ amounts: [stitches(1_240), { kind: 'put-ups', hundredths: read(100), putUpWord: 'skein' }] })),
    ).toMatchObject({ 'stitch count': '1 0 0 0 0', 'put-ups': '0 1 0 0 1' })
    expect(
      oneLine(wanted, readLine({ amounts: [{ kind: 'put-ups', hundredths: read(124_000), putUpWord: null }, stitches(2)] })),
    ).toMatchObject({ 'stitch count': '0 1 0 0 1', 'put-ups': '0 1 0 0 1' })
    expect(oneLine(wanted, readLine({ amounts: [{ kind: 'length', tenths: read(31_000) }] }))).toMatchObject({
      'stitch count': '0 0 1 0 0',
      'put-ups': '0 0 1 0 0',
      length: '0 0 0 1 1',
    })
  })

  it('takes a blend apart: each thread with its own strands, one left out missing', () => {
    const other = aThread({ code: '0742', name: 'Slate', strands: 1, meant: { kind: 'known', threadId: 't742' } })
    const blend = aLine({ threads: [aThread({ strands: 1 }), other] })
    const second = readThread(
      { code: read('0742'), name: read('Slate'), strands: read(1) },
      { kind: 'known', threadId: 't742', confidence: 0.9, by: 'code' },
    )
    expect(oneLine(blend, readLine({ threads: [second, readThread({ strands: read(1) })] }))).toMatchObject({
      code: '2 0 0 0 0',
      thread: '2 0 0 0 0',
      strands: '2 0 0 0 0',
    })
    expect(oneLine(blend, readLine({ threads: [readThread({ strands: read(1) })] }))).toMatchObject({
      code: '1 0 1 0 0',
      thread: '1 0 1 0 0',
      strands: '1 0 1 0 0',
    })
  })

  it('does not take the line of one palette for that of another', () => {
    const dyed = aThread({
      maker: 'Oddny Loft',
      code: null,
      name: 'Tarn Blue',
      strands: null,
      implied: { maker: 'Oddny Loft', threadLine: '', code: 'Tarn Blue', name: null },
      meant: { kind: 'new' },
    })
    const readDyed = readLine({
      threads: [
        readThread({ maker: read('Oddny Loft'), code: null, name: read('Tarn Blue'), strands: null }, { kind: 'new', lacks: [] }),
      ],
    })
    const wanted = [aDesign([[aLine()], [aLine({ threads: [dyed] })]])]
    expect(counts(wanted, reading(readDesign([[readDyed], [readLine()]])))).toMatchObject({
      line: '2 0 0 0 0',
      thread: '2 0 0 0 0',
    })
    expect(counts(wanted, reading(readDesign([[readLine(), readDyed]])))).toMatchObject({ line: '1 0 1 1 1' })
  })

  it('holds the facts of each design against the design they were read for', () => {
    const wanted = [
      aDesign([[aLine()]], { title: 'Nine Wrens', widthStitches: 118, over: 2 }),
      aDesign([[aLine({ threads: [aThread({ code: '0742', name: 'Slate' })] })]], { title: 'Little Barge', widthStitches: 57 }),
    ]
    const barge = readDesign([[readLine({ threads: [readThread({ code: read('0742'), name: read('Slate') })] })]], {
      title: read('LITTLE BARGE'),
      widthStitches: read(118, 0.6),
    })
    const wrens = readDesign([[readLine()]], { title: read('Nine Wrens'), widthStitches: read(118), over: read(1) })
    expect(counts(wanted, reading(barge, wrens))).toMatchObject({
      title: '2 0 0 0 0',
      widthStitches: '1 1 0 0 0',
      over: '0 1 0 0 1',
    })
  })

  it('takes of the cloth what must be said and no more than was', () => {
    const wanted = [
      aDesign([[aLine()]], { cloth: saidCloth('Harrowmere linen', '32 count Harrowmere linen, Flax'), weave: 'single' }),
    ]
    const cloth = (said: string) =>
      counts(wanted, reading(readDesign([[readLine()]], { cloth: read(said), weave: read('single') }))).cloth
    expect(cloth('Harrowmere Linen, flax')).toBe('1 0 0 0 0')
    expect(cloth('linen')).toBe('0 1 0 0 1')
    expect(cloth('Harrowmere linen by Corvin Ashdale')).toBe('0 1 0 0 1')
  })

  it('takes Aida over one as said, and any other over that nobody said as made up', () => {
    const over = (weave: 'block' | 'single', said: 1 | 2) =>
      counts([aDesign([[aLine()]], { weave })], reading(readDesign([[readLine()]], { weave: read(weave), over: read(said) })))
        .over
    expect(over('block', 1)).toBeUndefined()
    expect(over('block', 2)).toBe('0 0 0 1 1')
    expect(over('single', 2)).toBe('0 0 0 1 1')
  })

  it('counts a drawn symbol apart, but what is surely made of it as wrong', () => {
    const wanted = [aDesign([[aLine({ symbol: null, isDrawn: true })]])]
    const symbol = (got: ReadField<string> | null) =>
      scoreReading(wanted, reading(readDesign([[readLine({ symbol: got })]]))).byField
    expect(overall(symbol(null))).toMatchObject({ right: 5, asked: 5, confidentlyWrong: 0 })
    expect(overall(symbol(null), true)).toMatchObject({ right: 5, asked: 6, confidentlyWrong: 0 })
    expect(overall(symbol(read('e', 0.4)))).toMatchObject({ right: 5, asked: 5, confidentlyWrong: 0 })
    expect(overall(symbol(read('e', 0.9)))).toMatchObject({ right: 5, asked: 5, confidentlyWrong: 1 })
  })

  it('adds documents up', () => {
    const one = scoreReading([aDesign([[aLine()]])], reading(readDesign([[readLine()]])))
    const none = scoreReading([aDesign([[aLine()]])], reading())
    expect(overall(sumScores([one, none]))).toMatchObject({ right: 6, asked: 12, shareRight: 0.5 })
  })
})

describe('pairing', () => {
  it('takes the most alike first, the nearest in order among equals, and leaves what is alike in nothing', () => {
    const alike = (a: number, b: number) => Math.max(0, 10 - Math.abs(a - b))
    expect(pairUp([1, 5, 100], [5, 2, 50], alike)).toEqual({
      pairs: [
        [1, 2],
        [5, 5],
      ],
      missing: [100],
      extra: [50],
    })
    expect(pairUp(['a', 'a'], ['a', 'a'], (a, b) => (a === b ? 1 : 0)).pairs).toHaveLength(2)
  })
})
