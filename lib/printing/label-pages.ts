import type { Label } from '#lib/label/label'
import { type CodeLevel, labelCode } from './label-code'
import { type LabelRoom, labelFace, mostCodeWidthMm, placeCode, squareSideMm, typeSizes } from './label-face'
import { type LabelSheet, labelBoxes, type TapeHeightMm } from './label-sheets'
import type { Box, Mark, Measure, PrintedPage } from './mark'
import { paperSizesMm } from './page'

/** What labels are printed on. */
export type LabelStock =
  | { kind: 'sheet'; sheet: LabelSheet /** From 1: the first label of the first sheet that is still there. */; startAt: number }
  | { kind: 'tape'; heightMm: TapeHeightMm }

export type LabelPagesOptions = {
  stock: LabelStock
  /** Without a slash at its end; a label's path follows it. */
  base: string
  /** Draws the edge of every label of a sheet, for a trial on plain paper. */
  hasOutlines: boolean
}

export type LabelPages = {
  pages: PrintedPage[]
  /** Labels too small for a code that a phone can read. */
  withoutCode: number
}

/** Printers leave so much of a sheet white at its edges. */
const printerEdgeMm = 4.3
const longestOnTapeMm = 140
/** From here on squares are large enough to spend more of them on mending what is lost. */
const ampleSquareMm = 0.4

const least = (...lengths: number[]) => Math.min(...lengths)

/** Labels on pages: as many to a sheet as it has, or on tape each on a page of its own, as long as its words. */
export function labelPages(labels: readonly Label[], options: LabelPagesOptions, measure: Measure): LabelPages {
  return options.stock.kind === 'sheet'
    ? sheetPages(labels, options.stock, options, measure)
    : tapePages(labels, options.stock.heightMm, options.base, measure)
}

/** How many sheets so many labels take. */
export const sheetsFor = (count: number, { columns, rows }: LabelSheet, startAt: number): number =>
  count === 0 ? 0 : Math.ceil((startAt - 1 + count) / (columns * rows))

function sheetPages(
  labels: readonly Label[],
  { sheet, startAt }: Extract<LabelStock, { kind: 'sheet' }>,
  { base, hasOutlines }: LabelPagesOptions,
  measure: Measure,
): LabelPages {
  const { width: widthMm, height: heightMm } = paperSizesMm[sheet.paper]
  const boxes = labelBoxes(sheet)
  if (!Number.isInteger(startAt) || startAt < 1 || startAt > boxes.length) throw new RangeError(`labelPages: start at ${startAt}`)
  const rooms = boxes.map((outer): LabelRoom => ({ outer, inside: insideOf(outer, { widthMm, heightMm }) }))
  const [first] = rooms as [LabelRoom]
  const level = levelOf(labels, base, first, mostCodeWidthMm(first))
  const outlines = hasOutlines ? boxes.map((box): Mark => ({ kind: 'box', ...box, stroke: { ink: 'hair', width: 0.2 } })) : []
  const pages = Array.from({ length: sheetsFor(labels.length, sheet, startAt) }, () => ({
    widthMm,
    heightMm,
    marks: [...outlines],
  }))
  let withoutCode = 0
  for (const [at, label] of labels.entries()) {
    const cell = startAt - 1 + at
    const room = rooms[cell % rooms.length] as LabelRoom
    const { marks, hasCode } = labelFace(label, labelCode(base + label.path, level), room, measure)
    if (!hasCode) withoutCode += 1
    pages[Math.floor(cell / rooms.length)]?.marks.push(...marks)
  }
  return { pages, withoutCode }
}

/** What of a label may be printed on: not its very edge, since sheets slip in a printer, and not what the printer leaves white. */
function insideOf(outer: Box, paper: { widthMm: number; heightMm: number }): Box {
  const [x, y] = [outer.x + least(2, outer.width * 0.08), outer.y + least(2, outer.height * 0.1)]
  const [right, foot] = [2 * outer.x + outer.width - x, 2 * outer.y + outer.height - y]
  const [left, top] = [Math.max(x, printerEdgeMm), Math.max(y, printerEdgeMm)]
  return {
    x: left,
    y: top,
    width: least(right, paper.widthMm - printerEdgeMm) - left,
    height: least(foot, paper.heightMm - printerEdgeMm) - top,
  }
}

function tapePages(labels: readonly Label[], heightMm: TapeHeightMm, base: string, measure: Measure): LabelPages {
  const edgeMm = Math.max(1, heightMm * 0.08)
  const roomOf = (widthMm: number): LabelRoom => ({
    outer: { x: 0, y: 0, width: widthMm, height: heightMm },
    inside: { x: edgeMm, y: edgeMm, width: widthMm - 2 * edgeMm, height: heightMm - 2 * edgeMm },
  })
  const longest = roomOf(longestOnTapeMm)
  const level = levelOf(labels, base, longest, longestOnTapeMm)
  let withoutCode = 0
  const pages = labels.map((label): PrintedPage => {
    const code = labelCode(base + label.path, level)
    const wordsX = placeCode(code, longest, longestOnTapeMm)?.wordsX ?? edgeMm
    const { titleMm, noteMm } = typeSizes(longest.inside.height)
    const wordsMm = Math.max(
      measure({ text: label.title, size: titleMm, isBold: true }),
      noteMm > 0 ? measure({ text: label.note, size: noteMm }) : 0,
    )
    const widthMm = least(longestOnTapeMm, Math.max(wordsX + wordsMm + edgeMm + 0.5, heightMm))
    const { marks, hasCode } = labelFace(label, code, roomOf(widthMm), measure, longestOnTapeMm)
    if (!hasCode) withoutCode += 1
    return { widthMm, heightMm, marks }
  })
  return { pages, withoutCode }
}

/** The stronger code where its squares come out ample, else the one with fewer. Judged by the longest address, for all labels alike. */
function levelOf(labels: readonly Label[], base: string, room: LabelRoom, mostWidthMm: number): CodeLevel {
  const longest = labels.reduce((path, label) => (label.path.length > path.length ? label.path : path), '')
  if (longest === '') return 'M'
  return squareSideMm(labelCode(base + longest, 'M').squares, room, mostWidthMm) >= ampleSquareMm ? 'M' : 'L'
}
