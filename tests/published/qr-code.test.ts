// A whole symbol against the worked example of ISO/IEC 18004; paper against ISO 216 and ANSI/ASME Y14.1.
import { readFileSync } from 'node:fs'
import qrcode from 'qrcode'
import { describe, expect, it } from 'vitest'
import { mergeDark } from '../../lib/printing/label-code'
import { paperSizesMm } from '../../lib/printing/page'
import { readCodes } from '../unit/printing/read-code'

type Example = {
  text: string
  version: number
  level: 'M'
  maskPattern: 2
  formatBits: string
  dataCodewords: string[]
  errorCodewords: string[]
  rows: string[]
}
const example = JSON.parse(readFileSync(new URL('./data/qr-iso18004.json', import.meta.url), 'utf8')) as Example

/** A symbol's rows of ones and noughts, put together again from the rectangles that are printed of it. */
function rowsOf(runs: readonly number[], size: number): string[] {
  const dark = Array.from({ length: size }, () => Array.from({ length: size }, () => 0))
  for (let at = 0; at < runs.length; at += 4) {
    const [x, y, width, height] = runs.slice(at, at + 4) as [number, number, number, number]
    for (let row = y; row < y + height; row++) {
      for (let column = x; column < x + width; column++) (dark[row] as number[])[column] = 1 + (dark[row]?.[column] ?? 0)
    }
  }
  return dark.map((row) => row.join(''))
}

/** The codewords of a symbol of version 1 (21 squares), read in its zigzag from the lower right, the mask taken off. */
function codewordsOf(rows: readonly string[], mask: (row: number, column: number) => boolean): string[] {
  const size = 21
  const isFixed = (row: number, column: number) =>
    (row < 9 && (column < 9 || column > 12)) || (row > 12 && column < 9) || row === 6 || column === 6
  let bits = ''
  let isUpward = true
  for (let right = size - 1; right > 0; right -= 2) {
    if (right === 6) right -= 1
    for (let step = 0; step < size; step++) {
      const row = isUpward ? size - 1 - step : step
      for (const column of [right, right - 1]) {
        if (!isFixed(row, column)) bits += Number(rows[row]?.[column] === '1') ^ Number(mask(row, column))
      }
    }
    isUpward = !isUpward
  }
  return Array.from({ length: 26 }, (_, at) =>
    Number.parseInt(bits.slice(at * 8, at * 8 + 8), 2)
      .toString(16)
      .toUpperCase()
      .padStart(2, '0'),
  )
}

describe('the worked example of ISO/IEC 18004', () => {
  const { modules } = qrcode.create(example.text, {
    version: example.version,
    errorCorrectionLevel: example.level,
    maskPattern: example.maskPattern,
  })
  const runs = mergeDark(modules.data, modules.size)
  const rows = rowsOf(runs, modules.size)

  it('comes out square for square, of rectangles that do not overlap', () => {
    expect(rows).toEqual(example.rows)
  })

  it('holds its 26 codewords and its format bits', () => {
    expect(codewordsOf(rows, (_, column) => column % 3 === 0)).toEqual([...example.dataCodewords, ...example.errorCodewords])
    const eighth = rows[8] as string
    expect(
      eighth.slice(0, 6) + eighth.slice(7, 9) + rows[7]?.[8] + [5, 4, 3, 2, 1, 0].map((row) => rows[row]?.[8]).join(''),
    ).toBe(example.formatBits)
  })

  it('is read by another library', async () => {
    const quiet = 4
    const dark = Array.from({ length: runs.length / 4 }, (_, at) => {
      const [x, y, width, height] = runs.slice(at * 4, at * 4 + 4) as [number, number, number, number]
      return { x: x + quiet, y: y + quiet, width, height }
    })
    expect(await readCodes(dark, { width: 29, height: 29 }, 8)).toEqual([example.text])
  })
})

it('prints on A4 of ISO 216, 210 × 297 mm, and size A of ANSI/ASME Y14.1, 8½ × 11 in', () => {
  expect(paperSizesMm.a4).toEqual({ width: 210, height: 297 })
  expect(paperSizesMm.letter.width).toBeCloseTo(8.5 * 25.4, 9)
  expect(paperSizesMm.letter.height).toBeCloseTo(11 * 25.4, 9)
  // ISO 216: sides as 1 to root 2, a sixteenth of a square metre, to the nearest millimetre.
  const short = Math.round((1_000 / 4) * 2 ** -0.25)
  expect(paperSizesMm.a4).toEqual({ width: short, height: Math.round((1_000 / 4) * 2 ** 0.25) })
})
