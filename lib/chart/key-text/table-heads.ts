import { type Column, isEitherHead } from './columns'
import { unknownMaker } from './headings'
import type { Lesson } from './lesson'
import type { Looked, LookedLines } from './looked-lines'
import { lineTokens } from './tokens'

/** What the columns of a table hold, where their heads do not say so plainly: by what stands below them, and by what a person said. */
export class TableHeads {
  constructor(
    private readonly lines: LookedLines,
    private readonly lessons: readonly Lesson[],
  ) {}

  taughtColumns(columns: (Column | null)[], at: number): (Column | null)[] {
    const changed = [...columns]
    for (const lesson of this.lessons) {
      if (lesson.kind !== 'column' || lesson.toLine <= at || lesson.column >= changed.length) continue
      const isBelow =
        lesson.fromLine > at && this.lines.looked.slice(at + 1, lesson.fromLine).every((other) => other.header === null)
      if (!isBelow && !(lesson.fromLine <= at)) continue
      const before = changed[lesson.column]
      changed[lesson.column] =
        lesson.means === 'nothing' ? { role: 'note' } : { ...(before?.maker ? { maker: before.maker } : {}), role: lesson.means }
    }
    return changed
  }

  /** "Shade" heads names in one key and numbers in another: what stands below it tells. */
  headsByContent(header: readonly (Column | null)[], at: number): (Column | null)[] {
    const { line } = this.lines.looked[at] as Looked
    return header.map((column, index) => {
      const head = line.cells[index]?.text.trim() ?? ''
      if (column?.maker || (column?.role !== 'code' && column?.role !== 'name')) return column
      const cells = this.cellsBelow(index, header.length, at)
      const most = (test: (cell: string) => boolean) => cells.length >= 3 && cells.filter(test).length >= cells.length * 0.75
      const isThere = (role: Column['role']) => header.some((other, place) => place !== index && other?.role === role)
      if (
        column.role === 'code' &&
        isEitherHead(head) &&
        !isThere('name') &&
        most((cell) => /\p{L}{3}/u.test(cell) && !/\d/.test(cell))
      )
        return { role: 'name' }
      if (column.role === 'name' && !isThere('code') && most((cell) => /^\p{L}{0,3}-?\d{1,6}\p{L}?$/u.test(cell))) {
        const named = /^(\p{Lu}\p{Ll}{3,}(?: \p{Lu}\p{Ll}{2,})?) (?:shades?|colou?rs?)$/u.exec(head)
        return named ? { role: 'code', maker: named[1] as string, threadLine: null } : { role: 'code' }
      }
      return column
    })
  }

  private cellsBelow(index: number, width: number, at: number): string[] {
    const cells: string[] = []
    for (let next = at + 1; next < Math.min(this.lines.looked.length, at + 30); next++) {
      const { line, isBlank } = this.lines.looked[next] as Looked
      const cell = line.cells[index]?.text.trim() ?? ''
      if (!isBlank && line.cells.length === width && cell !== '') cells.push(cell)
    }
    return cells
  }

  /** A column whose head says nothing known, but that holds codes: it is headed by a maker nobody knows. */
  unknownColumn(index: number, text: string, header: readonly (Column | null)[], at: number): Column | null {
    if (text.trim() === '' || header.some((column) => column?.role === 'code' && !column.maker))
      return text.trim() === '' && index === 0 && !header.some((column) => column?.role === 'symbol') ? { role: 'symbol' } : null
    let [codes, rows] = [0, 0]
    for (let next = at + 1; next < Math.min(this.lines.looked.length, at + 9); next++) {
      const { line, isBlank } = this.lines.looked[next] as Looked
      if (isBlank || line.cells.length !== header.length) continue
      rows += 1
      const cell = line.cells[index]?.text.trim() ?? ''
      if (/^\p{L}{0,3}-?\d{2,6}\p{L}?\b/u.test(cell) || this.lines.known.byCode.has(cell)) codes += 1
    }
    const words = text.replace(/\b(no|nr|number|code)s?\.?$/iu, '').trim()
    const isNamed = /^\p{Lu}/u.test(words) && words.split(' ').length <= 3
    if (rows > 0 && isNamed && codes >= rows * 0.6 && !header.some((column) => column?.role === 'code')) {
      // "Brindlequay Stranded Silk" is a maker and a line of theirs.
      const found = unknownMaker(lineTokens({ page: 0, cells: [{ text: words, certainty: 1, box: null }] }))
      return { role: 'code', maker: found?.maker ?? words, threadLine: found?.threadLine ?? null }
    }
    return this.columnByContent(index, header, at)
  }

  /** What stands below a head that says nothing known: names, signs or counts, where no other column holds them. */
  private columnByContent(index: number, header: readonly (Column | null)[], at: number): Column | null {
    const cells = this.cellsBelow(index, header.length, at)
    if (cells.length < 2) return null
    const most = (test: (cell: string) => boolean) => cells.filter(test).length >= cells.length * 0.75
    const isThere = (role: Column['role']) => header.some((column) => column?.role === role)
    if (!isThere('symbol') && most((cell) => [...cell].length <= 2 && !/^\d+$/.test(cell))) return { role: 'symbol' }
    if (
      !isThere('name') &&
      most((cell) => /\p{L}{3}/u.test(cell) && !/\d/.test(cell)) &&
      new Set(cells).size > cells.length * 0.6
    )
      return { role: 'name' }
    const figures = cells.map((cell) => Number(cell.replace(/[,.]/g, ''))).filter((value) => Number.isFinite(value))
    if (!isThere('stitches') && figures.length >= cells.length * 0.75 && Math.max(...figures) > 40)
      return { role: 'stitches', stitch: null }
    return null
  }

  /** Columns headed by makers are palettes to choose from, unless most rows have a thread in one of them only. */
  palettesOf(columns: readonly (Column | null)[], codes: readonly number[], at: number): number[][] {
    if (codes.length < 2) return [[]]
    let [both, rows] = [0, 0]
    for (let next = at + 1; next < Math.min(this.lines.looked.length, at + 40); next++) {
      const { line, isBlank, header } = this.lines.looked[next] as Looked
      if (header) break
      if (isBlank || line.cells.length < 2) continue
      if (line.cells.length !== columns.length) continue
      rows += 1
      if (codes.filter((index) => /[\p{L}\p{N}]/u.test(line.cells[index]?.text ?? '')).length > 1) both += 1
    }
    if (rows > 0 && both < rows * 0.5) return [[...codes]]
    // What stands between one maker's column and the next goes with the first, where each has the like.
    return codes.map((index, order) => {
      const end = codes[order + 1] ?? columns.length
      const own = [index]
      for (let column = index + 1; column < end; column++) {
        const role = columns[column]?.role
        const isRepeated = codes.every((other, place) => {
          const stop = codes[place + 1] ?? columns.length
          return columns.slice(other + 1, stop).some((candidate) => candidate?.role === role)
        })
        if (isRepeated) own.push(column)
      }
      return own
    })
  }
}
