import { archiveTables } from '#lib/archive/tables'
import type { Database } from '#lib/db/client'
import { type Cell, readSnapshot } from '#lib/db/read-snapshot'

export type Row = Record<string, Cell>

/** Words somebody wrote or reads; not what the program tells kinds and states by, nor what names a file. */
const wordColumns =
  /^(title|titleKey|note|backNote|lot|matchLot|label|labelKey|name|nameKey|forWhom|reason|edition|text|supplier|makerName|colourName|symbol|listName|found|soldTo|who|what|finishing|startedBy|closedBy|askedBy|tickedBy)$/
/** Of these, what is filled in where it is empty. */
const filledIn = /^(note|forWhom|edition|lot|colourName|supplier)$/
/** Rows of their own kind that tell of the whole collection. */
const tellOfAll = new Set(['BulkEdit', 'ImportBatch', 'ImportRow', 'ImportStep'])

export async function readRows(database: Database, table: string): Promise<Row[]> {
  const { columns } = archiveTables.find(({ name }) => name === table) as { columns: Record<string, string> }
  const names = Object.keys(columns)
  const found: Row[] = []
  await readSnapshot(database, async (rows) => {
    const sql = `SELECT ${names.map((name) => `CAST("${name}" AS TEXT)`).join(', ')} FROM "${table}" ORDER BY 1`
    for await (const some of rows(sql))
      for (const row of some) found.push(Object.fromEntries(names.map((name, at) => [name, row[at] ?? null])))
  })
  return found
}

export const keyOf = (table: (typeof archiveTables)[number], row: Row): string => table.key.map((name) => row[name]).join(' ')

/** Everything that is an owner's, and all that hangs on it, by table and key: found by following every column that names another row. */
export async function goodsOf(database: Database, ownerId: string): Promise<Map<string, Map<string, Row>>> {
  const found = new Map<string, Map<string, Row>>([['Owner', new Map([[ownerId, {}]])]])
  for (const table of archiveTables) {
    if (table.name === 'Owner') continue
    const isTheirs = (row: Row) =>
      tellOfAll.has(table.name) ||
      Object.entries(table.refersTo).some(([column, to]) => to !== table.name && found.get(to)?.has(String(row[column])))
    const theirs = (await readRows(database, table.name)).filter(isTheirs)
    found.set(table.name, new Map(theirs.map((row) => [keyOf(table, row), row])))
  }
  // A plan, a walk or a count is what its lines are.
  for (const [lines, column, whole] of [
    ['CutPlanPiece', 'cutPlanId', 'CutPlan'],
    ['WalkLine', 'walkId', 'Walk'],
    ['WalkProject', 'walkId', 'Walk'],
    ['StockCountLine', 'countId', 'StockCount'],
  ] as const) {
    const ids = new Set([...(found.get(lines)?.values() ?? [])].map((row) => row[column]))
    for (const row of await readRows(database, whole)) if (ids.has(row.id as Cell)) found.get(whole)?.set(String(row.id), row)
  }
  return found
}

/** Write a mark before every word of these rows that may be changed: a movement stands as it was written. */
export async function markGoods(database: Database, theirs: Map<string, Map<string, Row>>, mark: string): Promise<void> {
  for (const table of archiveTables) {
    const words = Object.keys(table.columns).filter((name) => wordColumns.test(name))
    const rows = [...(theirs.get(table.name)?.values() ?? [])].filter((row) => Object.keys(row).length > 0)
    if (table.name === 'Movement' || words.length === 0) continue
    const sets = words.map((name) => {
      const marked = `'${mark} ' || COALESCE("${name}", '')`
      return `"${name}" = ${filledIn.test(name) ? marked : `CASE WHEN "${name}" IS NULL THEN NULL ELSE ${marked} END`}`
    })
    const key = table.key[0] as string
    if (table.key.length > 1) throw new RangeError(`markGoods: rows of ${table.name} are told apart by more than one column`)
    for (let from = 0; from < rows.length; from += 500) {
      const keys = rows.slice(from, from + 500).map((row) => `'${row[key]}'`)
      await database.prisma.$executeRawUnsafe(
        `UPDATE "${table.name}" SET ${sets.join(', ')} WHERE "${key}" IN (${keys.join(', ')})`,
      )
    }
  }
}
