import { type Box, type Mark, shift } from './mark'

/** A strip of a printed list that is not broken, drawn from its own upper left corner. */
export type Row = {
  heightMm: number
  marks: readonly Mark[]
  /** Not parted from what follows it, as a heading. */
  isKeptWithNext?: boolean
  /** Drawn once more above this row when it begins a page, as a table's head. */
  head?: Row
}

/**
 * Rows one below the other, in the first frame, then in the next. A row, with all that is kept with it, begins a new frame when it does
 * not fit into what is left of this one. What does not fit a whole frame is broken; a single row higher than that runs over its foot.
 *
 * @param frameAt  The frame on each page, from 0; the first may be too low for anything.
 * @returns        What is drawn on each page, placed; at least one, which may be empty.
 */
export function flowRows(rows: readonly Row[], frameAt: (page: number) => Box): Mark[][] {
  const pages: Mark[][] = [[]]
  let frame = frameAt(0)
  let usedMm = 0
  const hasRoom = (heightMm: number) => usedMm + heightMm <= frame.height + 1e-6
  const place = (row: Row) => {
    pages.at(-1)?.push(...row.marks.map((mark) => shift(mark, frame.x, frame.y + usedMm)))
    usedMm += row.heightMm
  }
  for (const [at, row] of rows.entries()) {
    const isBound = rows[at - 1]?.isKeptWithNext === true
    const isFresh = usedMm === 0 && pages.length > 1
    if (!isFresh && !hasRoom(isBound ? row.heightMm : heightTogether(rows, at))) {
      frame = frameAt(pages.length)
      pages.push([])
      usedMm = 0
      if (row.head) place(row.head)
    }
    place(row)
  }
  return pages
}

/** How high a row is with all that is kept with it. */
function heightTogether(rows: readonly Row[], from: number): number {
  let sumMm = 0
  for (const row of rows.slice(from)) {
    sumMm += row.heightMm
    if (!row.isKeptWithNext) break
  }
  return sumMm
}
