import { type Block, layBlocks } from './blocks'
import { flowRows } from './flow'
import { footMm, pageHead, withFeet } from './head-and-foot'
import { type Measure, type PrintedPage, shift } from './mark'
import { above, below, type Paper, sheetOf } from './page'

/**
 * The sheet that lies in every kit, in words: what is stitched, what is in the kit, how to begin. The chart and its key are not on it: those
 * are the bought chart's.
 */
export type ClassSheet = {
  title: string
  /** Under the title: the designer, the class and the shop. */
  lines: readonly string[]
  blocks: readonly Block[]
  footer: string
  pageOf: (page: number, pages: number) => string
}

/** A class sheet on paper, upright. */
export function classSheetPages(sheet: ClassSheet, paper: Paper, measure: Measure): PrintedPage[] {
  const page = sheetOf(paper)
  const inside = above(page.inside, footMm)
  const head = pageHead(sheet.title, sheet.lines, inside.width, measure)
  const flowed = flowRows(layBlocks(sheet.blocks, inside.width, measure), (at) =>
    at === 0 ? below(inside, head.heightMm) : inside,
  )
  const pages = flowed.map((marks, at) => ({
    widthMm: page.widthMm,
    heightMm: page.heightMm,
    marks: [...(at === 0 ? head.marks.map((mark) => shift(mark, inside.x, inside.y)) : []), ...marks],
  }))
  return withFeet(pages, { text: sheet.footer, pageOf: sheet.pageOf }, measure)
}
