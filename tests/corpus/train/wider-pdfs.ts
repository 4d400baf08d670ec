// Long because it is a table: one layout of a page to a function, none of which knows another.
import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import { seededRandom } from '#seed/random'
import { fonts, glyphSymbols, Page } from '../page-drawing'
import { type CorpusFile, pdfsInHalf, type TruthDesign, type TruthLine } from '../truth'
import { drawWorld, type PoolThread, saidThread, settleMeant } from '../world'
import { drawCount, keyLine, putUps, stitchCount, takeThreads, withCommas } from '../writing'
import { widerProse } from './wider-facts'
import { headSettings, type SetHead, setHead } from './wider-heads'
import { widerRanges } from './wider-ranges'

type Means = { random: Random; silk: PoolThread[]; wool: PoolThread[]; dyed: PoolThread[]; beads: PoolThread[] }
type Key = (page: Page, means: Means) => TruthLine[]

const left = 54
const body = { font: fonts.helvetica, size: 9 } as const
const put = (page: Page, text: string, x: number, font: (typeof fonts)[keyof typeof fonts] = fonts.helvetica, size = 9): void =>
  page.put(text, x, page.y, { font, size })
const say = (page: Page, text: string, size = 9): void => page.paragraph(text, left, 480, { font: fonts.helvetica, size })
const heading = (page: Page, text: string): void => {
  page.y += 6
  page.paragraph(text, left, 480, { font: fonts.helveticaBold, size: 10.5 })
  page.y += 2
}
const next = (page: Page, by = 14): void => {
  page.y += by
}
const makerOf = (threads: readonly PoolThread[]): string => threads[0]?.maker ?? ''
const lineOf = (threads: readonly PoolThread[]): string => threads[0]?.threadLine ?? ''

/** Symbol, number and name of each thread on a line of its own, without a head. */
function plainRows(
  page: Page,
  random: Random,
  threads: readonly PoolThread[],
  said: { line?: boolean; maker?: boolean; strands?: number | null; stitches?: Stitch[] | null; symbols?: boolean },
): TruthLine[] {
  const { line = false, maker = true, strands = null, stitches = null, symbols = true } = said
  const marks = random.sample(glyphSymbols, threads.length)
  return threads.map((thread, at) => {
    if (symbols) put(page, marks[at] as string, left, fonts.symbols)
    put(page, thread.code, left + 28)
    put(page, thread.name as string, left + 84)
    next(page)
    return keyLine({
      symbol: symbols ? (marks[at] as string) : null,
      threads: [saidThread(thread, { maker, line, code: true, name: true, strands })],
      stitches,
    })
  })
}

const keys: [string, Key][] = [
  [
    'strands in the headings',
    (page, { random, silk }) => {
      say(page, `${makerOf(silk)} ${lineOf(silk)}`)
      const lines: TruthLine[] = []
      for (const [text, stitch, strands, count] of [
        ['CROSS STITCH IN TWO STRANDS', 'full', 2, random.int(6, 12)],
        ['BACKSTITCH IN ONE STRAND', 'backstitch', 1, random.int(2, 4)],
        ['FRENCH KNOTS', 'knotOneWrap', null, random.int(2, 3)],
      ] as const) {
        heading(page, text)
        const threads = takeThreads(silk, count, random)
        lines.push(...plainRows(page, random, threads, { line: true, strands, stitches: [stitch], symbols: stitch === 'full' }))
      }
      return lines
    },
  ],
  [
    'maker in a line below',
    (page, { random, silk }) => {
      heading(page, 'Colour key')
      const lines = plainRows(page, random, takeThreads(silk, random.int(8, 14), random), {})
      next(page, 8)
      say(page, `The numbers are those of ${makerOf(silk)}.`, 8)
      return lines
    },
  ],
  [
    'strands of the outline alone',
    (page, { random, silk }) => {
      heading(page, `${makerOf(silk)} numbers`)
      const lines = plainRows(page, random, takeThreads(silk, random.int(8, 14), random), {})
      next(page, 8)
      say(page, 'Outline the roofs in one strand when the crosses are done.', 8)
      return lines
    },
  ],
  [
    'symbol behind the name',
    (page, { random, silk }) => {
      const marks = random.sample(glyphSymbols, 12)
      const threads = takeThreads(silk, random.int(8, 12), random)
      put(page, `${makerOf(silk)} no.`, left, fonts.helveticaBold)
      put(page, 'Colour', left + 100, fonts.helveticaBold)
      put(page, 'On chart', left + 240, fonts.helveticaBold)
      put(page, 'Stitches', left + 310, fonts.helveticaBold)
      next(page, 16)
      return threads.map((thread, at) => {
        const count = drawCount(random)
        put(page, thread.code, left)
        put(page, thread.name as string, left + 100)
        put(page, marks[at] as string, left + 240, fonts.symbols)
        put(page, withCommas(count), left + 310)
        next(page)
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, code: true, name: true })],
          amounts: [stitchCount('full', count)],
        })
      })
    },
  ],
  [
    'strands said for all',
    (page, { random, wool }) => {
      say(page, `Worked throughout in two strands of ${makerOf(wool)} ${lineOf(wool).toLowerCase()}.`)
      next(page, 8)
      return plainRows(page, random, takeThreads(wool, random.int(8, 16), random), { line: true, strands: 2 })
    },
  ],
  [
    'names alone, with skeins',
    (page, { random, dyed }) => {
      heading(page, `${makerOf(dyed)} hand-dyed`)
      const marks = random.sample(glyphSymbols, 12)
      return random.sample(dyed, random.int(6, 11)).map((thread, at) => {
        const bought = random.pick([1, 1, 2])
        put(page, marks[at] as string, left, fonts.symbols)
        put(page, thread.code, left + 28)
        put(page, `${bought} skein${bought > 1 ? 's' : ''}`, left + 190)
        next(page)
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, name: true })],
          amounts: [putUps(bought)],
        })
      })
    },
  ],
  [
    'families of colours',
    (page, { random, silk }) => {
      heading(page, `Threads: ${makerOf(silk)}`)
      const lines: TruthLine[] = []
      for (const family of ['Greens', 'Blues and greys', 'Browns']) {
        page.y += 4
        put(page, family, left, fonts.notoItalic, 9.5)
        next(page)
        lines.push(...plainRows(page, random, takeThreads(silk, random.int(3, 5), random), {}))
      }
      return lines
    },
  ],
  [
    'strands in a head of two rows',
    (page, { random, silk }) => {
      const marks = random.sample(glyphSymbols, 16)
      page.table(
        [
          { head: 'Key', width: 40 },
          { head: `${makerOf(silk)} shade`, width: 80 },
          { head: 'Name', width: 150 },
          { head: 'Strands cross', width: 50 },
          { head: 'Skeins needed', width: 50 },
        ],
        [],
        { x: left, ...body, headFont: fonts.helveticaBold, rules: 'none' },
      )
      return takeThreads(silk, random.int(9, 14), random).map((thread, at) => {
        const [strands, bought] = [random.pick([1, 2, 2, 3]), random.pick([1, 1, 2])]
        put(page, marks[at] as string, left + 3, fonts.symbols)
        put(page, thread.code, left + 43)
        put(page, thread.name as string, left + 123)
        put(page, String(strands), left + 273)
        put(page, String(bought), left + 323)
        next(page, 15)
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
          amounts: [putUps(bought)],
        })
      })
    },
  ],
  [
    'beads below the threads',
    (page, { random, silk, beads }) => {
      heading(page, `${makerOf(silk)} ${lineOf(silk)} – use 2 strands`)
      const lines = plainRows(page, random, takeThreads(silk, random.int(7, 12), random), { line: true, strands: 2 })
      heading(page, `${makerOf(beads)} ${lineOf(beads)}`)
      lines.push(...plainRows(page, random, takeThreads(beads, random.int(2, 4), random), { line: true, stitches: ['bead'] }))
      return lines
    },
  ],
  [
    'all in one line, dots between',
    (page, { random, wool }) => {
      heading(page, `Key to the chart (${makerOf(wool)})`)
      const marks = random.sample(glyphSymbols, 14)
      return takeThreads(wool, random.int(8, 13), random).map((thread, at) => {
        const strands = random.pick([1, 2, 2])
        put(page, marks[at] as string, left, fonts.symbols)
        put(page, `${thread.name} ................ ${thread.code} (${strands} strand${strands > 1 ? 's' : ''})`, left + 20)
        next(page)
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
        })
      })
    },
  ],
  [
    'needles and threads in the notes',
    (page, { random, silk }) => {
      heading(page, 'Key')
      say(page, `Colours from ${makerOf(silk)}`)
      const lines = plainRows(page, random, takeThreads(silk, random.int(8, 14), random), {})
      next(page, 8)
      say(page, 'Work each cross over two threads of the linen with a size 26 needle.', 8)
      say(page, 'Begin with a loop where you stitch with two strands; it needs no knot.', 8)
      return lines
    },
  ],
  [
    'crosses at the left, backstitch at the right',
    (page, { random, silk }) => {
      heading(page, `${makerOf(silk)} colours`)
      const top = page.y
      const crosses = takeThreads(silk, random.int(7, 10), random)
      const outlines = random.sample(silk, random.int(3, 4))
      const marks = random.sample(glyphSymbols, crosses.length)
      put(page, 'Cross stitch, two strands', left, fonts.helveticaBold)
      next(page, 16)
      const lines = crosses.map((thread, at) => {
        put(page, marks[at] as string, left, fonts.symbols)
        put(page, thread.code, left + 22)
        put(page, thread.name as string, left + 70)
        next(page)
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 2 })],
          stitches: ['full'],
        })
      })
      const end = page.y
      page.y = top
      put(page, 'Backstitch', left + 270, fonts.helveticaBold)
      next(page, 16)
      for (const thread of outlines) {
        put(page, thread.code, left + 270)
        put(page, thread.name as string, left + 318)
        next(page)
        lines.push(keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true })], stitches: ['backstitch'] }))
      }
      page.y = end
      return lines
    },
  ],
  [
    'a heading within the table',
    (page, { random, silk }) => {
      const marks = random.sample(glyphSymbols, 14)
      const columns = [
        { head: 'Symbol', width: 50 },
        { head: makerOf(silk), width: 70 },
        { head: 'Colour name', width: 150 },
        { head: 'Strands', width: 50 },
      ]
      const crosses = takeThreads(silk, random.int(7, 10), random)
      const outlines = random.sample(silk, random.int(2, 4))
      page.table(
        columns,
        [
          ...crosses.map((thread, at) => [{ symbol: marks[at] as string }, thread.code, thread.name as string, '2']),
          ['Backstitch', '', '', ''],
          ...outlines.map((thread) => ['', thread.code, thread.name as string, '1']),
        ],
        { x: left, ...body, headFont: fonts.helveticaBold, rules: 'rows' },
      )
      return [
        ...crosses.map((thread, at) =>
          keyLine({
            symbol: marks[at] as string,
            threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 2 })],
          }),
        ),
        ...outlines.map((thread) =>
          keyLine({
            threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 1 })],
            stitches: ['backstitch'],
          }),
        ),
      ]
    },
  ],
  [
    'number and name in one, what for in words',
    (page, { random, wool }) => {
      heading(page, `Yarns by ${makerOf(wool)}`)
      const uses = ['roof', 'hills', 'border', 'sky', 'lettering', 'gate', 'hedge', 'path', 'water', 'chimney', 'door']
      const marks = random.sample(glyphSymbols, 10)
      return takeThreads(wool, random.int(7, 10), random).map((thread, at) => {
        put(page, marks[at] as string, left, fonts.symbols)
        put(page, `${thread.code} – ${thread.name}`, left + 24)
        put(page, uses[at] as string, left + 220, fonts.notoItalic)
        next(page)
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, code: true, name: true })],
        })
      })
    },
  ],
  [
    'numbered rows',
    (page, { random, silk }) => {
      const marks = random.sample(glyphSymbols, 14)
      const threads = takeThreads(silk, random.int(8, 12), random)
      const bought = threads.map(() => random.pick([1, 1, 2]))
      page.table(
        [
          { head: 'Row', width: 34 },
          { head: 'Sign', width: 40 },
          { head: `${makerOf(silk)} ${lineOf(silk)}`, width: 110 },
          { head: 'Shade', width: 140 },
          { head: 'Skeins', width: 50 },
        ],
        threads.map((thread, at) => [
          String(at + 1),
          { symbol: marks[at] as string },
          thread.code,
          thread.name as string,
          String(bought[at]),
        ]),
        { x: left, ...body, headFont: fonts.helveticaBold, rules: 'all' },
      )
      return threads.map((thread, at) =>
        keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })],
          amounts: [putUps(bought[at] as number)],
        }),
      )
    },
  ],
  [
    'the maker in a note above, the lines without words',
    (page, { random, silk }) => {
      say(page, `All colour numbers refer to ${makerOf(silk)} ${lineOf(silk).toLowerCase()}.`, 8)
      next(page, 6)
      const marks = random.sample(glyphSymbols, 24)
      const threads = takeThreads(silk, random.int(12, 20), random)
      const lines = threads.map((thread, at) => {
        const [column, row] = [at % 3, Math.floor(at / 3)]
        page.put(marks[at] as string, left + column * 150, page.y + row * 15, { font: fonts.symbols, size: 9 })
        page.put(thread.code, left + 24 + column * 150, page.y + row * 15, { font: fonts.helvetica, size: 9 })
        return keyLine({
          symbol: marks[at] as string,
          threads: [saidThread(thread, { maker: true, line: true, code: true })],
        })
      })
      page.y += Math.ceil(threads.length / 3) * 15
      return lines
    },
  ],
  [
    'two makers, one below the other',
    (page, { random, silk, wool }) => {
      heading(page, makerOf(silk))
      const lines = plainRows(page, random, takeThreads(silk, random.int(5, 9), random), {})
      heading(page, makerOf(wool))
      lines.push(...plainRows(page, random, takeThreads(wool, random.int(4, 7), random), {}))
      return lines
    },
  ],
]

const oneDesign = (head: SetHead, lines: TruthLine[]): TruthDesign => ({
  facts: head.facts,
  notAsked: [],
  lists: [{ name: null, lines }],
})

/** Where head and key stand: on one page, on two with a running head, or a design on each page. */
const places = ['one page', 'key on the next', 'a design a page'] as const
/** As many as there are ways to set a head, twice. */
export const widerPdfs = headSettings.length * 2

/** One of the PDFs that stand beside those of the train half: heads told by their type and keys of other kinds. */
export async function widerPdf(at: number): Promise<CorpusFile> {
  const random = seededRandom(`corpus wider pdf ${at}`)
  // The makers of a third of them are nobody the reader has heard of.
  const unknownMaker = at % 3 === 1 ? (at % 2 === 1 ? 'Brindlequay' : 'Dunmarrow') : null
  const { known, pools } = drawWorld(widerRanges(), random.pick([1, 1, 0.9, 0.5]), random, unknownMaker)
  const [silk = [], wool = [], dyed = [], , beads = []] = pools
  const means: Means = { random, silk, wool, dyed, beads }
  const place = at < headSettings.length ? 'one page' : (places[at % 3] as (typeof places)[number])
  const page = new Page()
  const designs: TruthDesign[] = []
  const [keyName, key] = keys[(at * 5 + Math.floor(at / headSettings.length)) % keys.length] as (typeof keys)[number]
  const head = setHead(random, at)
  if (place === 'key on the next') {
    page.onPage = (one, number) => {
      if (number > 1 || at % 2 === 0) one.put(`${head.title} – page ${number}`, left, 22, { font: fonts.helvetica, size: 7.5 })
    }
    page.addPage()
    head.put(page)
    for (const line of random.sample(widerProse, 3)) say(page, line, 9.5)
    page.addPage()
    page.paragraph('Chart key', left, 300, { font: fonts.helveticaBold, size: 13 })
    designs.push(oneDesign(head, key(page, means)))
  } else {
    page.addPage()
    head.put(page)
    designs.push(oneDesign(head, key(page, means)))
    next(page, 12)
    for (const line of random.sample(widerProse, 2)) say(page, line, 8)
    if (place === 'a design a page') {
      const [, otherKey] = keys[(at * 5 + 3) % keys.length] as (typeof keys)[number]
      const other = setHead(random, at)
      page.addPage()
      other.put(page)
      designs.push(oneDesign(other, otherKey(page, means)))
    }
  }
  settleMeant(designs, known)
  const [headName] = headSettings[at % headSettings.length] as (typeof headSettings)[number]
  return {
    name: `train-pdf-${at + pdfsInHalf}`,
    template: `${headName}; ${keyName}`,
    known,
    bytes: await page.bytes(),
    designs,
  }
}
