import type { SourceLine } from '../page-text/page-text'

/** Rows that are held against one another at once. */
const longestRun = 500
/** Keys are not set in more columns than this. */
const mostBlocks = 4

type Kind = 'short' | 'code' | 'words' | 'mixed' | 'other'

/** What most cells of a column are; null where no kind has three of four. */
function kindOf(cells: readonly string[]): Kind | null {
  const filled = cells.filter((cell) => cell !== '')
  if (filled.length < 2) return null
  const most = (test: (cell: string) => boolean) => filled.filter(test).length >= filled.length * 0.75
  if (most((cell) => [...cell].length === 1)) return 'short'
  if (most((cell) => /^\p{L}{0,3}[-.]?\d{1,6}\p{L}?\d?$/u.test(cell))) return 'code'
  if (most((cell) => /\p{L}{2}/u.test(cell) && !/\d/u.test(cell))) return 'words'
  if (most((cell) => /\p{L}{2}/u.test(cell) && /\d/u.test(cell))) return 'mixed'
  return 'other'
}

/**
 * For each line, how many lines of a key stand in it side by side: a run of lines whose second half of cells holds, column for column, the
 * same kinds of things as the first. 1 where nothing of the kind is seen. Linear in the cells.
 */
export function blocksSideBySide(lines: readonly SourceLine[]): number[] {
  const found = lines.map(() => 1)
  for (let from = 0; from < lines.length; ) {
    const width = lines[from]?.cells.length ?? 0
    let to = from + 1
    while (to < lines.length && to - from < longestRun && lines[to]?.cells.length === width) to += 1
    const run = lines.slice(from, to)
    const blocks = width >= 4 && width <= 24 && run.length >= 2 ? blocksOf(run, width) : 1
    if (blocks > 1) {
      for (let at = from; at < to; at++) found[at] = blocks
      // The last line of an odd number has its first cells only.
      const last = lines[to]?.cells.length ?? 0
      if (last > 0 && last < width && last % (width / blocks) === 0) found[to] = (last * blocks) / width
    }
    from = to
  }
  return found
}

function blocksOf(run: readonly SourceLine[], width: number): number {
  const kinds = Array.from({ length: width }, (_, column) => kindOf(run.map(({ cells }) => cells[column]?.text.trim() ?? '')))
  for (let blocks = 2; blocks <= mostBlocks; blocks++) {
    const own = width / blocks
    if (!Number.isInteger(own) || own < 2) continue
    const first = kinds.slice(0, own)
    const isNaming = first.includes('mixed') || (first.includes('words') && (first.includes('code') || first.includes('short')))
    if (!isNaming || first.includes(null)) continue
    if (kinds.every((kind, column) => kind === first[column % own])) return blocks
  }
  return 1
}

/** The lines that stand in one, each with its own cells; those without any are left out. */
export function partsOf(line: SourceLine, blocks: number): SourceLine[] {
  const own = Math.ceil(line.cells.length / blocks)
  return Array.from({ length: blocks }, (_, block) => ({
    ...line,
    cells: line.cells.slice(block * own, (block + 1) * own),
  })).filter(({ cells }) => cells.some(({ text }) => text.trim() !== ''))
}
