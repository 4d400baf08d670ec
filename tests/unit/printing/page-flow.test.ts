import { describe, expect, it } from 'vitest'
import { blank, layBlocks } from '../../../lib/printing/blocks'
import { flowRows, type Row } from '../../../lib/printing/flow'
import type { Mark, Measure } from '../../../lib/printing/mark'
import { sheetOf } from '../../../lib/printing/page'
import { largestScale } from '../../../lib/printing/scale'

/** Every letter half as wide as it is high. */
const measure: Measure = ({ text, size }) => text.length * size * 0.5

describe('sheetOf', () => {
  it('knows both papers, upright and lying', () => {
    // ISO 216: A4 is 210 × 297 mm; Letter is 8½ × 11 in.
    expect(sheetOf('a4')).toMatchObject({ widthMm: 210, heightMm: 297 })
    expect(sheetOf('letter')).toMatchObject({ widthMm: 215.9, heightMm: 279.4 })
    expect(sheetOf('a4', true)).toMatchObject({ widthMm: 297, heightMm: 210, inside: { width: 273, height: 186 } })
  })
})

describe('largestScale', () => {
  it('takes the largest of the usual scales that fits', () => {
    const room = { width: 160, height: 200 }
    expect(largestScale({ width: 160, height: 200 }, room)).toBe(1)
    expect(largestScale({ width: 160.1, height: 10 }, room)).toBe(2)
    expect(largestScale({ width: 10, height: 401 }, room)).toBe(2.5)
    // A fat quarter, 457.2 × 685.8 mm: 3.43 as high as the room.
    expect(largestScale({ width: 457.2, height: 685.8 }, room)).toBe(4)
    expect(largestScale({ width: 1600, height: 10 }, room)).toBe(10)
  })

  it('goes on by tens beyond 1 : 20', () => {
    expect(largestScale({ width: 3200, height: 10 }, { width: 160, height: 200 })).toBe(20)
    expect(largestScale({ width: 3201, height: 10 }, { width: 160, height: 200 })).toBe(30)
    expect(largestScale({ width: 1, height: 200_000 }, { width: 160, height: 200 })).toBe(1000)
  })

  it('refuses where there is no room', () => {
    expect(() => largestScale({ width: 1, height: 1 }, { width: -3, height: 10 })).toThrow(RangeError)
    expect(() => largestScale({ width: 0, height: 0 }, { width: 10, height: 10 })).toThrow(RangeError)
  })
})

const row = (name: string, heightMm: number, more: Partial<Row> = {}): Row => ({
  heightMm,
  marks: [{ kind: 'words', x: 1, y: 2, text: name, size: 3 }],
  ...more,
})

const placed = (pages: readonly Mark[][]) =>
  pages.map((marks) => marks.flatMap((mark) => (mark.kind === 'words' ? [[mark.text, mark.x, mark.y]] : [])))

describe('flowRows', () => {
  const frameAt = () => ({ x: 10, y: 20, width: 100, height: 50 })

  it('places rows below one another, then on the next page', () => {
    expect(placed(flowRows([row('a', 20), row('b', 30), row('c', 10)], frameAt))).toEqual([
      [
        ['a', 11, 22],
        ['b', 11, 42],
      ],
      [['c', 11, 22]],
    ])
  })

  it('keeps a heading with what follows it', () => {
    const pages = flowRows([row('a', 30), row('heading', 10, { isKeptWithNext: true }), row('b', 15)], frameAt)
    expect(placed(pages).map((page) => page.map(([name]) => name))).toEqual([['a'], ['heading', 'b']])
  })

  it('begins a page of a table with its head', () => {
    const head = row('head', 5, { isKeptWithNext: true })
    const pages = flowRows([head, row('a', 40, { head }), row('b', 40, { head })], frameAt)
    expect(placed(pages)).toEqual([
      [
        ['head', 11, 22],
        ['a', 11, 27],
      ],
      [
        ['head', 11, 22],
        ['b', 11, 27],
      ],
    ])
  })

  it('leaves a first frame empty that is too low for anything', () => {
    const pages = flowRows([row('a', 20)], (page) => ({ x: 0, y: 0, width: 100, height: page === 0 ? -3 : 50 }))
    expect(placed(pages).map((page) => page.map(([name]) => name))).toEqual([[], ['a']])
  })

  it('breaks what is kept together when it is longer than a page, and ends', () => {
    const bound = Array.from({ length: 12 }, (_, at) => row(String(at), 10, { isKeptWithNext: true }))
    const pages = flowRows(bound, frameAt)
    expect(placed(pages).flatMap((page) => page.map(([name]) => name))).toEqual(bound.map((_, at) => String(at)))
    expect(pages.every((page) => page.length <= 5)).toBe(true)
  })

  it('has one page where there is nothing', () => {
    expect(flowRows([], frameAt)).toEqual([[]])
  })
})

describe('layBlocks', () => {
  const widthMm = 60
  const hostile = ['W'.repeat(3_000), 'a '.repeat(2_000), '\u202eabc\u0000\ud800\n\n\tdef', '']

  it('lets no text out of its width, however long', () => {
    const rows = layBlocks(
      hostile.flatMap((text) => [
        { kind: 'heading', text },
        { kind: 'paragraph', text },
        { kind: 'step', number: '12', text, notes: [text, text] },
        {
          kind: 'table',
          columns: [
            { head: text, share: 1 },
            { head: 'Size', share: 2, isRight: true },
            { head: text, share: 1 },
          ],
          rows: [
            [text, text, blank],
            ['', text, text],
          ],
        },
      ]),
      widthMm,
      measure,
    )
    for (const { marks, heightMm } of rows)
      for (const mark of marks) {
        if (mark.kind !== 'words') continue
        const wide = measure(mark)
        const from = mark.anchor === 'end' ? mark.x - wide : mark.anchor === 'middle' ? mark.x - wide / 2 : mark.x
        expect(from).toBeGreaterThanOrEqual(-1e-9)
        expect(from + wide).toBeLessThanOrEqual(widthMm + 1e-9)
        expect(mark.y).toBeLessThanOrEqual(heightMm)
        expect(mark.text).toMatch(/^[^\p{Cc}\p{Cs}\u202a-\u202e]*$/u)
      }
  })

  it('leaves a line to write on', () => {
    const rows = layBlocks(
      [
        {
          kind: 'table',
          columns: [
            { head: '', share: 1 },
            { head: 'Label', share: 1 },
          ],
          rows: [['Offcut 1', blank]],
        },
      ],
      63,
      measure,
    )
    // Two columns of 30 mm, 3 mm apart.
    expect(rows[1]?.marks.find(({ kind }) => kind === 'line')).toMatchObject({ x1: 33, x2: 63 })
    expect(rows[1]?.heightMm).toBeGreaterThanOrEqual(8)
  })
})
