import type { SourceCell, SourceLine } from '../page-text/page-text'

/** Longer lines are not looked at for columns. */
const longestTableLine = 600
/** Rows that are held against one another to find where the columns are. */
const longestRun = 400

const cellOf = (text: string): SourceCell => ({ text: text.trim(), certainty: 1, box: null })

/**
 * Pasted text as lines of cells: apart by tabs, upright strokes, wide gaps, or the commas of a table. Where cells stand in columns by blanks,
 * a place that is empty in one line is an empty cell. A form feed begins a page.
 *
 * Linear in the text.
 */
export function splitText(text: string): SourceLine[] {
  const lines: SourceLine[] = []
  let page = 1
  const raw = text.replace(/^\uFEFF/u, '').split(/\r\n|[\n\r\u2028\u2029\u0085]/u)
  const separators = tableSeparators(raw)
  let run: { at: number; spans: Span[] }[] = []
  const endRun = () => {
    if (run.length > 1) alignRun(run, lines)
    run = []
  }
  raw.forEach((whole, index) => {
    const parts = whole.split('\f')
    if (parts.length > 1) page += parts.length - 1
    const line = parts.join(' ').replace(/\u00a0/gu, ' ')
    const separator = separators[index]
    if (separator) {
      endRun()
      lines.push({ page, cells: separated(line, separator).map(cellOf) })
      return
    }
    if (line.includes('\t')) {
      endRun()
      lines.push({ page, cells: trimmed(line.split('\t')).map(cellOf) })
      return
    }
    if (/[|¦│┃]/u.test(line)) {
      endRun()
      lines.push({ page, cells: piped(line).map(cellOf) })
      return
    }
    if (line.length <= longestTableLine && leader.test(line)) {
      endRun()
      lines.push({ page, cells: line.split(leader).map(cellOf) })
      return
    }
    const spans = line.length <= longestTableLine ? gapSpans(line) : [{ start: 0, end: line.length, text: line.trim() }]
    lines.push({ page, cells: spans.map((span) => cellOf(span.text)) })
    if (spans.length >= 2) {
      run.push({ at: lines.length - 1, spans })
      if (run.length >= longestRun) endRun()
    } else endRun()
  })
  endRun()
  return lines
}

/** Dots or strokes that lead the eye from one thing to the next. */
const leader = /(?<=\S ?)(?:\.{3,}|…|(?:\. ){3,}\.?|_{3,}|·{3,}|-{4,})(?=\s*\S)/u

type Span = { start: number; end: number; text: string }

/** The words of a line, apart where two blanks or more stand between them. */
function gapSpans(line: string): Span[] {
  const spans: Span[] = []
  const pattern = /\S+(?: \S+)*/gu
  for (let match = pattern.exec(line); match; match = pattern.exec(line))
    spans.push({ start: match.index, end: match.index + match[0].length, text: match[0] })
  return spans.length > 0 ? spans : [{ start: 0, end: 0, text: '' }]
}

/** Find the columns of lines that follow each other, and give each line an empty cell where it has nothing in one. */
function alignRun(run: readonly { at: number; spans: Span[] }[], lines: SourceLine[]): void {
  const width = Math.max(...run.map(({ spans }) => spans.at(-1)?.end ?? 0))
  const edges = new Int32Array(width + 2)
  for (const { spans } of run) {
    for (const { start, end } of spans) {
      edges[start] = (edges[start] as number) + 1
      edges[end] = (edges[end] as number) - 1
    }
  }
  const columnAt = new Int32Array(width + 1).fill(-1)
  let [depth, columns] = [0, 0]
  for (let at = 0; at <= width; at++) {
    const before = depth
    depth += edges[at] as number
    if (depth > 0 && before === 0) columns += 1
    if (depth > 0) columnAt[at] = columns - 1
  }
  if (columns < 2 || columns > 40) return
  for (const { at, spans } of run) {
    const places = spans.map(({ start }) => columnAt[start] as number)
    // Two cells in one column: this line does not keep to them.
    if (new Set(places).size !== places.length) continue
    const cells = Array.from({ length: columns }, () => cellOf(''))
    spans.forEach(({ text }, index) => {
      cells[places[index] as number] = cellOf(text)
    })
    const line = lines[at] as SourceLine
    lines[at] = { ...line, cells }
  }
}

/** Cells without the empty ones before the first and behind the last, one being kept where the first column is empty. */
function trimmed(cells: string[]): string[] {
  let end = cells.length
  while (end > 1 && (cells[end - 1] as string).trim() === '') end -= 1
  return cells.slice(0, end)
}

function piped(line: string): string[] {
  const cells = line.split(/[|¦│┃]/u)
  if (cells.length > 1 && (cells[0] as string).trim() === '') cells.shift()
  if (cells.length > 1 && (cells.at(-1) as string).trim() === '') cells.pop()
  return cells
}

/**
 * For each line the mark its cells are apart by, where it is one of several lines that have the same mark as often, without a blank behind it,
 * or has its cells in quotes; else null.
 */
function tableSeparators(lines: readonly string[]): (string | null)[] {
  const found: (string | null)[] = lines.map(() => null)
  for (const separator of [',', ';']) {
    const counts = lines.map((line) => countOf(line, separator))
    for (let from = 0; from < lines.length; ) {
      const count = counts[from] as number
      let to = from + 1
      while (to < lines.length && counts[to] === count) to += 1
      const isTable = count >= 1 && (to - from >= 3 ? count >= 2 : count >= 3 && to - from >= 2)
      for (let at = from; at < to; at++) {
        const isQuoted = count >= 1 && /^\s*"[^"]*"\s*[,;]\s*"?/u.test(lines[at] as string)
        if (isTable || isQuoted) found[at] ??= separator
      }
      from = to
    }
  }
  for (const separator of [' ; ', ' / ', ' – ', ' — ', ' : ', ' · ', ' • ', ' ~ ', ' > ', ' - ']) {
    const counts = lines.map((line) =>
      line.length > longestTableLine || line.includes('\t') ? 0 : line.split(separator).length - 1,
    )
    for (let from = 0; from < lines.length; ) {
      let to = from + 1
      while (to < lines.length && counts[to] === counts[from]) to += 1
      if ((counts[from] as number) >= 2 && to - from >= 3) for (let at = from; at < to; at++) found[at] ??= separator
      from = to
    }
  }
  return found
}

/** How often the mark stands outside quotes; 0 when a blank follows it as in a sentence, or the line has other cells. */
function countOf(line: string, separator: string): number {
  if (line.length > longestTableLine || line.includes('\t') || !line.includes(separator)) return 0
  let [count, isQuoted, blanks] = [0, false, 0]
  for (let at = 0; at < line.length; at++) {
    const sign = line[at]
    if (sign === '"') isQuoted = !isQuoted
    else if (sign === separator && !isQuoted) {
      if (
        separator === ',' &&
        /\d/.test(line[at - 1] ?? '') &&
        /^\d{3}(?!\d)/.test(line.slice(at + 1, at + 5)) &&
        !line.includes('"') &&
        / /.test(line)
      )
        continue
      count += 1
      if (line[at + 1] === ' ') blanks += 1
    }
  }
  if (line.includes('"') && blanks <= count) return count
  return blanks > 0 ? 0 : count
}

function separated(line: string, separator: string): string[] {
  if (separator.length > 1) return line.split(separator)
  const cells: string[] = []
  let cell = ''
  let isQuoted = false
  for (let at = 0; at < line.length; at++) {
    const sign = line[at] as string
    if (sign === '"') {
      if (isQuoted && line[at + 1] === '"') {
        cell += '"'
        at += 1
      } else if (isQuoted || cell.trim() === '') isQuoted = !isQuoted
      else cell += sign
    } else if (sign === separator && !isQuoted) {
      cells.push(cell)
      cell = ''
    } else cell += sign
  }
  cells.push(cell)
  return cells
}
