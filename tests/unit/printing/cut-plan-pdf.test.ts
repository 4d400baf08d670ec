import { describe, expect, it } from 'vitest'
import { cutSheet, type PrintedCutPlan } from '../../../app/_words/cut-sheet'
import type { CutLayout } from '../../../lib/cloth/cut-plan'
import type { Paper } from '../../../lib/printing/page'
import { cutPlanPdf } from '../../../lib/printing/pdf/cut-plan-pdf'
import { across, fatQuarter, fifteenSquares, layoutOf, offcut, up, wanted, waste } from '../cloth/cut-layouts'
import { type ReadPage, readPdf } from './read-pdf'

const titles = new Map([
  ['eleven', 'Rook Hill in Snow'],
  ['eight', 'Seven Lanterns'],
  ['six', 'Kettle at Wend Cross'],
  ['lanterns', 'Seven Lanterns'],
])

const planOf = (layouts: readonly CutLayout[], more: Partial<PrintedCutPlan> = {}): PrintedCutPlan => ({
  title: 'Autumn kits',
  layouts,
  titles,
  pieces: layouts.map(({ pieceId }) => ({ id: pieceId, title: `L-12 · ${pieceId}`, isSquared: true })),
  gapUm: 0,
  footer: 'The Oxmarsh Needle Room',
  ...more,
})

const createdAt = new Date('2026-03-03T10:00:00Z')

async function printed(plan: PrintedCutPlan, options: { paper?: Paper; size?: 'scale' | 'actual'; unit?: 'in' | 'cm' } = {}) {
  const { paper = 'a4', size = 'scale', unit = 'in' } = options
  const pdf = await cutPlanPdf(cutSheet(plan, unit), { paper, size, createdAt })
  if (!pdf.ok) throw new Error(JSON.stringify(pdf.error))
  return pdf.value
}

const read = async (...args: Parameters<typeof printed>) => readPdf(await printed(...args))

/** What a person with a good ruler may find, in millimetres. */
const trueTo = 0.1

const isNear = (one: number, other: number) => Math.abs(one - other) <= trueTo

/** The box of a size, by its outline. */
const boxOfSize = (page: ReadPage, widthMm: number, heightMm: number) =>
  page.boxes.find(({ width, height }) => isNear(width, widthMm) && isNear(height, heightMm))

const sentences = (page: ReadPage | undefined) => page?.words.map(({ text }) => text).join(' ') ?? ''

/** Inches of cloth on a page of this scale. */
const inches = (count: number, scale: number) => (count * 25.4) / scale

/** In inches from the piece's lower left corner: trade scenario A8, worked by hand. */
const fatQuarterParts = [
  { x: 0, y: 0, width: 11, height: 11 },
  { x: 11, y: 0, width: 6, height: 12 },
  { x: 0, y: 12, width: 8, height: 8 },
  { x: 8, y: 12, width: 8, height: 8 },
  { x: 0, y: 20, width: 18, height: 7 },
]
const fatQuarterCuts = [
  [0, 12, 18, 12],
  [0, 20, 18, 20],
  [11, 0, 11, 12],
  [17, 0, 17, 12],
  [0, 11, 11, 11],
  [8, 12, 8, 20],
  [16, 12, 16, 20],
] as const

function expectPartsTrue(page: ReadPage, scale: number, piece: { x: number; y: number }) {
  for (const part of fatQuarterParts) {
    const [x, y] = [piece.x + inches(part.x, scale), piece.y + inches(27 - part.y - part.height, scale)]
    const found = page.boxes.find(
      (box) =>
        isNear(box.x, x) &&
        isNear(box.y, y) &&
        isNear(box.width, inches(part.width, scale)) &&
        isNear(box.height, inches(part.height, scale)),
    )
    expect(found, `${part.width} × ${part.height} in at ${part.x}, ${part.y}`).toBeDefined()
  }
  for (const [x1, y1, x2, y2] of fatQuarterCuts) {
    const found = page.segments.find(
      (line) =>
        line.isDashed &&
        line.colour === '#9b2a24' &&
        isNear(line.x1, piece.x + inches(x1, scale)) &&
        isNear(line.y1, piece.y + inches(27 - y1, scale)) &&
        isNear(line.x2, piece.x + inches(x2, scale)) &&
        isNear(line.y2, piece.y + inches(27 - y2, scale)),
    )
    expect(found, `cut ${x1} ${y1} ${x2} ${y2}`).toBeDefined()
  }
}

/** Both bars of true length, and their ticks. */
function expectBarsTrue(page: ReadPage) {
  const level = page.segments.filter(({ y1, y2 }) => isNear(y1, y2))
  for (const [lengthMm, stepMm, ticks] of [
    [100, 10, 11],
    [101.6, 25.4, 5],
  ] as const) {
    const bar = level.find(({ x1, x2, colour }) => colour === '#000000' && Math.abs(x2 - x1 - lengthMm) < 0.02)
    expect(bar, `${lengthMm} mm`).toBeDefined()
    if (!bar) return
    for (let tick = 0; tick < ticks; tick++)
      expect(
        page.segments.some(({ x1, x2, y1 }) => isNear(x1, bar.x1 + tick * stepMm) && isNear(x2, x1) && isNear(y1, bar.y1)),
      ).toBe(true)
  }
  expect(sentences(page)).toContain('Check: this bar is 100 mm.')
  expect(sentences(page)).toContain('not “fit to page”')
}

describe('a printed cut plan', () => {
  it.each([
    ['a4', 210, 297],
    ['letter', 215.9, 279.4],
  ] as const)('is true to a tenth of a millimetre at the scale it states, on %s', async (paper, widthMm, heightMm) => {
    const { pages } = await read(planOf([fatQuarter()]), { paper })
    const [page] = pages as [ReadPage]
    expect(isNear(page.widthMm, widthMm) && isNear(page.heightMm, heightMm)).toBe(true)
    // 18 × 27 in at 1 : 4 is 114.3 × 171.45 mm, and does not fit at 1 : 2.5 (274 mm high).
    expect(sentences(page)).toContain('Drawn 1 : 4')
    const piece = boxOfSize(page, 114.3, 171.45)
    expect(piece).toBeDefined()
    if (piece) expectPartsTrue(page, 4, piece)
    expectBarsTrue(page)
  })

  it('draws a small piece in its own size', async () => {
    const { pages } = await read(planOf([layoutOf('small', 4, 5, across(3, wanted('eight'), offcut))]))
    expect(sentences(pages[0])).toContain('Drawn 1 : 1')
    expect(boxOfSize(pages[0] as ReadPage, 101.6, 127)).toBeDefined()
  })

  it('lays a broad piece on its side where it comes out larger so', async () => {
    const { pages } = await read(planOf([fifteenSquares()]))
    const [page] = pages as [ReadPage]
    expect([Math.round(page.widthMm), Math.round(page.heightMm)]).toEqual([297, 210])
    // 54 × 31 in at 1 : 8.
    expect(sentences(page)).toContain('Drawn 1 : 8')
    expect(boxOfSize(page, 171.45, 98.425)).toBeDefined()
    const squares = page.boxes.filter(({ width, height }) => isNear(width, 31.75) && isNear(height, 31.75))
    expect(squares).toHaveLength(15)
  })

  it('tells parts, steps and offcuts in both units, with lines to write on', async () => {
    const { pages } = await read(planOf([fatQuarter()]))
    const all = pages.map(sentences).join(' ')
    for (const text of [
      'L-12 · fat-quarter',
      '45.72 × 68.58 cm',
      'Rook Hill in Snow',
      '20.32 × 20.32 cm',
      'Cut straight across, 12 in (30.48 cm) from the foot.',
      'is offcut 1: keep it',
      'Offcut to label',
      'As measured',
      'Shears.',
      'warp',
      `page 1 of ${pages.length}`,
    ])
      expect(all).toContain(text)
    expect(all).not.toContain('Square the piece first')
  })

  it('gives each piece pages of its own, and says the caution once', async () => {
    const { pages } = await read(planOf([fatQuarter(), fifteenSquares()], { gapUm: 6_350 }))
    const all = pages.map(sentences)
    expect(all.filter((text) => text.includes('piece 1 of 2') && text.includes('Drawn'))).toHaveLength(1)
    expect(all.filter((text) => text.includes('piece 2 of 2') && text.includes('Drawn'))).toHaveLength(1)
    expect(all.join(' ').split('Shears.')).toHaveLength(2)
    expect(all.at(-1)).toContain(`page ${pages.length} of ${pages.length}`)
  })

  it('says to square a piece that is not', async () => {
    const plan = planOf([fatQuarter()], { pieces: [{ id: 'fat-quarter', title: 'L-12', isSquared: false }] })
    const all = (await read(plan)).pages.map(sentences).join(' ')
    expect(all).toContain('not squared yet')
    expect(all).toContain('Square the piece first')
  })

  it('takes the person’s own unit first', async () => {
    const { pages } = await read(planOf([fatQuarter()]), { unit: 'cm' })
    const all = pages.map(sentences).join(' ')
    expect(all).toContain('centimetres')
    expect(all).toContain('Cut straight across, 30.48 cm (12 in) from the foot.')
  })

  it('makes the same file again', async () => {
    const plan = planOf([fatQuarter()])
    expect((await printed(plan)).equals(await printed(plan))).toBe(true)
  })

  it('carries its title and its date', async () => {
    const { info } = await read(planOf([fatQuarter()]))
    expect(info).toMatchObject({
      Title: 'Autumn kits',
      Creator: 'Chart Larder',
      CreationDate: 'D:20260303100000Z',
      Language: 'en-GB',
    })
  })

  it('keeps long and hostile names on the page', async () => {
    const hostile = `${'Unbroken'.repeat(80)} \u202eabc\u0000\ud800 ${'Winter Post '.repeat(60)}漢字 🧵`
    const plan = planOf([fatQuarter(), fifteenSquares()], {
      title: hostile,
      footer: hostile,
      titles: new Map([...titles.keys()].map((id) => [id, hostile])),
      pieces: [
        { id: 'fat-quarter', title: hostile, isSquared: false },
        { id: 'linen', title: hostile, isSquared: true },
      ],
    })
    for (const size of ['scale', 'actual'] as const) {
      const { pages } = await read(size === 'actual' ? { ...plan, layouts: plan.layouts.slice(0, 1) } : plan, { size })
      for (const page of pages)
        for (const { x, y, width, text, isLevel } of page.words) {
          expect(x, text).toBeGreaterThan(7)
          expect(y, text).toBeGreaterThan(7)
          expect(y, text).toBeLessThan(page.heightMm - 7)
          expect(isLevel ? x + width : x, text).toBeLessThan(page.widthMm - 7)
        }
    }
  })

  it('draws a piece that is only the size wanted, with nothing to cut', async () => {
    const { pages } = await read(planOf([layoutOf('square', 8, 8, wanted('eight'))]))
    expect(pages.map(sentences).join(' ')).toContain('Nothing has to be cut off')
  })

  it('draws sixty narrow strips without running off the paper', async () => {
    const strips = Array.from({ length: 60 }, (_, at) => at)
    const root = strips.reduceRight((right, at) => up(at % 2 ? 0.4 : 0.5, wanted(`strip ${at}`), right), waste)
    const { pages } = await read(planOf([layoutOf('strips', 30, 20, root)]))
    expect(pages.length).toBeGreaterThan(2)
    for (const page of pages) {
      for (const box of page.boxes) expect(box.x + box.width).toBeLessThan(page.widthMm - 7)
      for (const { y } of page.words) expect(y).toBeLessThan(page.heightMm - 7)
    }
  })
})

describe('a pattern in actual size', () => {
  // 457.2 × 685.8 mm. A sheet of A4 shows 186 × 244 mm, of Letter 191.9 × 226.4, each 10 mm less beyond the first: three across on
  // either, three down on A4 (712 mm) and four on Letter (three are 659).
  it.each([
    ['a4', 9],
    ['letter', 12],
  ] as const)('is true over all its sheets, which fit on one another, on %s', async (paper, count) => {
    const { pages } = await read(planOf([fatQuarter()]), { paper, size: 'actual' })
    const [map, ...sheets] = pages as [ReadPage, ...ReadPage[]]
    expectBarsTrue(map)
    expect(sentences(map)).toContain(`The pattern is ${sheets.length} sheets in actual size.`)
    expect(sheets).toHaveLength(count)
    const places = sheets.map((page, at) => {
      const piece = boxOfSize(page, 457.2, 685.8)
      expect(piece).toBeDefined()
      if (!piece) throw new Error('no piece')
      expectPartsTrue(page, 1, piece)
      expectBarsTrue(page)
      expect(sentences(page)).toContain(`Sheet ${at + 1} of ${count}`)
      return piece
    })
    // The frame of a sheet, and by how much the next one shows more of the piece.
    const frame = sheets[0]?.boxes.find(({ colour }) => colour === '#555555')
    if (!frame) throw new Error('no frame')
    for (const [at, place] of places.entries()) {
      expect(isNear(place.x, frame.x - (at % 3) * (frame.width - 10))).toBe(true)
      expect(isNear(place.y, frame.y - Math.floor(at / 3) * (frame.height - 10))).toBe(true)
    }
    const last = places.at(-1)
    expect((last?.x ?? 0) + 457.2).toBeLessThanOrEqual(frame.x + frame.width)
    expect((last?.y ?? 0) + 685.8).toBeLessThanOrEqual(frame.y + frame.height)
  })

  it('has crosses that come to lie on one another', async () => {
    const { pages } = await read(planOf([fatQuarter()]), { size: 'actual' })
    const crossesOf = (page: ReadPage) => {
      const piece = boxOfSize(page, 457.2, 685.8) as { x: number; y: number }
      const short = page.segments.filter(({ x1, x2, y1, y2 }) => isNear(Math.hypot(x2 - x1, y2 - y1), 6))
      return short
        .filter(({ y1, y2 }) => isNear(y1, y2))
        .map(({ x1, x2, y1 }) => ({ x: (x1 + x2) / 2 - piece.x, y: y1 - piece.y }))
    }
    // The first sheet and its neighbours: two crosses in each overlap.
    const [first, right, below] = [pages[1], pages[2], pages[4]].map((page) => crossesOf(page as ReadPage)) as [
      { x: number; y: number }[],
      { x: number; y: number }[],
      { x: number; y: number }[],
    ]
    const onBoth = (others: { x: number; y: number }[]) =>
      first.filter((one) => others.some((other) => isNear(one.x, other.x) && isNear(one.y, other.y)))
    expect(first).toHaveLength(4)
    expect(onBoth(right)).toHaveLength(2)
    expect(onBoth(below)).toHaveLength(2)
  })

  it('is refused where it takes more sheets than anybody would join', async () => {
    const bolt = layoutOf('bolt', 54, 180, across(100, offcut, offcut))
    const refused = await cutPlanPdf(cutSheet(planOf([bolt]), 'in'), { paper: 'a4', size: 'actual', createdAt })
    expect(refused.ok).toBe(false)
    // 1371.6 mm over sheets of 186 mm less 10: 8; 4572 mm over 244 less 10: 20.
    if (!refused.ok) expect(refused.error).toEqual({ kind: 'too-many-sheets', sheets: 160, mostSheets: 60 })
  })
})
