import { ok, type Result, refused } from '#lib/result'
import type { Box } from './mark'
import { type Paper, paperSizesMm } from './page'

/** Labels on a sheet of paper, all alike, in rows. Lengths in millimetres; the gaps are between labels. */
export type LabelSheet = {
  paper: Paper
  columns: number
  rows: number
  widthMm: number
  heightMm: number
  leftMm: number
  topMm: number
  gapXMm: number
  gapYMm: number
}

export type NamedLabelSheet = LabelSheet & { key: string; name: string }

const mmPerInch = 25.4
const inMm = (mm: number): number => Math.round(mm * 10 + 1e-6) / 10
const paperNames: Record<Paper, string> = { a4: 'A4', letter: 'Letter' }

/** A sheet whose labels lie in the middle of it, as they do on nearly all; its figures are its name. */
function middled(
  paper: Paper,
  [columns, rows]: readonly [number, number],
  [width, height]: readonly [number, number],
  { gapX = 0, unit = 'mm', size = `${width} × ${height}` }: { gapX?: number; unit?: 'mm' | 'in'; size?: string } = {},
): NamedLabelSheet {
  const mmPerUnit = unit === 'in' ? mmPerInch : 1
  const [widthMm, heightMm, gapXMm] = [width * mmPerUnit, height * mmPerUnit, gapX * mmPerUnit]
  const sides = paperSizesMm[paper]
  return {
    key: `${paper}-${columns}x${rows}`,
    name: `${paperNames[paper]}, ${columns} × ${rows}, ${size} ${unit}${unit === 'in' ? ` (${inMm(widthMm)} × ${inMm(heightMm)} mm)` : ''}`,
    ...{ paper, columns, rows, widthMm, heightMm, gapXMm, gapYMm: 0 },
    leftMm: (sides.width - columns * widthMm - (columns - 1) * gapXMm) / 2,
    topMm: (sides.height - rows * heightMm) / 2,
  }
}

/** Sizes of label sheets in common use, by their figures alone. */
export const labelSheets: readonly NamedLabelSheet[] = [
  middled('a4', [2, 4], [99.1, 67.7], { gapX: 2.5 }),
  middled('a4', [2, 7], [99.1, 38.1], { gapX: 2.5 }),
  middled('a4', [3, 7], [63.5, 38.1], { gapX: 2.5 }),
  middled('a4', [3, 8], [70, 37]),
  middled('a4', [4, 12], [45.7, 21.2], { gapX: 2.5 }),
  middled('a4', [5, 13], [38.1, 21.2], { gapX: 2.5 }),
  middled('a4', [7, 27], [25.4, 10], { gapX: 2.5 }),
  middled('letter', [2, 3], [4, 10 / 3], { gapX: 3 / 16, unit: 'in', size: '4 × 3⅓' }),
  middled('letter', [2, 5], [4, 2], { gapX: 3 / 16, unit: 'in' }),
  middled('letter', [2, 10], [4, 1], { gapX: 3 / 16, unit: 'in' }),
  middled('letter', [3, 10], [2.625, 1], { gapX: 1 / 8, unit: 'in', size: '2⅝ × 1' }),
  middled('letter', [4, 20], [1.75, 0.5], { gapX: 0.3, unit: 'in', size: '1¾ × ½' }),
]

/** Heights of continuous label tape; a label on it is as long as its words. */
export const tapeHeightsMm = [9, 12, 18, 24, 36] as const
export type TapeHeightMm = (typeof tapeHeightsMm)[number]

export const mostColumns = 20
export const mostRows = 60
/** Smaller ones take no words one can read. */
export const leastLabelMm = { width: 10, height: 6 } as const

export type LabelSheetRefusal = { kind: 'label-too-small' } | { kind: 'off-the-paper'; side: 'right' | 'foot'; byMm: number }

/** What is lost to rounding figures that were given in inches. */
const slackMm = 0.05

/** Labels that were typed in: whether one can write on them, and whether they all lie on the paper. */
export function checkLabelSheet(sheet: LabelSheet): Result<LabelSheet, LabelSheetRefusal> {
  const { paper, columns, rows, widthMm, heightMm, leftMm, topMm, gapXMm, gapYMm } = sheet
  for (const count of [columns, rows]) {
    if (!Number.isInteger(count) || count < 1) throw new RangeError(`checkLabelSheet: ${count} labels beside one another`)
  }
  if (widthMm < leastLabelMm.width || heightMm < leastLabelMm.height) return refused({ kind: 'label-too-small' })
  const beyondRight = leftMm + columns * widthMm + (columns - 1) * gapXMm - paperSizesMm[paper].width
  if (beyondRight > slackMm) return refused({ kind: 'off-the-paper', side: 'right', byMm: beyondRight })
  const beyondFoot = topMm + rows * heightMm + (rows - 1) * gapYMm - paperSizesMm[paper].height
  if (beyondFoot > slackMm) return refused({ kind: 'off-the-paper', side: 'foot', byMm: beyondFoot })
  return ok(sheet)
}

/** The labels of one sheet, row by row. */
export function labelBoxes({ columns, rows, widthMm, heightMm, leftMm, topMm, gapXMm, gapYMm }: LabelSheet): Box[] {
  return Array.from({ length: columns * rows }, (_, at) => ({
    x: leftMm + (at % columns) * (widthMm + gapXMm),
    y: topMm + Math.floor(at / columns) * (heightMm + gapYMm),
    width: widthMm,
    height: heightMm,
  }))
}
