import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import { seededRandom } from '#seed/random'
import { type Cell, type Column, fonts, Page, photographed } from '../page-drawing'
import { drawConditions, type Hardness, photograph } from '../photograph'
import { renderPage } from '../render'
import type { CorpusFile, TruthDesign, TruthLine } from '../truth'
import { drawWorld, madeBy, saidThread, settleMeant } from '../world'
import { drawCount, keyLine, noFacts, putUps, stitchCount, takeThreads, withCommas } from '../writing'
import { type SaidFacts, sayFacts, trainProse } from './facts'
import { trainRanges } from './ranges'
import type { TrainMeans } from './templates'

type Layout = (means: TrainMeans) => { page: Page; designs: TruthDesign[] }

const letters = [...'ABCDEFGHKLMNPRSTUVWXYZ234579']
const glyphs = ['●', '■', '▲', '▼', '○', '□', '♥', '♦', '♠', '♣', '+', '×', '/', '=', '#', '►']
const oneList = (head: SaidFacts | null, lines: TruthLine[]): TruthDesign[] => [
  { facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists: [{ name: null, lines: lines.map(photographed) }] },
]
const symbolsFor = (random: Random, count: number) =>
  random.chance(0.65) || count > glyphs.length ? random.sample(letters, count) : random.sample(glyphs, count)
const left = 34
const wide = 352

function begin(random: Random, share: number): { page: Page; head: SaidFacts | null } {
  const page = new Page('small', left)
  page.addPage()
  const head = random.chance(share) ? sayFacts(random) : null
  if (head) {
    for (const [at, line] of head.lines.filter((text) => text !== '').entries()) {
      page.paragraph(line, left, wide, at === 0 ? { font: fonts.helveticaBold, size: 15 } : { font: fonts.helvetica, size: 9.5 })
    }
    page.y += 8
  }
  return { page, head }
}

/** A table with lines round its cells, or under its rows. */
const ruled: Layout = ({ random, stranded }) => {
  const { page, head } = begin(random, 0.5)
  const chosen = takeThreads(stranded, random.int(10, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const hasStitches = random.chance(0.6)
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const [strands, count, skeins] = [random.pick([1, 2, 2, 3]), drawCount(random), random.pick([1, 1, 2])]
    const symbol = symbols[at] as string
    lines.push(
      keyLine({
        symbol,
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
        amounts: [hasStitches ? stitchCount('full', count) : putUps(skeins)],
      }),
    )
    return [
      letters.includes(symbol) ? symbol : { symbol },
      thread.code,
      thread.name as string,
      String(strands),
      hasStitches ? withCommas(count) : String(skeins),
    ]
  })
  const columns: Column[] = [
    { head: 'Symbol', width: 54 },
    { head: madeBy(stranded), width: 64 },
    { head: 'Colour', width: 124 },
    { head: 'Strands', width: 52 },
    { head: hasStitches ? 'Stitches' : 'Skeins', width: 56 },
  ]
  page.table(columns, rows, {
    x: left,
    font: fonts.helvetica,
    headFont: fonts.helveticaBold,
    size: 10,
    rules: random.pick(['all', 'rows'] as const),
    pad: 3,
  })
  return { page, designs: oneList(head, lines) }
}

/** Columns without a line. */
const open: Layout = ({ random, stranded }) => {
  const { page, head } = begin(random, 0.5)
  page.paragraph(`${madeBy(stranded)} ${stranded[0]?.threadLine}`, left, wide, { font: fonts.notoBold, size: 11 })
  const chosen = takeThreads(stranded, random.int(10, 22), random)
  const symbols = symbolsFor(random, chosen.length)
  const lines = chosen.map((thread, at) =>
    keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })] }),
  )
  page.table(
    [
      { head: null, width: 34 },
      { head: null, width: 60 },
      { head: null, width: 200 },
    ],
    chosen.map((thread, at): Cell[] => [
      letters.includes(symbols[at] as string) ? (symbols[at] as string) : { symbol: symbols[at] as string },
      thread.code,
      thread.name as string,
    ]),
    { x: left, font: fonts.noto, size: 10.5, rules: 'none', pad: 2 },
  )
  return { page, designs: oneList(head, lines) }
}

/** Lines of words: 0311 Pine, 2 strands, 1 skein. */
const wordLines: Layout = ({ random, stranded }) => {
  const { page, head } = begin(random, 0.6)
  page.paragraph(madeBy(stranded), left, wide, { font: fonts.helveticaBold, size: 11 })
  const lines = takeThreads(stranded, random.int(8, 18), random).map((thread) => {
    const [strands, skeins] = [random.pick([1, 2, 3]), random.pick([1, 1, 2])]
    page.paragraph(
      `${thread.code} ${thread.name}, ${strands} strand${strands > 1 ? 's' : ''}, ${skeins} skein${skeins > 1 ? 's' : ''}`,
      left,
      wide,
      { font: fonts.helvetica, size: 10.5, leading: 1.5 },
    )
    return keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true, strands })], amounts: [putUps(skeins)] })
  })
  page.y += 8
  page.paragraph(random.pick(trainProse), left, wide, { font: fonts.helvetica, size: 8.5 })
  return { page, designs: oneList(head, lines) }
}

/** Headings for crosses and outlines. */
const sectioned: Layout = ({ random, stranded }) => {
  const { page, head } = begin(random, 0.4)
  page.paragraph(`${madeBy(stranded)} colours`, left, wide, { font: fonts.notoBold, size: 12 })
  const lines: TruthLine[] = []
  const parts: [string, Stitch, number, number][] = [
    ['Cross stitch (2 strands)', 'full', 2, random.int(7, 14)],
    ['Backstitch (1 strand)', 'backstitch', 1, random.int(1, 4)],
  ]
  for (const [heading, stitch, strands, count] of parts) {
    page.y += 6
    page.paragraph(heading, left, wide, { font: fonts.notoBold, size: 10.5 })
    const symbols = symbolsFor(random, count)
    for (const [at, thread] of takeThreads(stranded, count, random).entries()) {
      const symbol = stitch === 'full' ? (symbols[at] as string) : null
      if (symbol !== null)
        page.put(symbol, left, page.y, { font: letters.includes(symbol) ? fonts.noto : fonts.symbols, size: 10.5 })
      page.put(`${thread.code}  ${thread.name}`, left + 24, page.y, { font: fonts.noto, size: 10.5 })
      page.y += 17
      lines.push(
        keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true, strands })], stitches: [stitch] }),
      )
    }
  }
  return { page, designs: oneList(head, lines) }
}

/** The key in two columns. */
const twoColumns: Layout = ({ random, stranded }) => {
  const { page, head } = begin(random, 0.4)
  const chosen = takeThreads(stranded, random.int(7, 12) * 2, random)
  const symbols = symbolsFor(random, chosen.length)
  const top = page.y
  const half = chosen.length / 2
  for (const from of [0, half]) {
    page.y = top
    page.table(
      [
        { head: 'Sym', width: 30 },
        { head: madeBy(stranded), width: 54 },
        { head: 'Colour', width: 96 },
      ],
      chosen
        .slice(from, from + half)
        .map((thread, at): Cell[] => [
          letters.includes(symbols[from + at] as string)
            ? (symbols[from + at] as string)
            : { symbol: symbols[from + at] as string },
          thread.code,
          thread.name as string,
        ]),
      {
        x: left - 8 + (from > 0 ? 186 : 0),
        font: fonts.helvetica,
        headFont: fonts.helveticaBold,
        size: 9,
        rules: 'none',
        pad: 2.5,
      },
    )
  }
  return {
    page,
    designs: oneList(
      head,
      chosen.map((thread, at) =>
        keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, code: true, name: true })] }),
      ),
    ),
  }
}

/** Many columns of figures under heads of several words, lines round them or under the head alone. */
function figured(kind: 'metres' | 'crosses and skeins' | 'two palettes'): Layout {
  return ({ random, stranded, dyed }) => {
    const { page, head } = begin(random, 0.4)
    const chosen = takeThreads(stranded, random.int(9, 17), random)
    const symbols = symbolsFor(random, chosen.length)
    const isUpper = random.chance(0.4)
    const others = kind === 'two palettes' ? random.sample(dyed, chosen.length) : []
    const [lines, alternative]: [TruthLine[], TruthLine[]] = [[], []]
    const rows = chosen.slice(0, others.length || chosen.length).map((thread, at): Cell[] => {
      const symbol = symbols[at] as string
      const mark: Cell = letters.includes(symbol) ? symbol : { symbol }
      const [strands, count, skeins, tenths] = [
        random.pick([1, 2, 2, 3]),
        drawCount(random),
        random.pick([1, 1, 2, 3]),
        random.int(3, 48),
      ]
      if (kind === 'two palettes') {
        const other = others[at] as (typeof others)[number]
        lines.push(keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true })] }))
        alternative.push(keyLine({ symbol, threads: [saidThread(other, { maker: true, code: true, name: true })] }))
        return [mark, thread.code, thread.name as string, other.code]
      }
      const amounts =
        kind === 'metres'
          ? [stitchCount('full', count), { kind: 'length' as const, tenths: tenths * 1_000 }]
          : [stitchCount('full', count), putUps(skeins)]
      lines.push(keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true, strands })], amounts }))
      const last = kind === 'metres' ? (tenths / 10).toFixed(1) : String(skeins)
      return [mark, thread.code, thread.name as string, String(strands), String(count), last]
    })
    const heads =
      kind === 'two palettes'
        ? ['Chart symbol', madeBy(stranded), 'Colour', 'Oddny Loft']
        : [
            'Symbol',
            `${madeBy(stranded)} no.`,
            'Colour name',
            'Strands',
            'No. of stitches',
            kind === 'metres' ? 'Metres' : 'Skeins',
          ]
    const widths = kind === 'two palettes' ? [60, 76, 120, 96] : [50, 66, 98, 48, 54, 44]
    page.table(
      heads.map((text, at) => ({
        head: isUpper ? text.toUpperCase() : text,
        width: widths[at] as number,
        ...(at > 2 && kind !== 'two palettes' ? { align: 'right' as const } : {}),
      })),
      rows,
      {
        x: left - 6,
        font: kind === 'metres' ? fonts.times : fonts.liberation,
        headFont: kind === 'metres' ? fonts.timesBold : fonts.liberationBold,
        size: isUpper ? 8.5 : 9.5,
        rules: random.pick(['all', 'head', 'none'] as const),
        pad: 3,
      },
    )
    const designs = oneList(head, lines)
    if (alternative.length > 0) designs[0]?.lists.push({ name: null, lines: alternative.map(photographed) })
    return { page, designs }
  }
}

const layouts: [string, Layout][] = [
  ['photographed ruled', ruled],
  ['photographed open', open],
  ['photographed words', wordLines],
  ['photographed sections', sectioned],
  ['photographed columns', twoColumns],
  ['photographed metres', figured('metres')],
  ['photographed counts', figured('crosses and skeins')],
  ['photographed palettes', figured('two palettes')],
]

/** One photograph of the train half. */
export async function trainPhoto(at: number): Promise<CorpusFile> {
  const random = seededRandom(`corpus train photo ${at}`)
  const [template, layout] = layouts[at % layouts.length] as (typeof layouts)[number]
  const { known, pools } = drawWorld(trainRanges(), random.pick([1, 1, 0.9, 0.5]), random)
  const [cotton = [], pearl = [], dyed = [], filament = [], beads = [], silk = [], wool = []] = pools
  const stranded = random.pick([cotton, cotton, silk, wool])
  const { page, designs } = layout({ random, stranded, pearl, dyed, filament, beads })
  settleMeant(designs, known)
  const picture = await renderPage(await page.bytes(), { dotsPerInch: 220 })
  const bytes = await photograph(picture, drawConditions(random, (Math.floor(at / layouts.length) % 3) as Hardness), random)
  return { name: `train-photo-${String(at).padStart(2, '0')}`, template, known, bytes, designs }
}
