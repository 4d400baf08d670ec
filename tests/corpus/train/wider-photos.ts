import { type Random, seededRandom } from '#seed/random'
import { type Cell, type Font, fonts, Page, photographed } from '../page-drawing'
import { drawConditions, type Hardness, photograph } from '../photograph'
import { renderPage } from '../render'
import type { CorpusFile, TruthDesign, TruthLine } from '../truth'
import { drawWorld, madeBy, type PoolThread, saidThread, settleMeant } from '../world'
import { drawCount, keyLine, noFacts, putUps, stitchCount, takeThreads, withCommas } from '../writing'
import { type SaidFacts, sayFacts, widerProse } from './wider-facts'
import { widerRanges } from './wider-ranges'

type Means = { random: Random; threads: PoolThread[] }
type Layout = (means: Means) => { page: Page; designs: TruthDesign[] }

const letters = [...'ABCDEFGHJKLMNPQRSTUVWXYZ2345678abdefghknqrt']
const signs = ['●', '■', '▲', '▼', '○', '□', '♥', '♦', '♠', '♣', '+', '×', '/', '=', '#', '►', '◄', '%']
const symbolsFor = (random: Random, count: number): string[] =>
  random.chance(0.6) || count > signs.length ? random.sample(letters, count) : random.sample(signs, count)
const marked = (symbol: string): Cell => (/[\p{L}\p{N}]/u.test(symbol) ? symbol : { symbol })
const faces: [Font, Font][] = [
  [fonts.helvetica, fonts.helveticaBold],
  [fonts.times, fonts.timesBold],
  [fonts.noto, fonts.notoBold],
  [fonts.notoLight, fonts.notoSemiBold],
  [fonts.liberation, fonts.liberationBold],
  [fonts.courier, fonts.courierBold],
]
const left = 30
const wide = 360

function begin(random: Random, share: number): { page: Page; head: SaidFacts | null; font: Font; bold: Font } {
  const page = new Page('small', left)
  page.addPage()
  const [font, bold] = random.pick(faces)
  const head = random.chance(share) ? sayFacts(random) : null
  if (head) {
    for (const [at, line] of head.lines.filter((text) => text !== '').entries()) {
      page.paragraph(line, left, wide, at === 0 ? { font: bold, size: 13 } : { font, size: 9 })
    }
    page.y += 8
  }
  return { page, head, font, bold }
}

const oneList = (head: SaidFacts | null, lines: TruthLine[]): TruthDesign[] => [
  { facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists: [{ name: null, lines: lines.map(photographed) }] },
]
const lengthOf = (tenthsOfMetre: number) => ({ kind: 'length' as const, tenths: tenthsOfMetre * 1_000 })

/** Lengths beside counts, in type as small as it gets. */
const smallMetres: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.4)
  page.paragraph(`Threads by ${madeBy(threads)}`, left, wide, { font: bold, size: 9.5 })
  page.y += 4
  const chosen = takeThreads(threads, random.int(12, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const [count, tenths] = [drawCount(random), random.int(2, 130)]
    lines.push(
      keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, code: true, name: true })],
        amounts: [stitchCount('full', count), lengthOf(tenths)],
      }),
    )
    return [marked(symbols[at] as string), thread.code, thread.name ?? '', withCommas(count), `${(tenths / 10).toFixed(1)} m`]
  })
  const heads = ['', 'No.', 'Colour', 'Crosses', 'Length']
  const widths = [26, 46, 138, 56, 56]
  page.table(
    heads.map((text, at) => ({ head: text, width: widths[at] as number, ...(at > 2 ? { align: 'right' as const } : {}) })),
    rows,
    {
      x: left,
      font,
      headFont: bold,
      size: random.pick([7.5, 8, 8.5]),
      rules: random.pick(['all', 'rows', 'head', 'none'] as const),
    },
  )
  return { page, designs: oneList(head, lines) }
}

/** The name before the code, the symbol behind both. */
const symbolLast: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.5)
  const chosen = takeThreads(threads, random.int(9, 18), random)
  const symbols = symbolsFor(random, chosen.length)
  const strands = random.pick([1, 2, 3])
  page.paragraph(`${madeBy(threads)} ${threads[0]?.threadLine}, ${strands} strands`, left, wide, { font: bold, size: 10 })
  page.y += 4
  const rows = chosen.map((thread, at): Cell[] => [thread.name ?? '', thread.code, marked(symbols[at] as string)])
  page.table(
    [
      { head: 'Colour', width: 150 },
      { head: 'Number', width: 66 },
      { head: 'Symbol', width: 60, align: 'center' },
    ],
    rows,
    { x: left, font, headFont: bold, size: random.pick([9, 10]), rules: random.pick(['all', 'rows', 'none'] as const), pad: 3 },
  )
  return {
    page,
    designs: oneList(
      head,
      chosen.map((thread, at) =>
        keyLine({
          symbol: symbols[at],
          threads: [saidThread(thread, { maker: true, line: true, code: true, name: true, strands })],
        }),
      ),
    ),
  }
}

/** The symbol in a box of its own, the thread beside it in words. */
const boxed: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.5)
  page.paragraph(`Key: ${madeBy(threads)}`, left, wide, { font: bold, size: 11 })
  page.y += 6
  const chosen = takeThreads(threads, random.int(8, 16), random)
  const symbols = symbolsFor(random, chosen.length)
  const lines = chosen.map((thread, at) => {
    const symbol = symbols[at] as string
    const skeins = random.pick([1, 1, 2, 3])
    page.document
      .rect(left, page.y - 1, 15, 15)
      .lineWidth(0.7)
      .strokeColor('#333')
      .stroke()
    page.put(symbol, left, page.y + 1, {
      font: /[\p{L}\p{N}]/u.test(symbol) ? bold : fonts.symbols,
      size: 10,
      width: 15,
      align: 'center',
    })
    page.put(thread.code, left + 26, page.y, { font: bold, size: 10 })
    page.put(thread.name ?? '', left + 84, page.y, { font, size: 10 })
    page.put(`${skeins} skein${skeins > 1 ? 's' : ''}`, left + 250, page.y, { font, size: 10 })
    page.y += 21
    return keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true })], amounts: [putUps(skeins)] })
  })
  page.paragraph(random.pick(widerProse), left, wide, { font, size: 8 })
  return { page, designs: oneList(head, lines) }
}

/** Two lengths: one table for crosses, one for lines, in one page. */
const inParts: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.3)
  page.paragraph(madeBy(threads), left, wide, { font: bold, size: 11 })
  const lines: TruthLine[] = []
  for (const [heading, stitch, strands, count] of [
    ['Cross stitch, 2 strands', 'full', 2, random.int(6, 12)],
    ['Back stitch, 1 strand', 'backstitch', 1, random.int(2, 4)],
    ['French knots, 1 strand', 'knotOneWrap', 1, random.int(1, 3)],
  ] as const) {
    page.y += 5
    page.paragraph(heading, left, wide, { font: bold, size: 9.5 })
    const symbols = symbolsFor(random, count)
    const chosen = takeThreads(threads, count, random)
    const rows = chosen.map((thread, at): Cell[] => {
      const tenths = random.int(3, 60)
      const symbol = stitch === 'full' ? (symbols[at] as string) : null
      lines.push(
        keyLine({
          symbol,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
          stitches: [stitch],
          amounts: [lengthOf(tenths)],
        }),
      )
      return [symbol === null ? '' : marked(symbol), thread.code, thread.name ?? '', `${(tenths / 10).toFixed(1)} m`]
    })
    page.table(
      [
        { head: null, width: 26 },
        { head: null, width: 50 },
        { head: null, width: 150 },
        { head: null, width: 50, align: 'right' },
      ],
      rows,
      { x: left, font, size: 9, rules: 'none', pad: 2 },
    )
  }
  return { page, designs: oneList(head, lines) }
}

/** Ruled, with strands for crosses and a count, every second row shaded, in capitals above. */
const shaded: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.4)
  const chosen = takeThreads(threads, random.int(10, 18), random)
  const symbols = symbolsFor(random, chosen.length)
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const [strands, count, half] = [random.pick([1, 2, 3]), drawCount(random), random.pick([50, 100, 150, 200])]
    lines.push(
      keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
        amounts: [stitchCount('full', count), { kind: 'put-ups', hundredths: half }],
      }),
    )
    return [
      marked(symbols[at] as string),
      thread.code,
      thread.name ?? '',
      String(strands),
      String(count),
      (half / 100).toFixed(1),
    ]
  })
  const heads = ['SYM', madeBy(threads).toUpperCase(), 'NAME', 'STRANDS', 'STITCHES', 'SKEINS']
  const widths = [30, 74, 112, 48, 54, 44]
  page.table(
    heads.map((text, at) => ({ head: text, width: widths[at] as number, ...(at > 2 ? { align: 'center' as const } : {}) })),
    rows,
    {
      x: left - 4,
      font,
      headFont: bold,
      size: font === fonts.courier ? 7.5 : 8.5,
      rules: random.pick(['all', 'rows', 'none'] as const),
      zebra: random.chance(0.6),
      pad: 3,
    },
  )
  return { page, designs: oneList(head, lines) }
}

/** A typed list: symbol, code, name and strands with a dash and brackets. */
const typed: Layout = ({ random, threads }) => {
  const { page, head } = begin(random, 0.5)
  const font = random.pick([fonts.courier, fonts.times, fonts.notoLight, fonts.helvetica])
  page.paragraph(`${madeBy(threads)} used:`, left, wide, { font, size: 11 })
  const symbols = symbolsFor(random, 18).filter((symbol) => /[\p{L}\p{N}]/u.test(symbol))
  const chosen = takeThreads(threads, random.int(8, 16), random)
  const hasSymbols = symbols.length >= chosen.length
  const lines = chosen.map((thread, at) => {
    const [strands, tenths] = [random.pick([1, 2]), random.int(4, 90)]
    page.y += 3
    page.paragraph(
      `${hasSymbols ? `${symbols[at]} - ` : ''}${thread.code} ${thread.name} (${strands} strand${strands > 1 ? 's' : ''}) ${(tenths / 10).toFixed(1)} m`,
      left,
      wide,
      { font, size: 10 },
    )
    return keyLine({
      symbol: hasSymbols ? symbols[at] : null,
      threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
      amounts: [lengthOf(tenths)],
    })
  })
  return { page, designs: oneList(head, lines) }
}

/** Two keys of narrow columns side by side in small type, with a count each. */
const narrow: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.4)
  const chosen = takeThreads(threads, random.int(8, 13) * 2, random)
  const symbols = random.sample(letters, chosen.length)
  const counts = chosen.map(() => drawCount(random))
  const top = page.y
  const half = chosen.length / 2
  for (const from of [0, half]) {
    page.y = top
    page.table(
      [
        { head: '', width: 18 },
        { head: madeBy(threads), width: 58 },
        { head: 'Colour', width: 74 },
        { head: 'Sts', width: 30, align: 'right' },
      ],
      chosen
        .slice(from, from + half)
        .map((thread, at): Cell[] => [symbols[from + at] as string, thread.code, thread.name ?? '', String(counts[from + at])]),
      {
        x: left - 10 + (from > 0 ? 192 : 0),
        font: font === fonts.courier ? fonts.liberation : font,
        headFont: bold === fonts.courierBold ? fonts.liberationBold : bold,
        size: 7.5,
        rules: random.pick(['rows', 'none'] as const),
        pad: 2.5,
      },
    )
  }
  return {
    page,
    designs: oneList(
      head,
      chosen.map((thread, at) =>
        keyLine({
          symbol: symbols[at],
          threads: [saidThread(thread, { maker: true, code: true, name: true })],
          amounts: [stitchCount('full', counts[at] as number)],
        }),
      ),
    ),
  }
}

/** Code, name and metres alone, without a head, under the maker and line. */
const plain: Layout = ({ random, threads }) => {
  const { page, head, font, bold } = begin(random, 0.5)
  page.paragraph(`${madeBy(threads)} ${threads[0]?.threadLine}`, left, wide, { font: bold, size: 11 })
  page.y += 4
  const chosen = takeThreads(threads, random.int(9, 18), random)
  const symbols = symbolsFor(random, chosen.length)
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const tenths = random.int(2, 60)
    lines.push(
      keyLine({
        symbol: symbols[at],
        threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })],
        amounts: [lengthOf(tenths)],
      }),
    )
    return [marked(symbols[at] as string), thread.code, thread.name ?? '', (tenths / 10).toFixed(1)]
  })
  page.table(
    [
      { head: 'Symbol', width: 50, align: 'center' },
      { head: 'Shade', width: 56 },
      { head: 'Name', width: 150 },
      { head: 'Metres', width: 56, align: 'right' },
    ],
    rows,
    {
      x: left,
      font,
      headFont: bold,
      size: random.pick([8.5, 9.5]),
      rules: random.pick(['all', 'head', 'none'] as const),
      pad: 2.5,
    },
  )
  return { page, designs: oneList(head, lines) }
}

const layouts: [string, Layout][] = [
  ['photographed small metres', smallMetres],
  ['photographed symbol last', symbolLast],
  ['photographed boxed', boxed],
  ['photographed parts', inParts],
  ['photographed shaded', shaded],
  ['photographed typed', typed],
  ['photographed narrow', narrow],
  ['photographed plain', plain],
]

/** Each layout easy, ordinary and hard. */
export const widerPhotos = 24

/** One photograph of other layouts, makers and wordings than the first of the train half. */
export async function widerPhoto(at: number): Promise<CorpusFile> {
  const random = seededRandom(`corpus wider photo ${at}`)
  const [template, layout] = layouts[at % layouts.length] as (typeof layouts)[number]
  const { known, pools } = drawWorld(widerRanges(), random.pick([1, 1, 0.9, 0.5]), random)
  const [silk = [], wool = []] = pools
  const { page, designs } = layout({ random, threads: random.pick([silk, wool]) })
  settleMeant(designs, known)
  const picture = await renderPage(await page.bytes(), { dotsPerInch: 220 })
  const bytes = await photograph(picture, drawConditions(random, (Math.floor(at / layouts.length) % 3) as Hardness), random)
  return { name: `wider-photo-${String(at).padStart(2, '0')}`, template, known, bytes, designs }
}
