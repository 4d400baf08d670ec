import { shorten, wrapWords } from './fit-words'
import { flowRows, type Row } from './flow'
import { footMm, withFeet } from './head-and-foot'
import type { Box, Mark, Measure, PrintedPage, Stroke } from './mark'
import { above, type Paper, sheetOf } from './page'

/** One kit's list: what goes in, each with a box to tick, and room for who packed and who checked. */
export type PackingSlip = {
  /** "Bag 7". */
  bag: string
  /** "Spare: no chart until it is sold"; null for the others. */
  mark: string | null
  lines: readonly { name: string; amount: string; note: string }[]
}

export type PackingSlips = {
  title: string
  /** Under the title on every slip: the class, the shop, the day. */
  under: string
  slips: readonly PackingSlip[]
  footer: string
  words: {
    line: string
    amount: string
    note: string
    /** Before a line to write on, in this order. */
    signed: readonly string[]
    caution: string
    pageOf: (page: number, pages: number) => string
  }
}

/** Side of a box to tick, large enough for a pencil. */
export const tickBoxMm = 5
const body = { size: 3.3 } as const
const small = { size: 2.7 } as const
const lineMm = body.size * 1.38
/** White on either side of the dashed line two slips on a page are cut apart at. */
const cutGapMm = 7

/**
 * A slip for each kit, two to a page where both fit, else each from a page of its own on. A slip longer than a page goes on over the next
 * with its head above it.
 */
export function packingSlipPages(sheet: PackingSlips, paper: Paper, measure: Measure): PrintedPage[] {
  const page = sheetOf(paper)
  const inside = above(page.inside, footMm)
  const laid = sheet.slips.map((slip) => laySlip(sheet, slip, inside.width, measure))
  const half = (inside.height - 2 * cutGapMm) / 2
  const areHalves = laid.every((rows) => heightOf(rows) <= half)
  const pages = areHalves ? pairs(laid, inside, half) : laid.flatMap((rows) => flowRows(rows, () => inside))
  const { widthMm, heightMm } = page
  return withFeet(
    pages.map((marks) => ({ widthMm, heightMm, marks })),
    { text: sheet.footer, pageOf: sheet.words.pageOf },
    measure,
  )
}

const heightOf = (rows: readonly Row[]): number => rows.reduce((sum, { heightMm }) => sum + heightMm, 0)

function pairs(laid: readonly (readonly Row[])[], inside: Box, half: number): Mark[][] {
  const pages: Mark[][] = []
  const y = inside.y + half + cutGapMm
  const stroke: Stroke = { ink: 'edge', width: 0.2, dashes: [2, 2] }
  const apart: Mark = { kind: 'line', x1: inside.x, y1: y, x2: inside.x + inside.width, y2: y, stroke }
  for (let at = 0; at < laid.length; at += 2) {
    const two = laid.slice(at, at + 2)
    const slips = two.flatMap(
      (rows, turn) => flowRows(rows, () => ({ ...inside, y: inside.y + turn * (half + 2 * cutGapMm) }))[0] ?? [],
    )
    pages.push(two.length === 2 ? [...slips, apart] : slips)
  }
  return pages
}

function laySlip({ title, under, words }: PackingSlips, slip: PackingSlip, widthMm: number, measure: Measure): Row[] {
  const columns = columnsOf(widthMm)
  const head = headOf(title, under, slip, widthMm, measure)
  const rows = slip.lines.map((line): Row => {
    const name = wrapWords(line.name, columns.nameMm, body, measure, 3)
    const note = shorten(line.note, columns.noteMm, small, measure)
    const heightMm = Math.max(tickBoxMm + 2.4, name.length * lineMm + 3)
    const first = (heightMm - name.length * lineMm) / 2 + body.size * 1.04
    return {
      heightMm,
      head,
      marks: [
        {
          ...{ kind: 'box', x: 0, y: (heightMm - tickBoxMm) / 2, width: tickBoxMm, height: tickBoxMm },
          stroke: { ink: 'ink', width: 0.35 },
        },
        ...name.map((text, at): Mark => ({ kind: 'words', x: columns.nameX, y: first + at * lineMm, text, ...body })),
        {
          ...{ kind: 'words', x: columns.amountRight, y: first, anchor: 'end', size: body.size, isBold: true },
          text: shorten(line.amount, columns.amountMm, { ...body, isBold: true }, measure),
        },
        { kind: 'words', x: columns.noteX, y: first, text: note, ...small, ink: 'ink-2' },
        { kind: 'line', x1: 0, y1: heightMm, x2: widthMm, y2: heightMm, stroke: { ink: 'hair', width: 0.15 } },
      ],
    }
  })
  const columnHead: Row = {
    heightMm: 5,
    isKeptWithNext: true,
    marks: [
      { kind: 'words', x: columns.nameX, y: 3, text: words.line, ...small, ink: 'ink-2' },
      { kind: 'words', x: columns.amountRight, y: 3, text: words.amount, ...small, ink: 'ink-2', anchor: 'end' },
      { kind: 'words', x: columns.noteX, y: 3, text: words.note, ...small, ink: 'ink-2' },
    ],
  }
  return [head, columnHead, ...rows, footOf(words, widthMm, measure)]
}

function columnsOf(widthMm: number) {
  const nameX = tickBoxMm + 3
  const noteMm = widthMm * 0.24
  const amountMm = widthMm * 0.16
  const noteX = widthMm - noteMm
  const amountRight = noteX - 4
  return { nameX, nameMm: amountRight - amountMm - 3 - nameX, amountMm, amountRight, noteX, noteMm }
}

function headOf(title: string, under: string, { bag, mark }: PackingSlip, widthMm: number, measure: Measure): Row {
  const bagStyle = { size: 6.2, isBold: true }
  const bagMm = measure({ text: bag, ...bagStyle })
  const room = widthMm - bagMm - 6
  const lines = [under, mark ?? ''].filter(Boolean)
  const heightMm = 8.4 + lines.length * 4.4
  return {
    heightMm,
    isKeptWithNext: true,
    marks: [
      { kind: 'words', x: 0, y: 5.4, text: shorten(title, room, { size: 4.6, isBold: true }, measure), size: 4.6, isBold: true },
      { kind: 'words', x: widthMm, y: 5.8, text: bag, anchor: 'end', ...bagStyle },
      ...lines.map((line, at): Mark => {
        const style = { size: 3.1, isBold: line === mark }
        return { kind: 'words', x: 0, y: 10 + at * 4.4, text: shorten(line, widthMm, style, measure), ...style }
      }),
      { kind: 'line', x1: 0, y1: heightMm - 0.6, x2: widthMm, y2: heightMm - 0.6, stroke: { ink: 'ink', width: 0.4 } },
    ],
  }
}

function footOf({ signed, caution }: PackingSlips['words'], widthMm: number, measure: Measure): Row {
  const each = widthMm / Math.max(1, signed.length)
  const said = wrapWords(caution, widthMm, small, measure, 3)
  const signY = 9
  return {
    heightMm: signY + 3 + said.length * small.size * 1.38 + 1,
    marks: [
      ...signed.flatMap((text, at): Mark[] => {
        const x = at * each
        const from = x + measure({ text, ...body }) + 1.5
        return [
          { kind: 'words', x, y: signY - 0.8, text, ...body },
          {
            kind: 'line',
            x1: from,
            y1: signY,
            x2: Math.max(from + 4, x + each - 4),
            y2: signY,
            stroke: { ink: 'edge', width: 0.25 },
          },
        ]
      }),
      ...said.map(
        (text, at): Mark => ({ kind: 'words', x: 0, y: signY + 4.6 + at * small.size * 1.38, text, ...small, ink: 'ink-2' }),
      ),
    ],
  }
}
