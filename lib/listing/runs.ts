/** A heading that stands before the row with index `first`, until the next one. */
export type Run = {
  /** With it, links lead to the heading. */
  id?: string
  title: string
  note: string
  first: number
  /** Leads to what the heading is of; `of` is heard with the label, not seen. */
  link?: { href: string; label: string; of: string }
}

/** One line of a list as it is drawn: a heading, or the row of that index. */
export type Line = { kind: 'head'; run: Run } | { kind: 'row'; row: number }

/** Lines of a list of `total` rows with headings between them, without laying them all out. O(log runs) for a line. */
export class RunLines {
  readonly count: number

  /** @param runs  by `first`, rising; more than one before the same row is allowed */
  constructor(
    readonly runs: readonly Run[],
    readonly total: number,
  ) {
    this.count = runs.length + total
  }

  /** How many headings stand before the row, its own among them. */
  #headsBefore(row: number): number {
    let [low, high] = [0, this.runs.length]
    while (low < high) {
      const middle = (low + high) >>> 1
      if ((this.runs[middle] as Run).first <= row) low = middle + 1
      else high = middle
    }
    return low
  }

  /** The line the row with that index stands in. */
  lineOf(row: number): number {
    return row + this.#headsBefore(row)
  }

  /** @throws {RangeError} beyond the list */
  at(line: number): Line {
    if (line < 0 || line >= this.count) throw new RangeError(`RunLines: no line ${line}`)
    // The heading with index h stands in line first + h: rising, so the last one that is not after this line is found by halves.
    let [low, high] = [0, this.runs.length]
    while (low < high) {
      const middle = (low + high) >>> 1
      if ((this.runs[middle] as Run).first + middle <= line) low = middle + 1
      else high = middle
    }
    const run = this.runs[low - 1]
    if (run && run.first + low - 1 === line) return { kind: 'head', run }
    return { kind: 'row', row: line - low }
  }
}
