import { describe, expect, it } from 'vitest'
import type { Label } from '../../../lib/label/label'
import type { LabelStock } from '../../../lib/printing/label-pages'
import { type LabelSheet, labelSheets } from '../../../lib/printing/label-sheets'
import { labelsPdf } from '../../../lib/printing/pdf/labels-pdf'
import { readCodeIn } from './read-code'
import { type ReadPage, readPdf } from './read-pdf'

const base = 'http://192.168.1.20:4300'
const idOf = (at: number) => `0192f0c1-7a3e-7c55-9d1b-${String(at).padStart(12, '0')}`

const aLabel = (at: number, over: Partial<Label> = {}): Label => ({
  ...{
    noun: 'place',
    thingId: idOf(at),
    title: `T2.1-${at}`,
    note: 'Kitting room › Cabinet T › T2.1',
    path: `/places/${idOf(at)}`,
  },
  ...over,
})
const labelsOf = (count: number) => Array.from({ length: count }, (_, at) => aLabel(at + 1))

const sheetNamed = (name: string): LabelSheet => {
  const sheet = labelSheets.find((each) => each.name === name)
  if (!sheet) throw new Error(`no sheet ${name}`)
  return sheet
}

async function printed(labels: readonly Label[], stock: LabelStock, hasOutlines = false): Promise<ReadPage[]> {
  const pdf = await labelsPdf(labels, { stock, base, hasOutlines, title: 'Labels', createdAt: new Date('2026-03-03T10:00:00Z') })
  return (await readPdf(pdf)).pages
}

/** What a person with a good ruler may find, in millimetres. */
const trueTo = 0.1
const isNear = (one: number, other: number) => Math.abs(one - other) <= trueTo

// By the figures of each sheet, worked out by hand: first label's corner, last label's corner, size.
const figures = [
  { name: 'A4, 3 × 8, 70 × 37 mm', count: 24, first: [0, 0.5], last: [140, 259.5], size: [70, 37], paper: [210, 297] },
  {
    name: 'A4, 5 × 13, 38.1 × 21.2 mm',
    count: 65,
    first: [4.75, 10.7],
    last: [167.15, 265.1],
    size: [38.1, 21.2],
    paper: [210, 297],
  },
  {
    name: 'A4, 3 × 7, 63.5 × 38.1 mm',
    count: 21,
    first: [7.25, 15.15],
    last: [139.25, 243.75],
    size: [63.5, 38.1],
    paper: [210, 297],
  },
  // 3/16 in and ½ in from the corner; steps of 2¾ in and 1 in
  {
    name: 'Letter, 3 × 10, 2⅝ × 1 in (66.7 × 25.4 mm)',
    count: 30,
    first: [4.7625, 12.7],
    last: [144.4625, 241.3],
    size: [66.675, 25.4],
    paper: [215.9, 279.4],
  },
] as const

describe('labels on a sheet', () => {
  it.each(figures)('lie where the labels of $name lie, to a tenth of a millimetre', async (figure) => {
    const pages = await printed(labelsOf(2), { kind: 'sheet', sheet: sheetNamed(figure.name), startAt: 1 }, true)
    const [page] = pages as [ReadPage]
    expect(pages).toHaveLength(1)
    expect([page.widthMm, page.heightMm].every((side, at) => isNear(side, figure.paper[at] as number))).toBe(true)
    expect(page.boxes).toHaveLength(figure.count)
    for (const { width, height } of page.boxes) {
      expect([isNear(width, figure.size[0]), isNear(height, figure.size[1])]).toEqual([true, true])
    }
    const [first, last] = [page.boxes[0], page.boxes.at(-1)] as [ReadPage['boxes'][0], ReadPage['boxes'][0]]
    expect([isNear(first.x, figure.first[0]), isNear(first.y, figure.first[1])]).toEqual([true, true])
    expect([isNear(last.x, figure.last[0]), isNear(last.y, figure.last[1])]).toEqual([true, true])
  })

  it('draw no edges unless asked, begin at the label one says, and go on over the next sheet', async () => {
    const sheet = sheetNamed('A4, 3 × 8, 70 × 37 mm')
    const pages = await printed(labelsOf(20), { kind: 'sheet', sheet, startAt: 8 })
    expect(pages).toHaveLength(2)
    expect(pages.flatMap(({ boxes }) => boxes)).toEqual([])
    const at = (page: number, text: string) => pages[page]?.words.find((word) => word.text === text)
    // The eighth is the second of the third row.
    const first = at(0, 'T2.1-1')
    expect(first && first.x > 70 && first.x < 140 && first.y > 74.5 && first.y < 111.5).toBe(true)
    const eighteenth = at(1, 'T2.1-18')
    expect(eighteenth && eighteenth.x < 70 && eighteenth.y < 37.5).toBe(true)
    await expect(printed(labelsOf(1), { kind: 'sheet', sheet, startAt: 25 })).rejects.toThrow(RangeError)
  })

  it.each(['A4, 3 × 8, 70 × 37 mm', 'A4, 5 × 13, 38.1 × 21.2 mm', 'Letter, 3 × 10, 2⅝ × 1 in (66.7 × 25.4 mm)'])(
    'carry a code that another program reads as the plain link, on %s',
    async (name) => {
      const sheet = sheetNamed(name)
      const labels = labelsOf(sheet.columns * sheet.rows)
      const [page] = (await printed(labels, { kind: 'sheet', sheet, startAt: 1 })) as [ReadPage]
      const [outlined] = (await printed(labels, { kind: 'sheet', sheet, startAt: 1 }, true)) as [ReadPage]
      for (const at of [0, 1, sheet.columns, labels.length - 1]) {
        const box = outlined.boxes[at] as ReadPage['boxes'][0]
        expect(await readCodeIn(page, box)).toEqual([`${base}/places/${idOf(at + 1)}`])
      }
    },
    60_000,
  )

  it('leave four squares of white round each code, within its label', async () => {
    const sheet = sheetNamed('A4, 5 × 13, 38.1 × 21.2 mm')
    const [page] = (await printed(labelsOf(1), { kind: 'sheet', sheet, startAt: 14 })) as [ReadPage]
    const left = Math.min(...page.fills.map(({ x }) => x))
    const right = Math.max(...page.fills.map(({ x, width }) => x + width))
    const top = Math.min(...page.fills.map(({ y }) => y))
    const foot = Math.max(...page.fills.map(({ y, height }) => y + height))
    // The upper side of the finder in the corner is seven squares long.
    const corner = page.fills.find(({ x, y }) => isNear(x, left) && isNear(y, top))
    const square = (corner?.width ?? 0) / 7
    // The fourteenth is the fourth of the third row; from label to label it is 38.1 and 2.5 mm.
    const label = { x: 4.75 + 3 * 40.6, y: 10.7 + 2 * 21.2 }
    expect(square).toBeGreaterThan(0.28)
    expect(left - label.x).toBeGreaterThanOrEqual(4 * square - 0.01)
    expect(top - label.y).toBeGreaterThanOrEqual(4 * square - 0.01)
    expect(label.y + 21.2 - foot).toBeGreaterThanOrEqual(4 * square - 0.01)
    const words = page.words.filter(({ text }) => text.trim() !== '')
    expect(Math.min(...words.map(({ x }) => x)) - right).toBeGreaterThanOrEqual(4 * square - 0.01)
  })
})

describe('the words of a label', () => {
  const long = 'The Weighhouse and the Ropewalk Sampler with Verse for a Pantry, in two sizes, from Market Day at Oxmarsh'
  const unbroken = 'Hollinstaithealphabetsandharbourbandsampler'.repeat(3)

  it.each([
    ['A4, 3 × 8, 70 × 37 mm', long],
    ['A4, 5 × 13, 38.1 × 21.2 mm', long],
    ['A4, 5 × 13, 38.1 × 21.2 mm', unbroken],
    ['A4, 7 × 27, 25.4 × 10 mm', long],
    ['Letter, 4 × 20, 1¾ × ½ in (44.5 × 12.7 mm)', unbroken],
  ])('wrap or shrink and stay within their label: %s', async (name, title) => {
    const sheet = sheetNamed(name)
    const labels = labelsOf(sheet.columns * sheet.rows).map((label) => ({ ...label, title, note: long }))
    const [page] = (await printed(labels, { kind: 'sheet', sheet, startAt: 1 }, true)) as [ReadPage]
    expect(page.words.length).toBeGreaterThanOrEqual(labels.length)
    for (const { x, y, width } of page.words) {
      const label = page.boxes.find((box) => x >= box.x && x < box.x + box.width && y >= box.y && y < box.y + box.height)
      if (!label) throw new Error(`words at ${x}, ${y} are on no label`)
      expect(x + width).toBeLessThanOrEqual(label.x + label.width)
    }
  })

  it('are as large as fits: a short one fills its line, and no word of a longer one is broken', async () => {
    const sheet = sheetNamed('A4, 3 × 8, 70 × 37 mm')
    const labels = [aLabel(1, { title: 'K-07', note: '' }), aLabel(2, { title: 'Kettle at Wend Cross', note: 'Corvin Ashdale' })]
    const [page] = (await printed(labels, { kind: 'sheet', sheet, startAt: 5 })) as [ReadPage]
    const short = page.words.find(({ text }) => text === 'K-07')
    expect(short?.width).toBeGreaterThan(25)
    const words = page.words.flatMap(({ text }) => text.split(' '))
    for (const word of ['Kettle', 'at', 'Wend', 'Cross', 'Corvin', 'Ashdale']) expect(words).toContain(word)
  })
})

describe('labels on tape', () => {
  it.each([12, 18, 24, 36] as const)('are %i mm high, as long as their words, each with its code', async (heightMm) => {
    const labels = [
      aLabel(1, { title: 'K-07', note: '' }),
      aLabel(2, { title: 'Cabinet T, drawers 1 to 12', note: 'Kitting room' }),
    ]
    const pages = await printed(labels, { kind: 'tape', heightMm })
    expect(pages).toHaveLength(2)
    const [short, long] = pages as [ReadPage, ReadPage]
    expect(isNear(short.heightMm, heightMm)).toBe(true)
    expect(long.widthMm).toBeGreaterThan(short.widthMm)
    for (const [at, page] of pages.entries()) {
      const whole = { x: 0, y: 0, width: page.widthMm, height: page.heightMm }
      expect(await readCodeIn(page, whole)).toEqual([`${base}/places/${idOf(at + 1)}`])
      for (const { x, width } of page.words) expect(x + width).toBeLessThanOrEqual(page.widthMm)
    }
  })

  it('of 9 mm carry words alone: a code would be too fine to read', async () => {
    const [page] = (await printed([aLabel(1)], { kind: 'tape', heightMm: 9 })) as [ReadPage]
    expect(page.fills).toEqual([])
    expect(page.words.map(({ text }) => text)).toContain('T2.1-1')
  })
})
