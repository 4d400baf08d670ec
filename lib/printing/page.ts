import type { Box } from './mark'

/** ISO 216 A4; ANSI/ASME Y14.1 size A, 8½ × 11 in. */
export const paperSizesMm = { a4: { width: 210, height: 297 }, letter: { width: 215.9, height: 279.4 } } as const
export type Paper = keyof typeof paperSizesMm

/** What most printers leave white at the edge of a sheet, and a little more. */
export const marginMm = 12

export type Sheet = { widthMm: number; heightMm: number /** Within the margins. */; inside: Box }

/** A sheet of paper, upright or lying. */
export function sheetOf(paper: Paper, isLying = false): Sheet {
  const { width, height } = paperSizesMm[paper]
  const [widthMm, heightMm] = isLying ? [height, width] : [width, height]
  return {
    widthMm,
    heightMm,
    inside: { x: marginMm, y: marginMm, width: widthMm - 2 * marginMm, height: heightMm - 2 * marginMm },
  }
}

/** A box without its uppermost or lowest part. */
export const below = (box: Box, taken: number): Box => ({ ...box, y: box.y + taken, height: box.height - taken })
export const above = (box: Box, taken: number): Box => ({ ...box, height: box.height - taken })
