import type { Piece } from './pieces'
import { type Row, runsOf } from './rows'

/** A table's column: from where to where its words reach. */
export type Column = { left: number; right: number }

/** Rows that belong together, and the columns their words stand in; a single column where they form no table. */
export type Stretch = { rows: Row[]; columns: Column[] }

/**
 * A block's rows in stretches of one table each, or of no table. A table goes on over headings and wrapped names between its rows, and over
 * the end of a page where the next begins with the same columns.
 *
 * @param before  The columns of the table that came last, to be taken up again where this block's fit them.
 */
export function stretchesOf(rows: readonly Row[], height: number, before: readonly Column[] | null): Stretch[] {
  const parts = apart(rows, height).map((part) => ({ rows: part, columns: columnsOf(part, height) }))
  const stretches: Stretch[] = []
  let last: readonly Column[] | null = before
  for (const { rows: part, columns } of parts) {
    const shared = last && columns.length > 1 ? sharedColumns(last, columns, height) : null
    const own = shared ?? columns
    if (shared) {
      // What went before in the same columns gets the wider ones too.
      for (const stretch of stretches) if (stretch.columns === last) stretch.columns = shared
    }
    stretches.push({ rows: part, columns: own })
    if (own.length > 1) last = own
  }
  return stretches
}

/** Rows parted where the paper is left clear for more than two and a half of their usual distance. */
function apart(rows: readonly Row[], height: number): Row[][] {
  const steps = rows.slice(1).map((row, at) => row.centre - (rows[at] as Row).centre)
  const usual = [...steps].sort((a, b) => a - b)[steps.length >> 1] ?? height * 1.2
  const parts: Row[][] = []
  for (const [at, row] of rows.entries()) {
    if (at === 0 || (steps[at - 1] as number) > Math.max(usual * 2.5, height * 2.2)) parts.push([row])
    else (parts.at(-1) as Row[]).push(row)
  }
  return parts
}

/**
 * Columns by what stays clear: strips that next to no row with several cells crosses. With many rows a strip may be narrower than a gap
 * between cells, since words of a sentence do not end at one place row after row.
 */
function columnsOf(rows: readonly Row[], height: number): Column[] {
  const severed = rows.map((row) => runsOf(row, height)).filter((runs) => runs.length >= 2)
  const whole = reachOf(rows)
  if (severed.length < 2) return [whole]
  const tabled = withoutHeadings(severed)
  const step = height / 8
  const bins = Math.min(20_000, Math.ceil((whole.right - whole.left) / step) + 1)
  const covered = new Array<number>(bins).fill(0)
  for (const runs of tabled) {
    let from = -1
    for (const { box } of runs.flat()) {
      const first = Math.max(from + 1, Math.floor((box.left - whole.left) / step))
      const last = Math.min(bins - 1, Math.ceil((box.right - whole.left) / step) - 1)
      for (let bin = first; bin <= last; bin++) covered[bin] = (covered[bin] as number) + 1
      from = Math.max(from, last)
    }
  }
  const most = Math.floor(tabled.length * 0.08)
  const leastBins = Math.ceil((tabled.length >= 6 ? 0.45 : 0.8) * 8)
  const columns: Column[] = []
  let start: number | null = null
  let clear = 0
  for (let bin = 0; bin <= bins; bin++) {
    const isClear = bin === bins || (covered[bin] as number) <= most
    if (!isClear) {
      if (start === null || clear >= leastBins) {
        if (start !== null) columns.push({ left: whole.left + start * step, right: whole.left + (bin - clear) * step })
        start = bin
      }
      clear = 0
    } else clear++
  }
  if (start !== null) columns.push({ left: whole.left + start * step, right: whole.left + (bins + 1 - clear) * step })
  return columns.length > 0 ? withEmptyOnes(columns, tabled, height) : [whole]
}

/** Without rows that have far fewer runs than most: sentences and headings with a wide gap in them, as long as enough rows are left. */
function withoutHeadings(rows: readonly Piece[][][]): readonly Piece[][][] {
  const usual = rows.map(({ length }) => length).sort((a, b) => a - b)[rows.length >> 1] as number
  const full = rows.filter(({ length }) => length > usual - 2)
  return usual >= 4 && full.length >= 4 && full.length >= rows.length * 0.6 ? full : rows
}

/** A header may head a column that holds drawings, and no words: what stands clear of all others in the first row has a column of its own. */
function withEmptyOnes(columns: readonly Column[], tabled: readonly Piece[][][], height: number): Column[] {
  const [first = []] = tabled
  if (first.length <= columns.length) return [...columns]
  const headed = first.map((run) => ({ left: (run[0] as Piece).box.left, right: Math.max(...run.map(({ box }) => box.right)) }))
  const alone = headed.filter(({ left, right }) =>
    columns.every((column) => left >= column.right + height * 0.2 || right <= column.left - height * 0.2),
  )
  return [...columns, ...alone].sort((a, b) => a.left - b.left)
}

function reachOf(rows: readonly Row[]): Column {
  let left = Number.POSITIVE_INFINITY
  let right = Number.NEGATIVE_INFINITY
  for (const { pieces } of rows) {
    for (const { box } of pieces) {
      left = Math.min(left, box.left)
      right = Math.max(right, box.right)
    }
  }
  return { left, right }
}

/** The columns of two tables as one set, or null where they are laid out differently: every column of one lies in one of the other's. */
function sharedColumns(one: readonly Column[], other: readonly Column[], height: number): Column[] | null {
  const [more, fewer] = one.length >= other.length ? [one, other] : [other, one]
  const joined = more.map((column) => ({ ...column }))
  const slack = height * 0.3
  const taken = new Set<number>()
  for (const { left, right } of fewer) {
    const at = more.findIndex((column) => Math.min(column.right, right) - Math.max(column.left, left) > 0)
    if (at < 0 || taken.has(at)) return null
    taken.add(at)
    const [before, column, after] = [more[at - 1], joined[at] as Column, more[at + 1]]
    if (before && left < before.right + slack) return null
    if (after && right > after.left - slack) return null
    // They begin or end at one place, or share their middle.
    const ends = [left - column.left, right - column.right, (left + right - column.left - column.right) / 2]
    if (Math.min(...ends.map(Math.abs)) > height) return null
    column.left = Math.min(column.left, left)
    column.right = Math.max(column.right, right)
  }
  return joined
}

/** A row's words by the columns they stand in; null for a line that goes across them: a heading, a sentence. */
export function placedIn(row: Row, columns: readonly Column[], height: number): Piece[][] | null {
  const whole = runsOf(row, height)
  const parted = splitAtColumns(whole, columns, height)
  const runs = whole.length > 1 || parted.every((run) => isWithin(run, columns, height)) ? parted : whole
  const cells: Piece[][] = columns.map(() => [])
  if (columns.length === 1) return [runs.flat()]
  if (runs.length === 1) {
    const [run] = runs as [Piece[]]
    const [left, right] = [(run[0] as Piece).box.left, Math.max(...run.map(({ box }) => box.right))]
    // A heading may be as wide as it likes where it stands alone; within one column it is that column's.
    const at = columns.findIndex((column, index) => {
      const next = columns[index + 1]
      if (left < column.left - height * 0.5) return false
      if (right <= (next ? next.left : column.right + height * 2)) return true
      // One long word may stand out of its column.
      return (
        index > 0 &&
        run.length === 1 &&
        left < column.left + height * 0.3 &&
        next !== undefined &&
        right < next.left + height * 1.5
      )
    })
    if (at < 0) return null
    cells[at] = run
    return cells
  }
  // As many runs as columns stand in them one by one, however far a header's words reach.
  if (runs.length === columns.length) return runs
  let least = 0
  for (const [at, run] of runs.entries()) {
    const left = (run[0] as Piece).box.left
    const right = Math.max(...run.map(({ box }) => box.right))
    // Each of the runs that follow wants a column of its own, unless there are more of them than columns.
    const last = runs.length > columns.length ? columns.length : columns.length - (runs.length - 1 - at)
    let best = least
    let bestOverlap = Number.NEGATIVE_INFINITY
    for (let column = least; column < Math.max(last, least + 1) && column < columns.length; column++) {
      const { left: from, right: to } = columns[column] as Column
      const overlap = Math.min(right, to) - Math.max(left, from)
      if (overlap > bestOverlap) {
        best = column
        bestOverlap = overlap
      }
    }
    cells[best] = [...(cells[best] as Piece[]), ...run]
    least = Math.min(columns.length - 1, runs.length > columns.length ? best : best + 1)
  }
  return cells
}

/** Whether a run of words keeps to one column. */
function isWithin(run: readonly Piece[], columns: readonly Column[], height: number): boolean {
  const [left, right] = [(run[0] as Piece).box.left, Math.max(...run.map(({ box }) => box.right))]
  return columns.some((column) => left >= column.left - height * 0.3 && right <= column.right + height * 0.3)
}

/** Runs parted further where a column begins within them. */
function splitAtColumns(runs: Piece[][], columns: readonly Column[], height: number): Piece[][] {
  const slack = height * 0.2
  return runs.flatMap((run) => {
    const parts: Piece[][] = [[]]
    for (const piece of run) {
      const part = parts.at(-1) as Piece[]
      const before = part.at(-1)
      const isSplit =
        before !== undefined &&
        columns.some((column, at) => {
          const previous = columns[at - 1]
          if (!previous) return false
          return (
            before.box.right <= column.left - slack &&
            piece.box.left >= previous.right + slack &&
            piece.box.left >= column.left - slack
          )
        })
      if (isSplit) parts.push([piece])
      else part.push(piece)
    }
    return parts
  })
}
