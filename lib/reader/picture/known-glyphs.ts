import type { PageBox } from '#lib/chart/page-text/page-text'
import type { Grey } from './grey'

/** A glyph drawn into a square of so many cells a side, each the share of ink in it, whatever the glyph's own size and shape. */
export const cellsAcross = 20

export type GlyphShape = { cells: Float32Array /** Width over height. */; aspect: number }
export type KnownGlyph = GlyphShape & { text: string }

/** What a glyph was taken for: how alike the two are (1 the same), how much less alike the next best is, and its own small or capital form. */
export type Likeness = { text: string; alike: number; margin: number; twinMargin: number }

/** The shape of what stands in a box of a picture, darker than `inkShade` counted as ink in full. */
export function shapeIn(grey: Grey, box: PageBox, inkShade: number): GlyphShape {
  const [left, top] = [Math.floor(box.left), Math.floor(box.top)]
  const [wide, high] = [Math.max(1, Math.ceil(box.right) - left), Math.max(1, Math.ceil(box.bottom) - top)]
  const cells = new Float32Array(cellsAcross * cellsAcross)
  const counts = new Float32Array(cellsAcross * cellsAcross)
  // Finer than either the picture or the cells, so that every cell is looked at.
  const steps = (size: number) => Math.max(cellsAcross * 2, size)
  for (let row = 0; row < steps(high); row++) {
    const v = (row + 0.5) / steps(high)
    const y = Math.min(grey.height - 1, top + Math.floor(v * high))
    for (let column = 0; column < steps(wide); column++) {
      const u = (column + 0.5) / steps(wide)
      const x = Math.min(grey.width - 1, left + Math.floor(u * wide))
      const cell = Math.floor(v * cellsAcross) * cellsAcross + Math.floor(u * cellsAcross)
      const light = grey.data[y * grey.width + x] as number
      cells[cell] = (cells[cell] as number) + Math.min(1, Math.max(0, (255 - light) / (255 - inkShade * 0.6)))
      counts[cell] = (counts[cell] as number) + 1
    }
  }
  for (const [cell, count] of counts.entries()) cells[cell] = (cells[cell] as number) / Math.max(1, count)
  return { cells: softened(cells), aspect: wide / high }
}

/** Each cell with its neighbours, so that a stroke half a cell off is nearly the same. */
function softened(cells: Float32Array): Float32Array {
  const soft = new Float32Array(cells.length)
  for (let y = 0; y < cellsAcross; y++) {
    for (let x = 0; x < cellsAcross; x++) {
      let sum = 0
      let weight = 0
      for (let down = -1; down <= 1; down++) {
        for (let over = -1; over <= 1; over++) {
          const [row, column] = [y + down, x + over]
          if (row < 0 || column < 0 || row >= cellsAcross || column >= cellsAcross) continue
          const share = down === 0 && over === 0 ? 2 : 1
          sum += share * (cells[row * cellsAcross + column] as number)
          weight += share
        }
      }
      soft[y * cellsAcross + x] = sum / weight
    }
  }
  return soft
}

/** How alike two shapes are: the correlation of their cells, less where one is broader than the other. */
function alikeness(one: GlyphShape, other: GlyphShape): number {
  let [meanOne, meanOther] = [0, 0]
  const count = one.cells.length
  for (let at = 0; at < count; at++) {
    meanOne += one.cells[at] as number
    meanOther += other.cells[at] as number
  }
  meanOne /= count
  meanOther /= count
  let [both, squaresOne, squaresOther, apart] = [0, 0, 0, 0]
  for (let at = 0; at < count; at++) {
    const [here, there] = [(one.cells[at] as number) - meanOne, (other.cells[at] as number) - meanOther]
    both += here * there
    squaresOne += here * here
    squaresOther += there * there
    apart += Math.abs((one.cells[at] as number) - (other.cells[at] as number))
  }
  const flat = count * 0.002
  // A filled square has next to nothing to correlate: ink everywhere is like ink everywhere.
  const alike = squaresOne < flat || squaresOther < flat ? 1 - (2 * apart) / count : both / Math.sqrt(squaresOne * squaresOther)
  return alike - 0.25 * Math.abs(Math.log(one.aspect / other.aspect))
}

/** What a shape is most like; small and capital letters, and an O and a nought, are no rivals of one another. */
export function mostLike(shape: GlyphShape, known: readonly KnownGlyph[]): Likeness | null {
  const best = new Map<string, number>()
  for (const glyph of known) best.set(glyph.text, Math.max(best.get(glyph.text) ?? -1, alikeness(shape, glyph)))
  const ranked = [...best].sort((a, b) => b[1] - a[1])
  const [first] = ranked
  if (!first) return null
  const [text, alike] = first
  const isTwin = (other: string) => rivalKey(other) === rivalKey(text)
  const marginTo = (found: [string, number] | undefined) => alike - (found?.[1] ?? -1)
  return {
    text,
    alike,
    margin: marginTo(ranked.find(([other]) => !isTwin(other))),
    twinMargin: marginTo(ranked.find(([other]) => other !== text && isTwin(other))),
  }
}

const rivalKey = (text: string): string =>
  text === '0' || text === '○' ? 'o' : text === '×' ? 'x' : text.toLocaleLowerCase('en')
