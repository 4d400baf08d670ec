import 'server-only'
import type { StockNoun } from '#lib/checking/fault'

/** Where each noun's rows are, what their movements name them by, and how much of it a row holds, `thing` being the row. */
const books = {
  batch: { table: 'Batch', column: 'batchId', whole: 'thing."wholePutUps"', part: 'thing."partStrandTenths"' },
  cloth: { table: 'ClothPiece', column: 'clothPieceId', whole: `CASE WHEN thing."goneAt" IS NULL THEN 1 ELSE 0 END`, part: '0' },
  chart: {
    table: 'Chart',
    column: 'chartId',
    whole: `CASE WHEN thing."goneAt" IS NULL THEN thing."copies" ELSE 0 END`,
    part: '0',
  },
  notion: {
    table: 'Notion',
    column: 'notionId',
    whole: `CASE WHEN thing."goneAt" IS NULL THEN thing."count" ELSE 0 END`,
    part: '0',
  },
} as const satisfies Record<StockNoun, { table: string; column: string; whole: string; part: string }>

export const stockNouns = Object.keys(books) as StockNoun[]
export const tableOf = (noun: StockNoun) => books[noun].table
export const journalColumn = (noun: StockNoun) => books[noun].column

/**
 * A SELECT of every row of a noun beside the sum of its movements: `id`, `heldWhole`, `heldPart`, `journalWhole`, `journalPart`, and what
 * `more` names. The sum is looked up row by row through the journal's index, so that reading it can stop between rows, however long the
 * journal is.
 *
 * @param more  further columns of `thing`, each with a name of its own
 */
export function stockSumsSql(noun: StockNoun, more: readonly string[] = []): string {
  const { table, column, whole, part } = books[noun]
  const sum = (delta: string) =>
    `(SELECT coalesce(sum(m."${delta}"), 0) FROM "Movement" m WHERE m."${column}" = thing."id") AS "journal${delta === 'wholeDelta' ? 'Whole' : 'Part'}"`
  const columns = [
    'thing."id" AS "id"',
    `${whole} AS "heldWhole"`,
    `${part} AS "heldPart"`,
    sum('wholeDelta'),
    sum('partDeltaStrandTenths'),
    ...more,
  ]
  return `SELECT ${columns.join(', ')} FROM "${table}" thing`
}

/** Rows of a noun whose amount is not the sum of their movements, as a FROM clause. */
export const stockDiffersFrom = (noun: StockNoun): string =>
  `(${stockSumsSql(noun)}) sums WHERE "heldWhole" <> "journalWhole" OR "heldPart" <> "journalPart"`
