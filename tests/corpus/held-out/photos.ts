import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import { seededRandom } from '#seed/random'
import { type Cell, type Font, fonts, Page, photographed } from '../page-drawing'
import { drawConditions, type Hardness, photograph } from '../photograph'
import { renderPage } from '../render'
import { widerRanges } from '../train/wider-ranges'
import type { CorpusFile, TruthDesign, TruthLine } from '../truth'
import { drawWorld, saidThread, settleMeant } from '../world'
import { drawCount, keyLine, metresTenths, noFacts, stitchCount, takeThreads } from '../writing'
import { heldOutProse, type SaidFacts, sayFacts } from './facts'
import type { HeldOutMeans } from './templates'

type Layout = (means: HeldOutMeans) => { page: Page; designs: TruthDesign[] }

const letters = [...'abdefghkmnpqrtwyEGJQ35678']
const glyphs = ['◊', '■', '▲', '○', '♥', '♣', '♪', '>', '<', '∞', '●', '♦', '+', '?', '$', '~']
const oneList = (head: SaidFacts | null, lines: TruthLine[]): TruthDesign[] => [
  { facts: head?.facts ?? noFacts, notAsked: head?.notAsked ?? [], lists: [{ name: null, lines: lines.map(photographed) }] },
]
const symbolsFor = (random: Random, count: number) =>
  random.chance(0.65) || count > glyphs.length ? random.sample(letters, count) : random.sample(glyphs, count)
const cellOf = (symbol: string): Cell => (letters.includes(symbol) ? symbol : { symbol })
const left = 40
const wide = 340

function begin(random: Random, share: number, font: Font, bold: Font): { page: Page; head: SaidFacts | null } {
  const page = new Page('small', left)
  page.addPage()
  const head = random.chance(share) ? sayFacts(random) : null
  if (head) {
    for (const [at, line] of head.lines.filter((text) => text !== '').entries())
      page.paragraph(line, left, wide, at === 0 ? { font: bold, size: 14 } : { font, size: 10 })
    page.y += 10
  }
  return { page, head }
}

/** The symbol last, figures at the right, rows shaded or ruled. */
const symbolLast: Layout = ({ random, silk }) => {
  const { page, head } = begin(random, 0.5, fonts.times, fonts.timesBold)
  const chosen = takeThreads(silk, random.int(10, 20), random)
  const symbols = symbolsFor(random, chosen.length)
  const isRuled = random.chance(0.5)
  const lines: TruthLine[] = []
  const rows = chosen.map((thread, at): Cell[] => {
    const [strands, count] = [random.pick([1, 2, 3]), drawCount(random)]
    const symbol = symbols[at] as string
    lines.push(
      keyLine({
        symbol,
        threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
        amounts: [stitchCount('full', count)],
      }),
    )
    return [thread.code, thread.name as string, String(strands), String(count), cellOf(symbol)]
  })
  page.table(
    [
      { head: 'Brindlequay', width: 76 },
      { head: 'Shade', width: 124 },
      { head: 'Ply', width: 36, align: 'right' },
      { head: 'Crosses', width: 60, align: 'right' },
      { head: 'Sign', width: 46, align: 'center' },
    ],
    rows,
    { x: left, font: fonts.times, headFont: fonts.timesBold, size: 11, rules: isRuled ? 'all' : 'none', zebra: !isRuled, pad: 3 },
  )
  return { page, designs: oneList(head, lines) }
}

/** a = 204 Old Brick */
const equals: Layout = ({ random, silk }) => {
  const { page, head } = begin(random, 0.6, fonts.liberation, fonts.liberationBold)
  page.paragraph('Brindlequay silk, two strands throughout', left, wide, { font: fonts.liberationBold, size: 10.5 })
  page.y += 4
  const chosen = takeThreads(silk, random.int(8, 18), random)
  const symbols = random.sample(letters, chosen.length)
  const lines = chosen.map((thread, at) => {
    page.paragraph(`${symbols[at]} = ${thread.code} ${thread.name}`, left, wide, {
      font: fonts.liberation,
      size: 11,
      leading: 1.45,
    })
    return keyLine({ symbol: symbols[at], threads: [saidThread(thread, { maker: true, code: true, name: true, strands: 2 })] })
  })
  return { page, designs: oneList(head, lines) }
}

/** A table for crosses and one for outlines, under each other. */
const programTables: Layout = ({ random, silk }) => {
  const { page, head } = begin(random, 0.4, fonts.courier, fonts.courierBold)
  const lines: TruthLine[] = []
  for (const [heading, stitch, count] of [
    ['Used for full stitches', 'full', random.int(7, 13)],
    ['Used for back stitches', 'backstitch', random.int(1, 4)],
  ] as const) {
    page.y += 8
    page.paragraph(heading, left, wide, { font: fonts.courierBold, size: 10.5 })
    const symbols = symbolsFor(random, count)
    const hasSymbol = stitch === 'full'
    const strands = hasSymbol ? 2 : 1
    const rows = takeThreads(silk, count, random).map((thread, at): Cell[] => {
      lines.push(
        keyLine({
          symbol: hasSymbol ? symbols[at] : null,
          threads: [saidThread(thread, { maker: true, code: true, name: true, strands })],
          stitches: [stitch] as Stitch[],
        }),
      )
      return [
        ...(hasSymbol ? [cellOf(symbols[at] as string)] : []),
        String(strands),
        'Brindlequay',
        thread.code,
        thread.name as string,
      ]
    })
    page.table(
      [
        ...(hasSymbol ? [{ head: 'Symbol', width: 50 }] : []),
        { head: 'Strands', width: 54 },
        { head: 'Type', width: 78 },
        { head: 'Number', width: 52 },
        { head: 'Color', width: 124 },
      ],
      rows,
      {
        x: left - 14,
        font: fonts.courier,
        headFont: fonts.courierBold,
        size: 9.5,
        rules: 'head',
        pad: 2.5,
      },
    )
  }
  return { page, designs: oneList(head, lines) }
}

/** The slip in a pack: name, dots, metres. */
const packSlip: Layout = ({ random, silk, dyed }) => {
  const { page, head } = begin(random, 0.7, fonts.liberation, fonts.liberationBold)
  page.paragraph('This pack holds', left, wide, { font: fonts.liberationBold, size: 12 })
  page.y += 4
  const lines = takeThreads([...silk, ...dyed], random.int(6, 14), random).map((thread) => {
    const metres = random.int(2, 40) / 4
    page.put(`${thread.maker} ${thread.isNamed ? thread.code : `${thread.code} ${thread.name}`}`, left, page.y, {
      font: fonts.liberation,
      size: 10.5,
    })
    page.put(`${metres} m`, left, page.y, { font: fonts.liberation, size: 10.5, width: wide, align: 'right' })
    page.y += 17
    return keyLine({
      threads: [saidThread(thread, { maker: true, code: true, name: true })],
      amounts: [{ kind: 'length', tenths: metresTenths(metres) }],
    })
  })
  page.y += 8
  page.paragraph(random.pick(heldOutProse), left, wide, { font: fonts.liberationItalic, size: 9 })
  return { page, designs: oneList(head, lines) }
}

/** Boxes in two rows of columns: symbol at the left, code above, name below. */
const boxes: Layout = ({ random, silk }) => {
  const { page, head } = begin(random, 0.4, fonts.noto, fonts.notoSemiBold)
  page.paragraph('Brindlequay Stranded Silk', left, wide, { font: fonts.notoSemiBold, size: 10.5 })
  page.y += 6
  const top = page.y
  const chosen = takeThreads(silk, random.int(5, 9) * 2, random)
  const symbols = symbolsFor(random, chosen.length)
  const lines = chosen.map((thread, at) => {
    const [x, y] = [left + (at % 2) * 174, top + Math.floor(at / 2) * 38]
    const symbol = symbols[at] as string
    page.document.rect(x, y, 166, 34).lineWidth(0.7).strokeColor('#555').stroke()
    page.put(symbol, x + 9, y + 8, { font: letters.includes(symbol) ? fonts.noto : fonts.symbols, size: 13 })
    page.put(thread.code, x + 38, y + 2, { font: fonts.notoSemiBold, size: 10.5 })
    page.put(thread.name as string, x + 38, y + 17, { font: fonts.noto, size: 9.5 })
    return keyLine({ symbol, threads: [saidThread(thread, { maker: true, line: true, code: true, name: true })] })
  })
  return { page, designs: oneList(head, lines) }
}

const layouts: [string, Layout][] = [
  ['photographed, symbol last', symbolLast],
  ['photographed equals', equals],
  ['photographed tables', programTables],
  ['photographed slip', packSlip],
  ['photographed boxes', boxes],
]

/** One photograph of the held-out half. */
export async function heldOutPhoto(at: number): Promise<CorpusFile> {
  const random = seededRandom(`corpus held-out photo ${at}`)
  const [template, layout] = layouts[at % layouts.length] as (typeof layouts)[number]
  const { known, pools } = drawWorld(widerRanges(), random.pick([1, 0.95, 0.8, 0.5]), random)
  const [silk = [], wool = [], dyed = [], braid = [], beads = []] = pools
  const { page, designs } = layout({ random, silk, wool, dyed, braid, beads })
  settleMeant(designs, known)
  const picture = await renderPage(await page.bytes(), { dotsPerInch: 220 })
  const bytes = await photograph(picture, drawConditions(random, (Math.floor(at / layouts.length) % 3) as Hardness), random)
  return { name: `held-out-photo-${String(at).padStart(2, '0')}`, template, known, bytes, designs }
}
