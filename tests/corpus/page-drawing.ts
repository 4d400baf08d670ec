import { once } from 'node:events'
import { createRequire } from 'node:module'
import path from 'node:path'
import PDFDocument from 'pdfkit'
import type { TruthLine } from './truth'

const require = createRequire(import.meta.url)
const folderOf = (name: string): string => path.dirname(require.resolve(`${name}/package.json`))
const noto = (style: string): string => path.join(folderOf('@expo-google-fonts/noto-sans'), style, `NotoSans_${style}.ttf`)
const liberation = (style: string): string => path.join(folderOf('pdfjs-dist'), 'standard_fonts', `LiberationSans-${style}.ttf`)

/** Fonts that npm brings: two families to embed, and those that every reader of PDF has. `symbols` has the shapes that keys are set in. */
export const fonts = {
  helvetica: 'Helvetica',
  helveticaBold: 'Helvetica-Bold',
  times: 'Times-Roman',
  timesBold: 'Times-Bold',
  courier: 'Courier',
  courierBold: 'Courier-Bold',
  noto: noto('400Regular'),
  notoBold: noto('700Bold'),
  notoLight: noto('300Light'),
  notoSemiBold: noto('600SemiBold'),
  notoItalic: noto('400Regular_Italic'),
  liberation: liberation('Regular'),
  liberationBold: liberation('Bold'),
  liberationItalic: liberation('Italic'),
  symbols: liberation('Regular'),
} as const
export type Font = (typeof fonts)[keyof typeof fonts]

/** Symbols that `fonts.symbols` has as characters. */
export const glyphSymbols = [
  '●',
  '■',
  '▲',
  '▼',
  '◊',
  '○',
  '□',
  '♠',
  '♣',
  '♥',
  '♦',
  '♪',
  '×',
  '+',
  '/',
  '=',
  '#',
  '%',
  '►',
  '◄',
  'A',
  'B',
  'H',
  'K',
  'S',
  'T',
  'X',
  'Z',
  '2',
  '4',
  '7',
]

/** A drawn shape, which no text layer has. */
export const shapes = ['disc', 'ring', 'square', 'frame', 'triangle', 'diamond', 'cross', 'slash', 'bar', 'star'] as const
export type Shape = (typeof shapes)[number]

export type Cell = string | { shape: Shape } | { swatch: string } | { symbol: string }
export type Column = { head: string | null; width: number; align?: 'left' | 'right' | 'center'; font?: Font }

/** A4, and A4 lying down, in points. */
export const pageSizes = { upright: [595.28, 841.89], lying: [841.89, 595.28], small: [420, 595] } as const

/**
 * A PDF being drawn from the upper left corner, in points; `y` is where the next thing goes. The clock has no part in it, so that the bytes are
 * the same each time.
 */
export class Page {
  readonly document: PDFKit.PDFDocument
  private readonly chunks: Uint8Array[] = []
  y = 0
  /** Drawn at the top and foot of every page. */
  onPage: ((page: Page, number: number) => void) | null = null
  private number = 0

  constructor(
    readonly size: keyof typeof pageSizes = 'upright',
    readonly margin = 48,
  ) {
    this.document = new PDFDocument({ autoFirstPage: false, info: { CreationDate: new Date(0), Title: '' }, bufferPages: false })
    this.document.on('data', (chunk: Uint8Array) => this.chunks.push(chunk))
  }

  get width(): number {
    return pageSizes[this.size][0]
  }
  get height(): number {
    return pageSizes[this.size][1]
  }
  get bottom(): number {
    return this.height - this.margin
  }

  addPage(): void {
    this.document.addPage({ size: [...pageSizes[this.size]], margin: 0 })
    this.number += 1
    this.y = this.margin
    this.onPage?.(this, this.number)
  }

  /** One line, where it is told; moves nothing. */
  put(
    text: string,
    x: number,
    y: number,
    {
      font,
      size,
      color = '#111',
      width,
      align = 'left',
    }: { font: Font; size: number; color?: string; width?: number; align?: 'left' | 'right' | 'center' },
  ): void {
    this.document.font(font).fontSize(size).fillColor(color)
    const free = width === undefined ? 0 : width - this.document.widthOfString(text)
    const from = x + (align === 'right' ? free : align === 'center' ? free / 2 : 0)
    this.document.text(text, from, y, { lineBreak: false })
  }

  /** Lines one below the other, words wrapped to the width. */
  paragraph(
    text: string,
    x: number,
    width: number,
    { font, size, leading = 1.3, color }: { font: Font; size: number; leading?: number; color?: string },
  ): void {
    for (const line of this.wrap(text, width, font, size)) {
      this.put(line, x, this.y, { font, size, ...(color === undefined ? {} : { color }) })
      this.y += size * leading
    }
  }

  wrap(text: string, width: number, font: Font, size: number): string[] {
    this.document.font(font).fontSize(size)
    const lines: string[] = []
    let line = ''
    for (const word of text.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`
      if (line !== '' && this.document.widthOfString(longer) > width) {
        lines.push(line)
        line = word
      } else line = longer
    }
    return [...lines, line]
  }

  shape(shape: Shape, x: number, y: number, size: number): void {
    const { document } = this
    const [cx, cy, r] = [x + size / 2, y + size / 2, size / 2]
    document
      .fillColor('#111')
      .strokeColor('#111')
      .lineWidth(size / 9)
    if (shape === 'disc') document.circle(cx, cy, r).fill()
    else if (shape === 'ring') document.circle(cx, cy, r * 0.9).stroke()
    else if (shape === 'square') document.rect(x, y, size, size).fill()
    else if (shape === 'frame') document.rect(x, y, size, size).stroke()
    else if (shape === 'triangle') document.polygon([cx, y], [x + size, y + size], [x, y + size]).fill()
    else if (shape === 'diamond') document.polygon([cx, y], [x + size, cy], [cx, y + size], [x, cy]).fill()
    else if (shape === 'cross')
      document
        .moveTo(x, y)
        .lineTo(x + size, y + size)
        .moveTo(x + size, y)
        .lineTo(x, y + size)
        .stroke()
    else if (shape === 'slash')
      document
        .moveTo(x, y + size)
        .lineTo(x + size, y)
        .stroke()
    else if (shape === 'bar') document.rect(x, cy - size / 8, size, size / 4).fill()
    else
      document
        .polygon(
          [cx, y],
          [cx + r * 0.3, cy - r * 0.3],
          [x + size, cy],
          [cx + r * 0.3, cy + r * 0.3],
          [cx, y + size],
          [cx - r * 0.3, cy + r * 0.3],
          [x, cy],
          [cx - r * 0.3, cy - r * 0.3],
        )
        .fill()
  }

  /**
   * A table at `x`, from `y` down. Cells wrap in their column and stand at the top of their row. At the foot of the page it goes on on the next,
   * its head again above.
   */
  table(
    columns: readonly Column[],
    rows: readonly (readonly Cell[])[],
    options: {
      x: number
      font: Font
      headFont?: Font
      size: number
      rules: 'all' | 'rows' | 'none' | 'head'
      zebra?: boolean
      pad?: number
      /** How far down a row may reach. */
      until?: number
      symbolSize?: number
    },
  ): void {
    const { x, font, headFont = font, size, rules, zebra = false, pad = 2.5, until = this.bottom, symbolSize = size } = options
    const total = columns.reduce((sum, { width }) => sum + width, 0)
    const lineHeight = size * 1.22
    const drawRow = (cells: readonly Cell[], rowFont: Font | null, isHead: boolean, isShaded: boolean) => {
      const wrapped = cells.map((cell, at) => {
        const column = columns[at] as Column
        return typeof cell === 'string' ? this.wrap(cell, column.width - 2 * pad, rowFont ?? column.font ?? font, size) : null
      })
      const height = Math.max(1, ...wrapped.map((lines) => lines?.length ?? 1)) * lineHeight + 2 * pad
      if (!isHead && this.y + height > until) {
        this.addPage()
        if (hasHead) drawRow(heads, headFont, true, false)
      }
      if (isShaded) this.document.rect(x, this.y, total, height).fill('#e9e6df')
      let left = x
      for (const [at, cell] of cells.entries()) {
        const column = columns[at] as Column
        if (typeof cell === 'string') {
          for (const [lineAt, line] of (wrapped[at] as string[]).entries()) {
            if (line !== '') {
              this.put(line, left + pad, this.y + pad + lineAt * lineHeight, {
                font: rowFont ?? column.font ?? font,
                size,
                width: column.width - 2 * pad,
                align: column.align ?? 'left',
              })
            }
          }
        } else if ('symbol' in cell) this.put(cell.symbol, left + pad, this.y + pad, { font: fonts.symbols, size: symbolSize })
        else if ('shape' in cell) this.shape(cell.shape, left + pad, this.y + pad + size * 0.15, size * 0.8)
        else this.document.rect(left + pad, this.y + pad, column.width - 2 * pad, size).fill(cell.swatch)
        left += column.width
      }
      this.document.strokeColor('#555').lineWidth(0.6)
      if (rules === 'all') {
        let edge = x
        for (const { width } of columns) {
          this.document.rect(edge, this.y, width, height).stroke()
          edge += width
        }
      } else if (rules === 'rows' || (rules === 'head' && isHead)) {
        this.document
          .moveTo(x, this.y + height)
          .lineTo(x + total, this.y + height)
          .stroke()
      }
      this.y += height
    }
    const heads = columns.map(({ head }) => head ?? '')
    const hasHead = columns.some(({ head }) => head !== null)
    if (hasHead) drawRow(heads, headFont, true, false)
    for (const [at, row] of rows.entries()) drawRow(row, null, false, zebra && at % 2 === 1)
  }

  /** A piece of chart: squares with a symbol in each, numbers along its edge. */
  grid(
    x: number,
    y: number,
    across: number,
    down: number,
    square: number,
    symbolAt: (column: number, row: number) => Cell | null,
  ): void {
    for (let row = 0; row <= down; row++)
      this.document
        .moveTo(x, y + row * square)
        .lineTo(x + across * square, y + row * square)
        .lineWidth(row % 10 === 0 ? 0.9 : 0.25)
        .strokeColor('#444')
        .stroke()
    for (let column = 0; column <= across; column++)
      this.document
        .moveTo(x + column * square, y)
        .lineTo(x + column * square, y + down * square)
        .lineWidth(column % 10 === 0 ? 0.9 : 0.25)
        .strokeColor('#444')
        .stroke()
    for (let column = 10; column <= across; column += 10)
      this.put(String(column), x + column * square - 4, y - 9, { font: fonts.helvetica, size: 6 })
    for (let row = 10; row <= down; row += 10)
      this.put(String(row), x - 12, y + row * square - 4, { font: fonts.helvetica, size: 6 })
    for (let row = 0; row < down; row++) {
      for (let column = 0; column < across; column++) {
        const cell = symbolAt(column, row)
        if (cell === null || typeof cell === 'string') continue
        if ('symbol' in cell)
          this.put(cell.symbol, x + column * square + 1, y + row * square + 0.5, { font: fonts.symbols, size: square * 0.8 })
        else if ('shape' in cell)
          this.shape(cell.shape, x + column * square + square * 0.2, y + row * square + square * 0.2, square * 0.6)
      }
    }
  }

  /** @returns the file */
  async bytes(): Promise<Uint8Array> {
    const ended = once(this.document, 'end')
    this.document.end()
    await ended
    return new Uint8Array(Buffer.concat(this.chunks))
  }
}

/** The line with a drawing for a symbol, which is no text. */
export const drawn = (line: TruthLine): TruthLine => ({ ...line, symbol: null, isDrawn: true })

/** What a photograph shows of a symbol that is neither letter nor digit is a drawing too. */
export const photographed = (line: TruthLine): TruthLine =>
  line.symbol !== null && !/^[\p{L}\p{N}]$/u.test(line.symbol) ? { ...line, isDrawn: true } : line
