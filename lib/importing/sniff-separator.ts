import { splitRecords } from './split-records'

export const separators = [',', ';', '\t', '|'] as const
export type Separator = (typeof separators)[number]

export type SniffedSeparator = {
  separator: Separator
  /** Columns of most rows with it; 1 when no candidate parts the rows. */
  columns: number
  /** Share (0 to 1) of the rows looked at that have that many columns. */
  share: number
  /** A first line `sep=;`, which some spreadsheet programs write and read as an instruction; it is no row. */
  isDeclared: boolean
}

const recordsLookedAt = 50
const longestCell = 10_000
/** Preferred in this order when two part the rows alike: the rarer a mark is in ordinary text, the more it says. */
const rarestFirst: Separator[] = ['\t', '|', ';', ',']

/**
 * Find what parts the cells of a row: the candidate that gives the same number of columns (two or more) in the largest share of the
 * first 50 rows, counted outside quotes. Equal shares: more columns win, then the mark that is rarer in ordinary text.
 *
 * Counting how often a mark occurs is not enough: in `a;b / 1,5;2` commas are as many as semicolons.
 */
export function sniffSeparator(text: string): SniffedSeparator {
  const declared = /^sep=([,;|\t])\r?\n/i.exec(text)
  if (declared) return { ...judge(text.slice(declared[0].length), declared[1] as Separator), isDeclared: true }
  const [best] = rarestFirst.map((separator) => judge(text, separator)).sort(bestFirst)
  return best === undefined || best.columns === 1 ? { separator: ',', columns: 1, share: 1, isDeclared: false } : best
}

function bestFirst(left: SniffedSeparator, right: SniffedSeparator): number {
  if (left.columns === 1 || right.columns === 1) return right.columns - left.columns
  return right.share - left.share || right.columns - left.columns
}

function judge(text: string, separator: Separator): SniffedSeparator {
  const tally = new Map<number, number>()
  let looked = 0
  for (const record of splitRecords(text, separator, longestCell)) {
    if (record.text.trim() === '' || record.fault !== null) continue
    tally.set(record.fields, (tally.get(record.fields) ?? 0) + 1)
    if (++looked === recordsLookedAt) break
  }
  let columns = 1
  let most = 0
  for (const [fields, times] of tally) {
    if (fields > 1 && (times > most || (times === most && fields > columns))) {
      columns = fields
      most = times
    }
  }
  return { separator, columns, share: looked === 0 ? 0 : most / looked, isDeclared: false }
}
