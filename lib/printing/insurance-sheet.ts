import { type Block, layBlocks } from './blocks'
import { shorten } from './fit-words'
import { flowRows, type Row } from './flow'
import { footMm, pageHead, withFeet } from './head-and-foot'
import { type Mark, type Measure, type PrintedPage, shift } from './mark'
import { above, below, type Paper, sheetOf } from './page'

/** A dear thing with its picture: the first line says what it is. */
export type PicturedThing = {
  lines: readonly string[] /** A name of a picture; null where there is none. */
  picture: string | null
}

/** An insurance list in words: totals, dear things with their pictures, and everything line by line. */
export type InsuranceSheet = {
  title: string
  lines: readonly string[]
  before: readonly Block[]
  picturedHead: string
  /** In the frame of one that has no picture. */
  noPicture: string
  pictured: readonly PicturedThing[]
  after: readonly Block[]
  footer: string
  pageOf: (page: number, pages: number) => string
}

/** The frame a picture is fitted into. */
export const pictureMm = { width: 44, height: 33 } as const
const gapMm = 5
const lineMm = 4.8

/** An insurance list on paper, upright. */
export function insurancePages(sheet: InsuranceSheet, paper: Paper, measure: Measure): PrintedPage[] {
  const page = sheetOf(paper)
  const inside = above(page.inside, footMm)
  const head = pageHead(sheet.title, sheet.lines, inside.width, measure)
  const pictured =
    sheet.pictured.length === 0
      ? []
      : [
          ...layBlocks([{ kind: 'heading', text: sheet.picturedHead }], inside.width, measure),
          ...sheet.pictured.map((thing) => layThing(thing, sheet.noPicture, inside.width, measure)),
        ]
  const rows = [...layBlocks(sheet.before, inside.width, measure), ...pictured, ...layBlocks(sheet.after, inside.width, measure)]
  const flowed = flowRows(rows, (at) => (at === 0 ? below(inside, head.heightMm) : inside))
  const pages = flowed.map((marks, at) => ({
    widthMm: page.widthMm,
    heightMm: page.heightMm,
    marks: [...(at === 0 ? head.marks.map((mark) => shift(mark, inside.x, inside.y)) : []), ...marks],
  }))
  return withFeet(pages, { text: sheet.footer, pageOf: sheet.pageOf }, measure)
}

function layThing({ lines, picture }: PicturedThing, noPicture: string, widthMm: number, measure: Measure): Row {
  const x = pictureMm.width + gapMm
  const ruleY = pictureMm.height + 2.5
  return {
    heightMm: pictureMm.height + 5,
    marks: [
      ...(picture === null
        ? emptyFrame(noPicture, measure)
        : [{ kind: 'picture', name: picture, x: 0, y: 0, ...pictureMm } satisfies Mark]),
      ...lines.slice(0, 6).map((text, at): Mark => {
        const style = { size: at === 0 ? 3.8 : 3.3, isBold: at === 0 }
        return { kind: 'words', x, y: 3.6 + at * lineMm, text: shorten(text, widthMm - x, style, measure), ...style }
      }),
      { kind: 'line', x1: 0, y1: ruleY, x2: widthMm, y2: ruleY, stroke: { ink: 'hair', width: 0.15 } },
    ],
  }
}

function emptyFrame(words: string, measure: Measure): Mark[] {
  const { width, height } = pictureMm
  const text = shorten(words, width - 4, { size: 2.7 }, measure)
  return [
    { kind: 'box', x: 0, y: 0, width, height, stroke: { ink: 'edge', width: 0.2, dashes: [1.5, 1.5] } },
    { kind: 'words', x: width / 2, y: height / 2 + 1, text, size: 2.7, anchor: 'middle', ink: 'ink-2' },
  ]
}
