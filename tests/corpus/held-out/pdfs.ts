import sharp from 'sharp'
import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import { seededRandom } from '#seed/random'
import { type Cell, type Column, drawn, type Font, fonts, Page, photographed, type Shape } from '../page-drawing'
import { renderPage } from '../render'
import { widerRanges } from '../train/wider-ranges'
import type { CorpusFile, TruthDesign, TruthLine } from '../truth'
import { drawWorld, type PoolThread, saidThread, settleMeant } from '../world'
import { drawCount, keyLine, metresTenths, noFacts, putUps, stitchCount, takeThreads, withCommas } from '../writing'
import { heldOutProse, heldOutTitles, type SaidFacts, sayFacts } from './facts'
import type { HeldOutMeans } from './templates'

type Layout = (means: HeldOutMeans) => Promise<{ bytes: Uint8Array; designs: TruthDesign[] }>

const glyphs = [
  '■',
  '●',
  '▲',
  '▼',
  '♦',
  '♪',
  '○',
  '□',
  '♥',
  '♠',
  '♣',
  '◊',
  '∞',
  '∆',
  'Ω',
  '>',
  '<',
  '~',
  '$',
  '?',
  'a',
  'e',
  'k',
  'm',
  'r',
  'w',
  '3',
  '5',
  '8',
  '9',
  'E',
  'G',
  'Q',
]
const drawings: Shape[] = ['star', 'bar', 'diamond', 'slash', 'frame', 'triangle', 'ring', 'cross', 'square', 'disc']
const letters = [...'abcdefghkmnpqrtuvwxyz']
const oneList = (head: SaidFacts | null, lines: TruthLine[]): TruthDesign => ({
  facts: head?.facts ?? noFacts,
  notAsked: head?.notAsked ?? [],
  lists: [{ name: null, lines }],
})

/** The head in the middle of the page or at its left, the title not always the largest by much. */
function putHead(
  page: Page,
  head: SaidFacts,
  x: number,
  width: number,
  { font, bold, size, centred = false }: { font: Font; bold: Font; size: number; centred?: boolean },
): void {
  for (const [at, line] of head.lines.filter((text) => text !== '').entries()) {
    const [face, points] = at === 0 ? [bold, size * 1.5] : [font, size]
    for (const part of page.wrap(line, width, face, points)) {
      page.put(part, x, page.y, { font: face, size: points, width, align: centred ? 'center' : 'left' })
      page.y += points * 1.35
    }
  }
  page.y += size
}

const bySymbol = (thread: PoolThread, symbol: string | null, strands: number | null): TruthLine =>
  keyLine({ symbol, threads: [saidThread(thread, { maker: true, code: true, name: true, strands })] })

/** Shaded rows without a line, figures at the right, the symbol last. */
const shadedRows: Layout = async ({ random, silk, wool }) => {
  const head = sayFacts(random)
  const isMixed = random.chance(0.5)
  const chosen = takeThreads(isMixed ? [...silk, ...wool] : silk, random.int(12, 28), random)
  const symbols = random.sample(glyphs, chosen.length)
  const page = new Page()
  page.addPage()
  putHead(page, head, 60, 470, { font: fonts.times, bold: fonts.timesBold, size: 11, centred: true })
  if (!isMixed) page.paragraph('All shades are Brindlequay', 60, 400, { font: fonts.times, size: 10 })
  const columns: Column[] = [
    ...(isMixed ? [{ head: 'Manufacturer', width: 80 }] : []),
    { head: 'Ref.', width: 50, align: 'right' },
    { head: 'Shade', width: 150 },
    { head: 'Ply', width: 40, align: 'right' },
    { head: 'Crosses', width: 60, align: 'right' },
    { head: 'Sign', width: 50, align: 'center' },
  ]
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const [strands, count] = [random.pick([1, 2, 3]), drawCount(random)]
    const symbol = symbols[at % symbols.length] as string
    lines.push({ ...bySymbol(thread, symbol, strands), amounts: [stitchCount('full', count)] })
    return [
      ...(isMixed ? [thread.maker] : []),
      thread.code,
      thread.name as string,
      String(strands),
      withCommas(count),
      { symbol },
    ]
  })
  page.table(columns, rows, { x: 60, font: fonts.times, headFont: fonts.timesBold, size: 10, rules: 'none', zebra: true })
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** Three boxes in a row: symbol at the left, code above, name below. */
const boxes: Layout = async ({ random, silk }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(silk, random.int(4, 8) * 3, random)
  const symbols = random.sample(glyphs, chosen.length)
  const page = new Page()
  page.addPage()
  putHead(page, head, 50, 490, { font: fonts.liberation, bold: fonts.liberationBold, size: 10 })
  page.paragraph('Brindlequay Stranded Silk, two strands throughout', 50, 480, { font: fonts.liberation, size: 10 })
  page.y += 6
  const top = page.y
  const lines = chosen.map((thread, at) => {
    const [x, y] = [50 + (at % 3) * 165, top + Math.floor(at / 3) * 36]
    page.document.rect(x, y, 160, 32).lineWidth(0.6).strokeColor('#666').stroke()
    const symbol = symbols[at] as string
    page.put(symbol, x + 10, y + 9, { font: fonts.symbols, size: 14 })
    page.put(thread.code, x + 38, y + 4, { font: fonts.liberationBold, size: 10 })
    page.put(thread.name as string, x + 38, y + 17, { font: fonts.liberation, size: 8.5 })
    return keyLine({ symbol, threads: [saidThread(thread, { maker: true, line: true, code: true, name: true, strands: 2 })] })
  })
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** A page lying down: chart at the left, a small key in two columns at the right. */
const lyingPage: Layout = async ({ random, silk }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(silk, random.int(8, 14) * 2, random)
  const symbols = random.sample(glyphs, chosen.length)
  const page = new Page('lying', 40)
  page.addPage()
  putHead(page, head, 40, 740, { font: fonts.notoLight, bold: fonts.notoSemiBold, size: 9 })
  const top = page.y
  page.grid(60, top + 10, 44, 46, 7.6, () => (random.chance(0.5) ? { symbol: random.pick(symbols) } : null))
  page.put('Brindlequay silk, cross stitch in two strands', 430, top, { font: fonts.notoSemiBold, size: 8.5 })
  const half = chosen.length / 2
  const lines = chosen.map((thread, at) => {
    const [x, y] = [430 + Math.floor(at / half) * 185, top + 18 + (at % half) * 13]
    const symbol = symbols[at] as string
    page.put(symbol, x, y + 1, { font: fonts.symbols, size: 8 })
    page.put(thread.code, x + 18, y, { font: fonts.notoLight, size: 8 })
    page.put(thread.name as string, x + 55, y, { font: fonts.notoLight, size: 8 })
    return { ...bySymbol(thread, symbol, 2), stitches: ['full'] as Stitch[] }
  })
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** Two designs beside each other, each with its own head and key. */
const besideEachOther: Layout = async ({ random, silk, wool }) => {
  const page = new Page()
  page.addPage()
  const designs = random.sample(heldOutTitles, 2).map((title, at): TruthDesign => {
    const head = sayFacts(random, title)
    const isSilk = at === 0
    const chosen = takeThreads(isSilk ? silk : wool, random.int(6, 12), random)
    const symbols = random.sample(glyphs, chosen.length)
    const x = 44 + at * 264
    page.y = 50
    putHead(page, head, x, 235, { font: fonts.liberation, bold: fonts.liberationBold, size: 9 })
    page.y = 160
    const lines = chosen.map((thread, rowAt) => bySymbol(thread, symbols[rowAt] as string, null))
    page.table(
      [
        { head: 'Key', width: 34 },
        { head: isSilk ? 'Brindlequay' : 'Dunmarrow', width: 66 },
        { head: 'Shade', width: 125 },
      ],
      chosen.map((thread, rowAt): Cell[] => [{ symbol: symbols[rowAt] as string }, thread.code, thread.name as string]),
      { x, font: fonts.liberation, headFont: fonts.liberationItalic, size: 9, rules: 'head' },
    )
    return oneList(head, lines)
  })
  return { bytes: await page.bytes(), designs }
}

/** Printed tables for each kind of stitch, scanned: nothing is text. */
const scannedTables: Layout = async ({ random, silk }) => {
  const head = sayFacts(random)
  const page = new Page()
  page.addPage()
  putHead(page, head, 60, 460, { font: fonts.times, bold: fonts.timesBold, size: 12 })
  const lines: TruthLine[] = []
  for (const [heading, stitch, count] of [
    ['Thread used for full stitches', 'full', random.int(8, 14)],
    ['Thread used for back stitches', 'backstitch', random.int(1, 3)],
  ] as const) {
    page.y += 10
    page.paragraph(heading, 60, 400, { font: fonts.timesBold, size: 12 })
    const symbols = random.sample(letters, count)
    const chosen = takeThreads(silk, count, random)
    const strands = stitch === 'full' ? 2 : 1
    page.table(
      [
        ...(stitch === 'full' ? [{ head: 'Symbol', width: 56 }] : []),
        { head: 'Strands', width: 56 },
        { head: 'Type', width: 90 },
        { head: 'Number', width: 60 },
        { head: 'Color', width: 150 },
      ],
      chosen.map((thread, at): Cell[] => [
        ...(stitch === 'full' ? [symbols[at] as string] : []),
        String(strands),
        'Brindlequay',
        thread.code,
        thread.name as string,
      ]),
      { x: 60, font: fonts.times, headFont: fonts.timesBold, size: 11, rules: 'head', pad: 3 },
    )
    lines.push(
      ...chosen.map((thread, at) => ({
        ...bySymbol(thread, stitch === 'full' ? (symbols[at] as string) : null, strands),
        stitches: [stitch] as Stitch[],
      })),
    )
  }
  const { width, height, rgba } = await renderPage(await page.bytes(), { dotsPerInch: random.pick([144, 180]) })
  const picture = await sharp(rgba, { raw: { width, height, channels: 4 } })
    .flatten({ background: '#fff' })
    .blur(0.5)
    .jpeg({ quality: 80 })
    .toBuffer()
  const paper = new Page()
  paper.addPage()
  paper.document.image(picture, 0, 0, { width: paper.width, height: paper.height })
  return { bytes: await paper.bytes(), designs: [oneList(head, lines.map(photographed))] }
}

/** Three columns of a magazine: words, the key, words. */
const threeColumns: Layout = async ({ random, silk }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(silk, random.int(8, 20), random)
  const symbols = random.sample(glyphs, chosen.length)
  const page = new Page()
  page.addPage()
  putHead(page, head, 40, 500, { font: fonts.noto, bold: fonts.notoBold, size: 10 })
  const top = page.y
  for (const x of [40, 400]) {
    page.y = top
    for (const line of random.sample(heldOutProse, 5)) page.paragraph(line, x, 150, { font: fonts.noto, size: 8.5 })
  }
  page.y = top
  page.paragraph('Brindlequay silk', 215, 165, { font: fonts.notoBold, size: 9 })
  const isDrawn = random.chance(0.5)
  const lines = chosen.map((thread, at) => {
    const symbol = symbols[at] as string
    if (isDrawn) page.shape(drawings[at % drawings.length] as Shape, 217, page.y + 2, 8)
    else page.put(symbol, 217, page.y, { font: fonts.symbols, size: 9 })
    page.put(`${thread.code} ${thread.name}`, 234, page.y, { font: fonts.noto, size: 8.5 })
    page.y += 13
    const line = bySymbol(thread, symbol, null)
    return isDrawn ? drawn(line) : line
  })
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** One palette under the other, each under its name. */
const palettesInTurn: Layout = async ({ random, silk, dyed }) => {
  const head = sayFacts(random)
  const count = random.int(6, 12)
  const symbols = random.sample(glyphs, count)
  const page = new Page()
  page.addPage()
  putHead(page, head, 60, 460, { font: fonts.times, bold: fonts.timesBold, size: 11 })
  const lists = [
    ['Silk version (Brindlequay)', takeThreads(silk, count, random)],
    ['Wool version (Dunmarrow, hand-dyed)', random.sample(dyed, count)],
  ] as const
  const truths = lists.map(([name, threads]) => {
    page.y += 8
    page.paragraph(name, 60, 400, { font: fonts.timesBold, size: 11 })
    page.table(
      [
        { head: null, width: 30 },
        { head: null, width: 220 },
      ],
      threads.map((thread, at): Cell[] => [
        { symbol: symbols[at] as string },
        thread.isNamed ? thread.code : `${thread.code}  ${thread.name}`,
      ]),
      { x: 60, font: fonts.times, size: 10.5, rules: 'none', pad: 1 },
    )
    return { name, lines: threads.map((thread, at) => bySymbol(thread, symbols[at] as string, null)) }
  })
  return { bytes: await page.bytes(), designs: [{ facts: head.facts, notAsked: head.notAsked, lists: truths }] }
}

/** Ruled cells, their words in the middle, long names wrapped, blends among them. */
const blendedCells: Layout = async ({ random, silk }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(silk, random.int(9, 18), random)
  const symbols = random.sample(glyphs, chosen.length)
  const page = new Page()
  page.addPage()
  putHead(page, head, 50, 490, { font: fonts.noto, bold: fonts.notoSemiBold, size: 10, centred: true })
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const isBlend = random.chance(0.25)
    const skeins = random.pick([1, 1, 2])
    const symbol = symbols[at] as string
    if (!isBlend) {
      const strands = random.pick([1, 2, 3])
      lines.push({ ...bySymbol(thread, symbol, strands), amounts: [putUps(skeins)] })
      return [{ symbol }, thread.code, thread.name as string, String(strands), String(skeins)]
    }
    const other = random.pick(silk)
    lines.push(
      keyLine({
        symbol,
        threads: [thread, other].map((one) => saidThread(one, { maker: true, code: true, name: true, strands: 1 })),
        amounts: [putUps(skeins)],
      }),
    )
    return [{ symbol }, `${thread.code} + ${other.code}`, `${thread.name} + ${other.name}`, '1 + 1', String(skeins)]
  })
  page.table(
    [
      { head: 'Symbol', width: 50 },
      { head: 'Brindlequay no.', width: 92, align: 'center' },
      { head: 'Shade', width: 90, align: 'center' },
      { head: 'Strands', width: 55, align: 'center' },
      { head: 'Skeins', width: 50, align: 'center' },
    ],
    rows,
    { x: 90, font: fonts.noto, headFont: fonts.notoSemiBold, size: 9, rules: 'all', pad: 4 },
  )
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** A long print in a typewriter's letters, its title again on every page. */
const longPrint: Layout = async ({ random, silk }) => {
  const head = sayFacts(random)
  const chosen = takeThreads(silk, random.int(50, 70), random)
  const page = new Page('upright', 56)
  page.onPage = (one, number) => one.put(`${head.facts.title} - ${number}/2`, 56, 24, { font: fonts.courier, size: 8 })
  page.addPage()
  putHead(page, head, 56, 480, { font: fonts.courier, bold: fonts.courierBold, size: 10 })
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const [strands, count] = [random.pick([1, 2]), drawCount(random)]
    const symbol = at < letters.length ? (letters[at] as string) : `${at - letters.length + 1}`
    lines.push({ ...bySymbol(thread, symbol, strands), amounts: [stitchCount('full', count)] })
    return [symbol, thread.code, thread.name as string, String(strands), String(count)]
  })
  page.table(
    [
      { head: 'Sym', width: 40 },
      { head: 'Brindlequay', width: 84 },
      { head: 'Shade', width: 170 },
      { head: 'Str.', width: 40 },
      { head: 'Stitches', width: 70 },
    ],
    rows,
    {
      x: 56,
      font: fonts.courier,
      headFont: fonts.courierBold,
      size: 9,
      rules: 'none',
      pad: 1.2,
    },
  )
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

/** What a pack holds, dots between name and length, on a small sheet behind a cover. */
const packSlip: Layout = async ({ random, silk, dyed, beads }) => {
  const head = sayFacts(random)
  const page = new Page('small', 36)
  page.addPage()
  page.document.rect(36, 36, 348, 280).fill('#8d9bb0')
  page.y = 340
  putHead(page, head, 36, 348, { font: fonts.liberation, bold: fonts.liberationBold, size: 11, centred: true })
  page.addPage()
  page.paragraph('This pack holds:', 36, 340, { font: fonts.liberationBold, size: 11 })
  const size = 9.5
  const lines = takeThreads([...silk, ...dyed], random.int(7, 14), random).map((thread) => {
    const metres = random.int(2, 40) / 4
    const called = `${thread.maker} ${thread.isNamed ? thread.code : `${thread.code} ${thread.name}`} `
    const amount = ` ${metres} m`
    page.document.font(fonts.liberation).fontSize(size)
    const free = 340 - page.document.widthOfString(called) - page.document.widthOfString(amount)
    const dots = '.'.repeat(Math.max(3, Math.floor(free / page.document.widthOfString('.'))))
    page.put(`${called}${dots}${amount}`, 36, page.y, { font: fonts.liberation, size })
    page.y += 14
    return keyLine({
      threads: [saidThread(thread, { maker: true, code: true, name: true })],
      amounts: [{ kind: 'length', tenths: metresTenths(metres) }],
    })
  })
  const bead = random.pick(beads)
  page.y += 6
  page.paragraph(`Beads: Varnaby ${bead.code} ${bead.name}`, 36, 340, { font: fonts.liberation, size })
  lines.push(keyLine({ threads: [saidThread(bead, { maker: true, code: true, name: true })], stitches: ['bead'] }))
  page.paragraph('one needle, one piece of cloth', 36, 340, { font: fonts.liberation, size })
  for (const line of random.sample(heldOutProse, 2)) page.paragraph(line, 36, 340, { font: fonts.liberationItalic, size: 8 })
  return { bytes: await page.bytes(), designs: [oneList(head, lines)] }
}

const layouts: [string, Layout][] = [
  ['shaded rows', shadedRows],
  ['boxes', boxes],
  ['lying page', lyingPage],
  ['beside each other', besideEachOther],
  ['scanned tables', scannedTables],
  ['three columns', threeColumns],
  ['palettes in turn', palettesInTurn],
  ['blended cells', blendedCells],
  ['long print', longPrint],
  ['pack slip', packSlip],
]

/** One PDF of the held-out half. */
export async function heldOutPdf(at: number): Promise<CorpusFile> {
  const random: Random = seededRandom(`corpus held-out pdf ${at}`)
  const [template, layout] = layouts[at % layouts.length] as (typeof layouts)[number]
  const { known, pools } = drawWorld(widerRanges(), random.pick([1, 0.95, 0.8, 0.5]), random)
  const [silk = [], wool = [], dyed = [], braid = [], beads = []] = pools
  const { bytes, designs } = await layout({ random, silk, wool, dyed, braid, beads })
  settleMeant(designs, known)
  return { name: `held-out-pdf-${String(at).padStart(2, '0')}`, template, known, bytes, designs }
}
