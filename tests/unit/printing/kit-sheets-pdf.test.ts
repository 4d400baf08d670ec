import { describe, expect, it } from 'vitest'
import type { ClassSheet } from '#lib/printing/class-sheet'
import { type PackingSlips, tickBoxMm } from '#lib/printing/packing-slip'
import { classSheetPdf, packingSlipsPdf } from '#lib/printing/pdf/kit-sheets-pdf'
import { type ReadPage, readPdf } from './read-pdf'

const createdAt = new Date('2026-09-08T09:00:00Z')

const aSlips = (bags: number, lines: number): PackingSlips => ({
  title: 'Seven Lanterns',
  under: 'The Oxmarsh Needle Room · 13 kits',
  slips: Array.from({ length: bags }, (_, at) => ({
    bag: `Bag ${at + 1}`,
    mark: at === bags - 1 ? 'Spare: no chart until it is sold' : null,
    lines: Array.from({ length: lines }, (_each, line) => ({
      name: `Larkholm ${String(311 + line).padStart(4, '0')}`,
      amount: '3.1 m',
      note: 'lot 18',
    })),
  })),
  footer: 'Seven Lanterns',
  words: {
    ...{ line: 'What goes in', amount: 'In the kit', note: 'Lot', caution: 'Count needles in.' },
    signed: ['Packed by', 'Checked by', 'Date'],
    pageOf: (page, pages) => `page ${page} of ${pages}`,
  },
})

const textOf = ({ words }: ReadPage) => words.map(({ text }) => text).join('\n')
const ticksOn = ({ boxes }: ReadPage) => boxes.filter(({ width }) => Math.abs(width - tickBoxMm) < 0.05)

describe('packing slips', () => {
  // ISO 216 A4 is 210 × 297 mm; ANSI/ASME Y14.1 A is 8½ × 11 in = 215.9 × 279.4 mm.
  it.each([
    ['a4', 210, 297],
    ['letter', 215.9, 279.4],
  ] as const)('come two to a page of %s while both fit, each line with a box of 5 mm', async (paper, width, height) => {
    const { pages } = await readPdf(await packingSlipsPdf(aSlips(13, 6), { paper, createdAt }))
    expect(pages).toHaveLength(7)
    for (const page of pages) {
      expect(page.widthMm).toBeCloseTo(width, 1)
      expect(page.heightMm).toBeCloseTo(height, 1)
    }
    expect(pages.map((page) => ticksOn(page).length)).toEqual([12, 12, 12, 12, 12, 12, 6])
    for (const box of pages.flatMap(ticksOn)) {
      expect(box.width).toBeCloseTo(5, 1)
      expect(box.height).toBeCloseTo(5, 1)
    }
    // Dashed: where the two are cut apart; the last page has one slip.
    expect(pages.map(({ segments }) => segments.filter(({ isDashed }) => isDashed).length)).toEqual([1, 1, 1, 1, 1, 1, 0])
  })

  it('keep their words, so that they can be searched: bags, lots, who packed and checked, and which is the spare', async () => {
    const { pages } = await readPdf(await packingSlipsPdf(aSlips(3, 6), { paper: 'a4', createdAt }))
    const text = pages.map(textOf).join('\n')
    for (const word of ['Bag 1', 'Bag 2', 'Bag 3', 'Larkholm 0311', '3.1 m', 'lot 18', 'Packed by', 'Checked by'])
      expect(text).toContain(word)
    expect(text.match(/Spare: no chart/g)).toHaveLength(1)
    expect(textOf(pages[1] as ReadPage)).toContain('page 2 of 2')
  })

  it('begin each on a page of its own where two do not fit, and go on over the next with the head above', async () => {
    const one = await readPdf(await packingSlipsPdf(aSlips(2, 20), { paper: 'a4', createdAt }))
    expect(one.pages.map((page) => ticksOn(page).length)).toEqual([20, 20])
    const long = await readPdf(await packingSlipsPdf(aSlips(1, 60), { paper: 'a4', createdAt }))
    expect(long.pages.length).toBeGreaterThan(1)
    expect(long.pages.reduce((sum, page) => sum + ticksOn(page).length, 0)).toBe(60)
    for (const page of long.pages) expect(textOf(page)).toContain('Bag 1')
  })

  it('stay within the margins', async () => {
    const { pages } = await readPdf(await packingSlipsPdf(aSlips(4, 14), { paper: 'a4', createdAt }))
    for (const { words, boxes } of pages) {
      for (const { x, width, y } of words) {
        expect(x).toBeGreaterThan(11)
        expect(x + width).toBeLessThan(210 - 11)
        expect(y).toBeLessThan(297 - 11)
      }
      for (const { y, height } of boxes) expect(y + height).toBeLessThan(297 - 12)
    }
  })

  it('are sixty in one file', async () => {
    const { pages } = await readPdf(await packingSlipsPdf(aSlips(60, 8), { paper: 'a4', createdAt }))
    expect(pages).toHaveLength(30)
  })
})

describe('class sheet', () => {
  const sheet: ClassSheet = {
    title: 'Seven Lanterns',
    lines: ['by Dorrit Quayle', 'A kit of The Oxmarsh Needle Room'],
    blocks: [
      { kind: 'heading', text: 'In your kit' },
      {
        kind: 'table',
        columns: [
          { head: 'What', share: 2 },
          { head: 'How much', share: 1, isRight: true },
        ],
        rows: [['Larkholm 0311', '3.1 m']],
      },
      { kind: 'step', number: '1', text: 'Look your kit through', notes: ['Something missing?'] },
    ],
    footer: 'Seven Lanterns',
    pageOf: (page, pages) => `page ${page} of ${pages}`,
  }

  it('says title, designer, shop, what is in the kit and how to begin, as text', async () => {
    const { pages, info } = await readPdf(await classSheetPdf(sheet, { paper: 'letter', createdAt }))
    expect(pages).toHaveLength(1)
    expect(pages[0]?.widthMm).toBeCloseTo(215.9, 1)
    const text = textOf(pages[0] as ReadPage)
    for (const word of ['Seven Lanterns', 'by Dorrit Quayle', 'Larkholm 0311', '3.1 m', 'Look your kit through', 'page 1 of 1'])
      expect(text).toContain(word)
    expect(info).toMatchObject({ Title: 'Seven Lanterns' })
  })
})
