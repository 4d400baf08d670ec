// Long because it is a table: one layout of a page to a function, none of which knows another.
import sharp from 'sharp'
import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import { seededRandom } from '#seed/random'
import { type Cell, type Column, drawn, fonts, glyphSymbols, Page, photographed, type Shape, shapes } from '../page-drawing'
import { renderPage } from '../render'
import type { CorpusFile, TruthAmount, TruthDesign, TruthLine } from '../truth'
import { drawWorld, madeBy, type PoolThread, saidThread, settleMeant } from '../world'
import { drawCount, keyLine, noFacts, putUps, stitchCount, takeThreads, withCommas } from '../writing'
import { type SaidFacts, sayFacts, trainProse, trainTitles } from './facts'
import { trainRanges } from './ranges'
import type { TrainMeans } from './templates'

type Layout = (means: TrainMeans) => Promise<{ bytes: Uint8Array; designs: TruthDesign[] }>

const colours = ['#7a2f38', '#2f4a7a', '#4d6b3a', '#c9b27a', '#5a4a42', '#8a8f98', '#b5651d', '#3b2c52']
const oneList = (head: SaidFacts | null, lines: TruthLine[]): TruthDesign => ({
  facts: head?.facts ?? noFacts,
  notAsked: head?.notAsked ?? [],
  lists: [{ name: null, lines }],
})

/** Title large, the rest of the head below it. */
function putHead(page: Page, head: SaidFacts, x: number, width: number, size = 10): void {
  const [title, ...others] = head.lines.filter((line) => line !== '')
  page.paragraph(title as string, x, width, { font: fonts.helveticaBold, size: size * 1.8 })
  for (const line of others) page.paragraph(line, x, width, { font: fonts.helvetica, size })
  page.y += size
}

function putProse(page: Page, random: Random, x: number, width: number): void {
  page.y += 12
  for (const line of random.sample(trainProse, random.int(1, 3)))
    page.paragraph(line, x, width, { font: fonts.helvetica, size: 8 })
}

type Row = { cells: Cell[]; line: TruthLine }
/** Rows of a table: symbol, code, name, strands and, as the columns say, stitches and skeins. */
function drawRows(
  random: Random,
  threads: readonly PoolThread[],
  {
    stitches,
    skeins,
    swatch = false,
    isDrawn = false,
    only = glyphSymbols,
  }: { stitches: boolean; skeins: boolean; swatch?: boolean; isDrawn?: boolean; only?: readonly string[] },
): Row[] {
  const symbols = random.sample(only, threads.length)
  const drawings = random.shuffle([...shapes, ...shapes, ...shapes, ...shapes])
  return threads.map((thread, at): Row => {
    const [strands, count, bought] = [random.pick([1, 2, 2, 3]), drawCount(random), random.pick([1, 1, 1, 2, 3])]
    const symbol = symbols[at % symbols.length] as string
    const amounts: TruthAmount[] = [...(stitches ? [stitchCount('full', count)] : []), ...(skeins ? [putUps(bought)] : [])]
    const line = keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true, strands })], amounts })
    return {
      cells: [
        isDrawn ? { shape: drawings[at % drawings.length] as Shape } : { symbol },
        ...(swatch ? [{ swatch: random.pick(colours) }] : []),
        thread.code,
        thread.name as string,
        String(strands),
        ...(stitches ? [withCommas(count)] : []),
        ...(skeins ? [String(bought)] : []),
      ],
      line: isDrawn ? drawn(line) : line,
    }
  })
}
const columnsOf = (
  stranded: readonly PoolThread[],
  {
    stitches,
    skeins,
    swatch = false,
    nameWidth = 150,
  }: {
    stitches: boolean
    skeins: boolean
    swatch?: boolean
    nameWidth?: number
  },
): Column[] => [
  { head: 'Symbol', width: 48 },
  ...(swatch ? [{ head: '', width: 26 }] : []),
  { head: madeBy(stranded), width: 58 },
  { head: 'Colour', width: nameWidth },
  { head: 'Strands', width: 48 },
  ...(stitches ? [{ head: 'Stitches', width: 55 }] : []),
  ...(skeins ? [{ head: 'Skeins', width: 45 }] : []),
]

const ruledTable: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const has = { stitches: random.chance(0.7), skeins: random.chance(0.6), swatch: random.chance(0.6) }
  const rows = drawRows(random, takeThreads(stranded, random.int(10, 26), random), has)
  const page = new Page()
  page.addPage()
  putHead(page, head, 48, 480)
  page.table(
    columnsOf(stranded, has),
    rows.map(({ cells }) => cells),
    { x: 48, font: fonts.helvetica, headFont: fonts.helveticaBold, size: 9, rules: random.pick(['all', 'rows'] as const) },
  )
  putProse(page, random, 48, 480)
  return {
    bytes: await page.bytes(),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    ],
  }
}

/** The key in two columns of its own, no lines round it. */
const twoColumns: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const rows = drawRows(random, takeThreads(stranded, random.int(8, 15) * 2, random), { stitches: false, skeins: false })
  const page = new Page()
  page.addPage()
  putHead(page, head, 48, 480)
  const top = page.y
  const half = rows.length / 2
  const columns: Column[] = [
    { head: 'Sym', width: 30 },
    { head: madeBy(stranded), width: 55 },
    { head: 'Colour', width: 115 },
    { head: 'Strands', width: 45 },
  ]
  for (const [at, part] of [rows.slice(0, half), rows.slice(half)].entries()) {
    page.y = top
    page.table(
      columns,
      part.map(({ cells }) => cells),
      { x: 48 + at * 260, font: fonts.noto, headFont: fonts.notoBold, size: 9, rules: 'none' },
    )
  }
  putProse(page, random, 48, 480)
  return {
    bytes: await page.bytes(),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    ],
  }
}

/** Headings for each kind of stitch; symbols drawn. */
const sectioned: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const page = new Page()
  page.addPage()
  putHead(page, head, 60, 460)
  page.paragraph(`${madeBy(stranded)} ${stranded[0]?.threadLine}`, 60, 400, { font: fonts.notoBold, size: 11 })
  const isDrawn = random.chance(0.6)
  const lines: TruthLine[] = []
  const parts: [string, Stitch, number, number][] = [
    ['Cross stitch (2 strands)', 'full', 2, random.int(8, 16)],
    ['Backstitch (1 strand)', 'backstitch', 1, random.int(1, 4)],
    ['French knots (2 strands)', 'knotOneWrap', 2, random.int(0, 2)],
  ]
  for (const [heading, stitch, strands, count] of parts) {
    if (count === 0) continue
    page.y += 6
    page.paragraph(heading, 60, 400, { font: fonts.notoBold, size: 10 })
    const symbols = random.sample(glyphSymbols, count)
    const rows = takeThreads(stranded, count, random).map((thread, at): Row => {
      const symbol = stitch === 'full' ? (symbols[at] as string) : null
      const line = keyLine({
        symbol,
        threads: [saidThread(thread, { maker: true, line: true, code: true, name: true, strands })],
        stitches: [stitch],
      })
      const shape = { shape: shapes[at % shapes.length] as Shape }
      return {
        cells: [symbol === null ? '' : isDrawn ? shape : { symbol }, thread.code, thread.name as string],
        line: symbol !== null && isDrawn ? drawn(line) : line,
      }
    })
    page.table(
      [
        { head: null, width: 30 },
        { head: null, width: 60 },
        { head: null, width: 180 },
      ],
      rows.map(({ cells }) => cells),
      { x: 60, font: fonts.noto, size: 9.5, rules: 'none', pad: 1.5 },
    )
    lines.push(...rows.map(({ line }) => line))
  }
  putProse(page, random, 60, 460)
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** A design on each page, its chart above its key. */
const manyDesigns: Layout = async ({ random, stranded }) => {
  const page = new Page()
  page.onPage = (one, number) => one.put(String(number), 290, 815, { font: fonts.helvetica, size: 8 })
  const designs: TruthDesign[] = []
  for (const title of random.sample(trainTitles, random.int(2, 3))) {
    const head = sayFacts(random, title)
    const rows = drawRows(random, takeThreads(stranded, random.int(5, 10), random), { stitches: false, skeins: true })
    page.addPage()
    putHead(page, head, 48, 480)
    const [across, down] = [random.int(26, 44), random.int(18, 28)]
    page.grid(70, page.y + 10, across, down, 9, () => (random.chance(0.6) ? (random.pick(rows).cells[0] as Cell) : null))
    page.y += down * 9 + 30
    page.table(
      columnsOf(stranded, { stitches: false, skeins: true }),
      rows.map(({ cells }) => cells),
      { x: 48, font: fonts.helvetica, headFont: fonts.helveticaBold, size: 9, rules: 'head' },
    )
    designs.push(
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    )
  }
  return { bytes: await page.bytes(), designs }
}

/** A narrow column of names, so that most of them wrap. */
const wrappedNames: Layout = async ({ random, stranded }) => {
  const head = random.chance(0.5) ? sayFacts(random) : null
  const has = { stitches: true, skeins: random.chance(0.5) }
  const rows = drawRows(random, takeThreads(stranded, random.int(10, 22), random), has)
  const page = new Page()
  page.addPage()
  if (head) putHead(page, head, 48, 480)
  page.table(
    columnsOf(stranded, { ...has, nameWidth: 58 }),
    rows.map(({ cells }) => cells),
    {
      x: 48,
      font: fonts.noto,
      headFont: fonts.notoBold,
      size: 9,
      rules: random.pick(['rows', 'none', 'all'] as const),
      pad: 3.5,
    },
  )
  return {
    bytes: await page.bytes(),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    ],
  }
}

const letters = [...'ABCDEFGHKLMNPRSTUVWXYZ']
/** A page that is a picture: nothing in it is text. */
const scanned: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const has = { stitches: true, skeins: true }
  const rows = drawRows(random, takeThreads(stranded, random.int(10, 20), random), { ...has, only: letters })
  const page = new Page()
  page.addPage()
  putHead(page, head, 48, 480, 11)
  page.table(
    columnsOf(stranded, has),
    rows.map(({ cells }) => cells),
    {
      x: 48,
      font: fonts.helvetica,
      headFont: fonts.helveticaBold,
      size: 10.5,
      rules: random.pick(['all', 'none'] as const),
      pad: 3.5,
    },
  )
  return {
    bytes: await asPicture(page, random.pick([150, 200])),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => photographed(line)),
      ),
    ],
  }
}

/** The pages of a PDF as one picture on one page. */
async function asPicture(page: Page, dotsPerInch: number): Promise<Uint8Array> {
  const { width, height, rgba } = await renderPage(await page.bytes(), { dotsPerInch })
  const picture = await sharp(rgba, { raw: { width, height, channels: 4 } })
    .flatten({ background: '#fff' })
    .jpeg({ quality: 85 })
    .toBuffer()
  const paper = new Page(page.size)
  paper.addPage()
  paper.document.image(picture, 0, 0, { width: paper.width, height: paper.height })
  return paper.bytes()
}

/** The chart at the left, lines of text at the right. */
const besideChart: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const rows = drawRows(random, takeThreads(stranded, random.int(8, 16), random), { stitches: false, skeins: false })
  const page = new Page()
  page.addPage()
  putHead(page, head, 48, 480)
  const top = page.y + 10
  page.grid(66, top, 30, 40, 8, () => (random.chance(0.5) ? (random.pick(rows).cells[0] as Cell) : null))
  page.y = top
  page.paragraph(madeBy(stranded), 340, 200, { font: fonts.helveticaBold, size: 10 })
  for (const { cells } of rows) {
    page.put((cells[0] as { symbol: string }).symbol, 340, page.y, { font: fonts.symbols, size: 9.5 })
    page.put(`${cells[1]} ${cells[2]}, ${cells[3]} strand${cells[3] === '1' ? '' : 's'}`, 358, page.y, {
      font: fonts.helvetica,
      size: 9.5,
    })
    page.y += 14
  }
  return {
    bytes: await page.bytes(),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    ],
  }
}

/** A key too long for its page. */
const longKey: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const has = { stitches: true, skeins: true, swatch: true }
  const rows = drawRows(random, takeThreads(stranded, random.int(44, 60), random), { ...has, isDrawn: true })
  const page = new Page()
  page.onPage = (one, number) => {
    one.put(`${head.facts.title}, page ${number}`, 48, 20, { font: fonts.noto, size: 7 })
    one.put('This chart is for the buyer’s own use.', 48, 815, { font: fonts.noto, size: 7 })
  }
  page.addPage()
  putHead(page, head, 48, 480)
  page.table(
    columnsOf(stranded, has),
    rows.map(({ cells }) => cells),
    { x: 48, font: fonts.noto, headFont: fonts.notoBold, size: 9, rules: 'rows' },
  )
  return {
    bytes: await page.bytes(),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    ],
  }
}

/** A column for each of two palettes. */
const palettes: Layout = async ({ random, stranded, dyed }) => {
  const head = sayFacts(random)
  const count = random.int(7, 16)
  const [plain, fancy] = [takeThreads(stranded, count, random), random.sample(dyed, count)]
  const symbols = random.sample(glyphSymbols, Math.min(count, fancy.length))
  const page = new Page()
  page.addPage()
  putHead(page, head, 48, 480)
  page.table(
    [
      { head: 'Symbol', width: 50 },
      { head: madeBy(stranded), width: 170 },
      { head: 'Oddny Loft', width: 130 },
    ],
    symbols.map((symbol, at) => [{ symbol }, `${plain[at]?.code} ${plain[at]?.name}`, fancy[at]?.code as string]),
    { x: 48, font: fonts.helvetica, headFont: fonts.helveticaBold, size: 9.5, rules: random.pick(['all', 'none'] as const) },
  )
  putProse(page, random, 48, 480)
  const list = (threads: PoolThread[]) => ({
    name: null,
    lines: symbols.map((symbol, at) =>
      keyLine({ symbol, threads: [saidThread(threads[at] as PoolThread, { maker: true, code: true, name: true })] }),
    ),
  })
  return {
    bytes: await page.bytes(),
    designs: [{ facts: head.facts, notAsked: head.notAsked, lists: [list(plain), list(fancy)] }],
  }
}

/** A cover, a page of words, and the key on the third page. */
const coverFirst: Layout = async ({ random, stranded }) => {
  const head = sayFacts(random)
  const has = { stitches: random.chance(0.5), skeins: true }
  const rows = drawRows(random, takeThreads(stranded, random.int(10, 24), random), has)
  const page = new Page()
  page.onPage = (one, number) => {
    if (number > 1) one.put(`Page ${number}`, 500, 815, { font: fonts.helvetica, size: 8 })
  }
  page.addPage()
  page.y = 120
  putHead(page, head, 90, 420, 13)
  page.document.rect(120, page.y + 20, 340, 300).fill('#b9c4b0')
  page.addPage()
  for (const line of trainProse) page.paragraph(line, 48, 480, { font: fonts.helvetica, size: 10 })
  page.addPage()
  page.paragraph('Key', 48, 300, { font: fonts.helveticaBold, size: 14 })
  page.table(
    columnsOf(stranded, has),
    rows.map(({ cells }) => cells),
    { x: 48, font: fonts.helvetica, headFont: fonts.helveticaBold, size: 9.5, rules: 'head' },
  )
  return {
    bytes: await page.bytes(),
    designs: [
      oneList(
        head,
        rows.map(({ line }) => line),
      ),
    ],
  }
}

/** Two designs beside each other, each with its head and its key below it; with or without a picture of the chart between. */
const besideEachOther: Layout = async ({ random, stranded }) => {
  const page = new Page(random.pick(['upright', 'lying'] as const))
  page.addPage()
  const isWide = page.size === 'lying'
  const [wide, apart] = isWide ? [350, 380] : [238, 258]
  if (random.chance(0.4)) page.paragraph('Two small samplers', 48, 400, { font: fonts.notoBold, size: 16 })
  const top = page.y
  const picture = random.pick([0, 0, 110])
  const hasHead = random.chance(0.6)
  const keyAt = random.chance(0.5) ? top + 150 + picture : null
  const designs: TruthDesign[] = []
  for (const [at, title] of random.sample(trainTitles, 2).entries()) {
    const x = 48 + at * apart
    page.y = top
    const head = sayFacts(random, title)
    putHead(page, head, x, wide, 9)
    if (picture > 0) page.document.rect(x, page.y, wide * 0.7, picture - 12).fill('#c8bfa8')
    page.y = keyAt ?? page.y + picture
    const rows = drawRows(random, takeThreads(stranded, random.int(5, 11), random), { stitches: false, skeins: false })
    if (hasHead) {
      page.table(
        [
          { head: isWide ? 'Symbol' : 'Sym', width: isWide ? 48 : 28 },
          { head: madeBy(stranded), width: 60 },
          { head: 'Colour', width: isWide ? 150 : 100 },
          { head: 'Strands', width: 48 },
        ],
        rows.map(({ cells }) => cells),
        { x, font: fonts.helvetica, headFont: fonts.helveticaBold, size: 8.5, rules: random.pick(['head', 'none'] as const) },
      )
      designs.push(
        oneList(
          head,
          rows.map(({ line }) => line),
        ),
      )
    } else {
      page.paragraph(madeBy(stranded), x, wide, { font: fonts.notoBold, size: 9 })
      page.table(
        [
          { head: null, width: 24 },
          { head: null, width: 54 },
          { head: null, width: 150 },
        ],
        rows.map(({ cells }) => cells.slice(0, 3)),
        { x, font: fonts.noto, size: 8.5, rules: 'none', pad: 1.5 },
      )
      const lines = rows.map(({ line }) => ({ ...line, threads: line.threads.map((thread) => ({ ...thread, strands: null })) }))
      designs.push(oneList(head, lines))
    }
  }
  return { bytes: await page.bytes(), designs }
}

/** Three across a page lying down: title, size and a key of words. */
const threeAcross: Layout = async ({ random, stranded }) => {
  const page = new Page('lying', 40)
  page.addPage()
  const designs: TruthDesign[] = []
  for (const [at, title] of random.sample(trainTitles, 3).entries()) {
    const x = 40 + at * 258
    page.y = 40
    const head = sayFacts(random, title)
    putHead(page, head, x, 225, 8.5)
    page.y += 6
    page.paragraph(`${madeBy(stranded)} colours`, x, 225, { font: fonts.helveticaBold, size: 8.5 })
    const threads = takeThreads(stranded, random.int(4, 8), random)
    const lines = threads.map((thread) => {
      const strands = random.pick([1, 2, 3])
      page.put(thread.code, x, page.y, { font: fonts.helvetica, size: 8.5 })
      page.put(`${thread.name}, ${strands} strand${strands > 1 ? 's' : ''}`, x + 48, page.y, { font: fonts.helvetica, size: 8.5 })
      page.y += 13
      return keyLine({ threads: [saidThread(thread, { maker: true, code: true, name: true, strands })] })
    })
    designs.push(oneList(head, lines))
  }
  return { bytes: await page.bytes(), designs }
}

/** A box for each colour in a grid: one thing below the other in it. */
function inBoxes(kind: 'stacked' | 'mark beside' | 'mark and code'): Layout {
  return async ({ random, stranded }) => {
    const head = sayFacts(random)
    const page = new Page()
    page.addPage()
    putHead(page, head, 48, 480)
    page.paragraph(`${madeBy(stranded)} ${stranded[0]?.threadLine}`, 48, 400, { font: fonts.notoBold, size: 11 })
    page.y += 6
    const threads = takeThreads(stranded, random.int(7, 17), random)
    const symbols = random.sample(glyphSymbols, threads.length)
    const across = kind === 'mark beside' ? random.int(2, 3) : random.int(3, 4)
    const isFramed = random.chance(0.7)
    const [wide, size, step] = [490 / across, 9, random.pick([11.5, 12.5])]
    const hasStrands = random.chance(0.7)
    const high = step * (kind === 'stacked' ? 6 : 5) + 8
    const lines: TruthLine[] = []
    for (const [at, thread] of threads.entries()) {
      const [strands, bought] = [random.pick([1, 2, 2, 3]), random.pick([1, 1, 2])]
      if (at % across === 0 && at > 0) page.y += high + (isFramed ? 6 : 2)
      const x = 48 + (at % across) * wide
      const symbol = symbols[at] as string
      if (isFramed)
        page.document
          .rect(x, page.y, wide - 8, high)
          .lineWidth(0.6)
          .strokeColor('#555')
          .stroke()
      const inner = kind === 'mark beside' ? x + 32 : x + 6
      let y = page.y + 5
      const say = (text: string, font: (typeof fonts)[keyof typeof fonts] = fonts.helvetica) => {
        for (const line of page.wrap(text, x + wide - 14 - inner, font, size)) {
          page.put(line, inner, y, { font, size })
          y += step
        }
      }
      if (kind === 'mark beside') page.put(symbol, x + 8, page.y + 8, { font: fonts.symbols, size: 15 })
      else if (kind === 'stacked') say(symbol, fonts.symbols)
      else page.put(symbol, inner, y, { font: fonts.symbols, size })
      if (kind === 'mark and code') {
        page.put(thread.code, inner + 18, y, { font: fonts.helveticaBold, size })
        y += step
      } else say(thread.code, fonts.helveticaBold)
      say(thread.name as string)
      const skeins = `${bought} skein${bought > 1 ? 's' : ''}`
      if (hasStrands) say(`${strands} strand${strands > 1 ? 's' : ''}`)
      say(skeins)
      lines.push(
        keyLine({
          symbol,
          threads: [
            saidThread(thread, { maker: true, line: true, code: true, name: true, strands: hasStrands ? strands : null }),
          ],
          amounts: [putUps(bought)],
        }),
      )
    }
    page.y += high
    putProse(page, random, 48, 480)
    return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
  }
}

const layouts: [string, Layout][] = [
  ['ruled table', ruledTable],
  ['two columns', twoColumns],
  ['sectioned', sectioned],
  ['many designs', manyDesigns],
  ['wrapped names', wrappedNames],
  ['scanned', scanned],
  ['beside a chart', besideChart],
  ['long key', longKey],
  ['palettes', palettes],
  ['cover first', coverFirst],
  ['beside each other', besideEachOther],
  ['three across', threeAcross],
  ['boxes', inBoxes('stacked')],
  ['boxes, mark beside', inBoxes('mark beside')],
  ['boxes, mark and code', inBoxes('mark and code')],
]

/** One PDF of the train half. */
export async function trainPdf(at: number): Promise<CorpusFile> {
  const random = seededRandom(`corpus train pdf ${at}`)
  const [template, layout] = layouts[at % layouts.length] as (typeof layouts)[number]
  const { known, pools } = drawWorld(trainRanges(), random.pick([1, 1, 0.9, 0.5]), random)
  const [cotton = [], pearl = [], dyed = [], filament = [], beads = [], silk = [], wool = []] = pools
  const stranded = random.pick([cotton, cotton, silk, wool])
  const { bytes, designs } = await layout({ random, stranded, pearl, dyed, filament, beads })
  settleMeant(designs, known)
  return { name: `train-pdf-${String(at).padStart(2, '0')}`, template, known, bytes, designs }
}
