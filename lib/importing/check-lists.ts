import { parseNumber } from '#lib/quantity/number'
import { textKey } from '#lib/quantity/text-key'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import type { ListLineDraft, ListThread } from './drafts'
import type { RowReader } from './row-reader'

export const usualListName = 'Printed list'

export function checkListLine(row: RowReader): ListLineDraft {
  return {
    chart: row.required('chart'),
    design: row.text('design'),
    designers: row.texts('designer'),
    list: row.text('list') ?? usualListName,
    symbol: row.text('symbol'),
    threads: readThreads(row),
    tally: readTally(row),
    putUpTenths: row.threadTenths('putUp'),
  }
}

/** Which list a row belongs to, also when it is refused: its chart, design and list as written. */
export const listGroupOf = (row: Pick<ListLineDraft, 'chart' | 'design' | 'list'>): string =>
  JSON.stringify([textKey(row.chart), textKey(row.design ?? ''), textKey(row.list)])

function readTally(row: RowReader): StitchTally | null {
  const tally: StitchTally = {}
  for (const stitch of stitches) {
    const number = row.whole(stitch, { most: 10_000_000 })
    if (number) tally[stitch] = number
  }
  return Object.keys(tally).length === 0 ? null : tally
}

/** The threads of the line, one or a blend. Makers, lines, names, strands and skeins may be given once for all or once for each. */
function readThreads(row: RowReader): ListThread[] {
  const codes = inParts(row.required('code'))
  if (codes.some((code) => code === '')) row.refuse('code', 'blend-parts-differ', codes.join('+'))
  const makers = forEach(row, 'maker', row.required('maker'), codes.length)
  const lines = forEach(row, 'line', row.text('line'), codes.length)
  const names = forEach(row, 'name', row.text('name'), codes.length)
  const strands = forEach(row, 'strands', row.text('strands'), codes.length)
  const skeins = forEach(row, 'skeins', row.text('skeins'), codes.length)
  return codes.map((code, index) => ({
    maker: makers[index] ?? '',
    line: lines[index] ?? null,
    code: row.code('code', code),
    name: names[index] ?? null,
    strands: readStrands(row, strands[index] ?? null, codes.length),
    statedHundredths: readSkeins(row, skeins[index] ?? null),
  }))
}

const inParts = (text: string): string[] => text.split('+').map((part) => part.trim())

function forEach(row: RowReader, field: string, text: string | null, threads: number): (string | null)[] {
  if (text === null || text === '') return []
  // A colour's name may hold a + of its own where there is no blend.
  if (threads === 1 && field !== 'strands' && field !== 'skeins') return [text]
  const parts = inParts(text)
  if (parts.length === 1) return Array.from({ length: threads }, () => text)
  if (parts.length === threads) return parts.map((part) => part || null)
  row.refuse(field, 'blend-parts-differ', text, [String(threads)])
  return []
}

/** Two strands of a single thread and one of each in a blend are the usual way (common practice, no published source). */
function readStrands(row: RowReader, text: string | null, threads: number): number {
  if (text === null) {
    const assumed = threads === 1 ? 2 : 1
    if (!row.errors.some((error) => error.field === 'strands')) row.warn('strands', 'strands-assumed', '', [String(assumed)])
    return assumed
  }
  const value = /^\d{1,2}$/.test(text) ? Number(text) : null
  if (value !== null && value >= 1 && value <= 24) return value
  row.refuse('strands', 'not-a-whole-number', text, ['2', '1+1'])
  return 1
}

function readSkeins(row: RowReader, text: string | null): number | null {
  if (text === null) return null
  const value = parseNumber(row.decimal(text))
  if (value === null) return row.refuse('skeins', 'not-a-number', text, ['2', '0.6', '1/2'])
  if (value < 0 || value > 10_000) return row.refuse('skeins', 'out-of-range', text, ['0', '10000'])
  // A stated need rounds up, so that a third of a skein is not short of itself.
  const hundredths = Math.ceil(value * 100 - 1e-6)
  return hundredths === 0 ? null : hundredths
}
