import { describe, expect, it } from 'vitest'
import { readKey } from '#lib/chart/key-text/read-key'
import type { KnownThread } from '#lib/chart/key-text/reading'
import { splitText } from '#lib/chart/key-text/split-text'
import { startReview, teach } from '#lib/chart/key-text/teach'
import { toThreadList } from '#lib/chart/key-text/to-thread-list'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'

const thread = (id: string, maker: string, threadLine: string, code: string, name: string | null): KnownThread => ({
  id,
  maker,
  threadLine,
  code,
  name,
})
const threads = [
  thread('pine', 'Larkholm', 'Stranded Cotton', '0311', 'Pine'),
  thread('harbour', 'Larkholm', 'Stranded Cotton', '0742', 'Dark Harbour Blue'),
  thread('damson', 'Larkholm', 'Stranded Cotton', '0087', 'Damson'),
  thread('forget', 'Larkholm', 'Stranded Cotton', '0905', 'Forget-me-not'),
  thread('ecru', 'Larkholm', 'Stranded Cotton', 'Ecru', 'Ecru'),
  thread('tarn', 'Oddny Loft', 'Hand-dyed Cotton', 'Tarn Blue', null),
  thread('rope', 'Oddny Loft', 'Hand-dyed Cotton', 'Old Rope', null),
  thread('silver', 'Quillwater', 'Filament', '12', 'Silver'),
]
const known = vocabularyOf(threads)
const read = (text: string) => readKey(splitText(text), known)
const linesOf = (text: string) => read(text).designs[0]?.lists[0]?.lines ?? []
const briefly = (text: string) =>
  linesOf(text).map((line) => ({
    symbol: line.symbol?.value ?? null,
    threads: line.threads.map(({ named, match }) => [
      named.maker?.value ?? null,
      named.code?.value ?? null,
      named.name?.value ?? null,
      named.strands?.value ?? null,
      match.kind === 'known' ? match.threadId : match.kind,
    ]),
    amounts: line.amounts.map((amount) =>
      amount.kind === 'stitches'
        ? `${amount.count.value} ${amount.stitch}`
        : amount.kind === 'put-ups'
          ? `${amount.hundredths.value} hundredths`
          : `${amount.tenths.value} tenths`,
    ),
  }))

describe('a key written out', () => {
  it('reads symbol, code, maker, name, strands, stitches and skeins of one line', () => {
    expect(briefly('● 0311 Larkholm, Pine, 2 strands, 1,240 st, 2 skeins')).toEqual([
      { symbol: '●', threads: [['Larkholm', '0311', 'Pine', 2, 'pine']], amounts: ['1240 full', '200 hundredths'] },
    ])
  })

  it('reads a blend with a strand of each', () => {
    expect(briefly('0742+0087 1 each')).toEqual([
      {
        symbol: null,
        threads: [
          [null, '0742', null, 1, 'harbour'],
          [null, '0087', null, 1, 'damson'],
        ],
        amounts: [],
      },
    ])
  })

  it('reads a code that is a word, and strands in words', () => {
    const [line] = linesOf('Larkholm\nEcru – use two strands')
    expect(line?.threads[0]?.named.strands?.value).toBe(2)
    expect(line?.threads[0]?.match).toMatchObject({ kind: 'known', threadId: 'ecru' })
  })

  it('takes the stitch before a colon as what the line is worked in', () => {
    const [line] = linesOf('Backstitch: 0905 (1)')
    expect(line?.stitches?.value).toEqual(['backstitch'])
    expect(line?.threads[0]?.named.strands?.value).toBe(1)
  })

  it('plans on the top of a range, and reads halves and lengths', () => {
    expect(
      briefly('Larkholm 0311 Pine, 2–3 skeins\nLarkholm 0742, ½ skein\nLarkholm 0087 Damson, 3.1 m').map(
        ({ amounts }) => amounts,
      ),
    ).toEqual([['300 hundredths'], ['50 hundredths'], ['31000 tenths']])
  })

  it('does not take a code without its noughts for the one that has them', () => {
    expect(linesOf('Larkholm\n● 311 Pine, 2 strands')[0]?.threads[0]?.match).toEqual({ kind: 'new', lacks: ['thread line'] })
  })
})

describe('a key in a table', () => {
  it('carries the maker over the column to every row', () => {
    expect(
      briefly(
        'Symbol\tLarkholm no.\tColour\tStrands\tStitches\tSkeins\n●\t0311\tPine\t2\t1,240\t2\n■\t0742\tDark Harbour Blue\t1\t88\t1',
      ),
    ).toEqual([
      { symbol: '●', threads: [['Larkholm', '0311', 'Pine', 2, 'pine']], amounts: ['1240 full', '200 hundredths'] },
      { symbol: '■', threads: [['Larkholm', '0742', 'Dark Harbour Blue', 1, 'harbour']], amounts: ['88 full', '100 hundredths'] },
    ])
  })

  it('makes a list of each of two columns of makers', () => {
    const [design] = read('Symbol | Larkholm | Oddny Loft\n● | 0311 | Tarn Blue\n■ | 0742 | Old Rope').designs
    expect(design?.lists.map(({ lines }) => lines.map((line) => line.threads[0]?.named.code?.value))).toEqual([
      ['0311', '0742'],
      ['Tarn Blue', 'Old Rope'],
    ])
  })

  it('carries sections and their strands down', () => {
    const lines = linesOf(
      'Larkholm Stranded Cotton\nCROSS STITCH (2 strands)\n● 0311 Pine\nBACKSTITCH (1 strand)\n0905 Forget-me-not',
    )
    expect(
      lines.map(({ stitches, threads: [one] }) => [stitches?.value, one?.named.strands?.value, one?.named.threadLine?.value]),
    ).toEqual([
      [['full'], 2, 'Stranded Cotton'],
      [['backstitch'], 1, 'Stranded Cotton'],
    ])
  })
})

describe('facts of the design', () => {
  it('reads title, designer, size, count, over and cloth', () => {
    const facts = read(
      'Rook Hill in Snow\nby Corvin Ashdale\nStitch count: 140 x 98\nFabric: 28 count Ostravane evenweave over two threads\n\n● 0311 Larkholm Pine',
    ).designs[0]?.facts
    expect(facts).toMatchObject({
      title: { value: 'Rook Hill in Snow' },
      designer: { value: 'Corvin Ashdale' },
      widthStitches: { value: 140 },
      heightStitches: { value: 98 },
      count: { value: { threads: 28, perUm: 25_400 } },
      over: { value: 2 },
      weave: { value: 'single' },
      cloth: { value: 'Ostravane evenweave' },
    })
  })
})

describe('one correction teaches the rest', () => {
  const text = '● 1500 Larch, 2 strands\n■ 1501 Moss, 2 strands\n▲ 1502 Fern, 2 strands'
  const place = { design: 0, list: 0, line: 0 }

  it('gives the maker to the lines that had none, and leaves one set by hand alone', () => {
    const start = startReview(splitText(text), known)
    const own = teach(
      start,
      {
        kind: 'field',
        place: { ...place, line: 2 },
        edit: { field: 'maker', thread: 0, value: 'Quillwater' },
        teachesRest: false,
      },
      known,
    )
    expect(own.changed).toEqual([])
    const { review, changed } = teach(
      own.review,
      { kind: 'field', place, edit: { field: 'maker', thread: 0, value: 'Larkholm' }, teachesRest: true },
      known,
    )
    expect(review.reading.designs[0]?.lists[0]?.lines.map((line) => line.threads[0]?.named.maker?.value)).toEqual([
      'Larkholm',
      'Larkholm',
      'Quillwater',
    ])
    expect(changed).toEqual([{ ...place, line: 1 }])
  })

  it('takes numbers for skeins everywhere once one was', () => {
    const start = startReview(splitText('Larkholm\n0311 Pine (2)\n0742 Dark Harbour Blue (1)'), known)
    const amount = { kind: 'put-ups' as const, hundredths: { value: 200, confidence: 1, line: null }, putUpWord: null }
    const { review } = teach(
      start,
      { kind: 'field', place, edit: { field: 'amounts', value: [amount] }, teachesRest: true },
      known,
    )
    expect(review.reading.designs[0]?.lists[0]?.lines[1]?.amounts).toMatchObject([
      { kind: 'put-ups', hundredths: { value: 100 } },
    ])
  })
})

describe('from a reading to a thread list', () => {
  it('names known threads as the collection does and counts stitches by kind', () => {
    const [list] = read('● 0311 Larkholm, Pine, 2 strands, 1,240 st, 2 skeins').designs[0]?.lists ?? []
    expect(list && toThreadList(list, known)).toEqual({
      ok: true,
      value: [
        {
          symbol: '●',
          note: null,
          tally: { full: 1240 },
          threads: [
            {
              makerName: 'Larkholm',
              lineName: 'Stranded Cotton',
              code: '0311',
              name: 'Pine',
              strands: 2,
              statedHundredths: 200,
              putUpTenths: null,
            },
          ],
        },
      ],
    })
  })

  it('refuses a line whose maker nobody said', () => {
    const [list] = read('● 0999 Larch, 2 strands\n■ 0998 Moss, 2 strands').designs[0]?.lists ?? []
    expect(list && toThreadList(list, known)).toEqual({
      ok: false,
      error: [
        { kind: 'no-maker', line: 0, thread: 0 },
        { kind: 'no-maker', line: 1, thread: 0 },
      ],
    })
  })
})

describe('what is said above and below a key', () => {
  const makersOf = (text: string) => linesOf(text).map(({ threads: [one] }) => one?.named.maker?.value ?? null)

  it('takes "hand-dyed" behind a maker for the one line of theirs that is', () => {
    const [line] = linesOf('Oddny Loft hand-dyed\n● Tarn Blue, 1 skein\n▲ Old Rope, 2 skeins')
    expect(line?.threads[0]?.named.threadLine?.value).toBe('Hand-dyed Cotton')
    expect(line?.threads[0]?.match).toMatchObject({ kind: 'known', threadId: 'tarn' })
  })

  it('takes no row of names and skeins for the head of a table', () => {
    expect(linesOf('Oddny Loft\n▲\tOld Rope\t2 skeins\n#\tTarn Blue\t1 skein').map(({ symbol }) => symbol?.value)).toEqual([
      '▲',
      '#',
    ])
  })

  it('takes a head with a maker nobody knows and "Stranded" for codes, not strands', () => {
    const [line] = linesOf('Symbol\tWendover Stranded Silk\tColour\n●\t118\tPine\n▲\t207\tDamson\n■\t311\tQuince')
    expect(line?.threads[0]?.named).toMatchObject({ maker: { value: 'Wendover' }, code: { value: '118' }, strands: null })
  })

  it('takes families of colours for headings', () => {
    const text = 'Larkholm\nGreens\n● 0311 Pine\n▲ 0742 Dark Harbour Blue\nReds\n■ 0087 Damson\n◆ 0905 Forget-me-not'
    expect(linesOf(text).map(({ threads: [one] }) => one?.named.code?.value)).toEqual(['0311', '0742', '0087', '0905'])
    expect(makersOf(text)).toEqual(['Larkholm', 'Larkholm', 'Larkholm', 'Larkholm'])
  })

  it('gives strands said with one maker to no other maker’s threads', () => {
    const text = 'Use two strands of Larkholm.\n● 0311 Pine\n▲ 0742 Dark Harbour Blue\nOddny Loft\n■ Tarn Blue, 1 skein'
    expect(linesOf(text).map(({ threads: [one] }) => one?.named.strands?.value ?? null)).toEqual([2, 2, null])
  })

  it('gives strands said within one design to none of the next', () => {
    const text = [
      ...[
        'Title: Winter Post',
        '120 x 90 stitches',
        'Larkholm, 2 strands',
        '● 0311 Pine',
        '▲ 0742 Dark Harbour Blue',
        '■ 0087 Damson',
      ],
      ...['Title: Plum Lane', '80 x 60 stitches', 'Larkholm', '● 0311 Pine', '▲ 0905 Forget-me-not', '■ 0087 Damson'],
    ].join('\n')
    const strands = read(text).designs.map(({ lists }) =>
      lists[0]?.lines.map(({ threads: [one] }) => one?.named.strands?.value ?? null),
    )
    expect(strands).toEqual([
      [2, 2, 2],
      [null, null, null],
    ])
  })
})
