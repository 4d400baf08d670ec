import 'server-only'
import type Libsql from 'libsql'
import type pg from 'pg'

export type Table = { name: string; columns: { name: string; type: string }[] }

type SqliteFile = InstanceType<typeof Libsql>

const rowsAtATime = 2_000

export const namesOf = ({ columns }: Table): string => columns.map(({ name }) => `"${name}"`).join(', ')

/** A table's columns as SQLite keeps them: moments as Prisma writes them there. */
const asSqliteKeeps = ({ columns }: Table): string =>
  columns
    .map(({ name, type }) => (type === 'DATETIME' ? `to_char("${name}", 'YYYY-MM-DD"T"HH24:MI:SS.MS') || '+00:00'` : `"${name}"`))
    .join(', ')

/** All rows of a table, so many at a time, each in the order of its columns and as SQLite would keep it. Inside a transaction. */
export async function* rowsOfPostgresql(client: pg.Client, table: Table, orderBy = ''): AsyncGenerator<unknown[][], void, void> {
  const cursor = `rows_${table.name.toLowerCase()}`
  await client.query(`DECLARE ${cursor} CURSOR FOR SELECT ${asSqliteKeeps(table)} FROM "${table.name}" ${orderBy}`)
  for (;;) {
    const { rows } = await client.query({ text: `FETCH ${rowsAtATime} FROM ${cursor}`, rowMode: 'array' })
    if (rows.length === 0) break
    yield (rows as unknown[][]).map((row) => row.map((cell) => (typeof cell === 'boolean' ? Number(cell) : cell)))
  }
  await client.query(`CLOSE ${cursor}`)
}

/** Put all rows of a SQLite table into the same table of PostgreSQL. @param otherwise  what to do about a row that is there already */
export async function fillTable(
  client: pg.Client,
  file: SqliteFile,
  table: Table,
  { otherwise = '', onRows = () => {} }: { otherwise?: string; onRows?: (rows: number) => void } = {},
): Promise<void> {
  const { name, columns } = table
  const picked = namesOf(table)
  const insert = `INSERT INTO "${name}" (${picked}) SELECT ${picked} FROM jsonb_populate_recordset(NULL::"${name}", $1::jsonb) ${otherwise}`
  const truths = columns.filter(({ type }) => type === 'BOOLEAN').map((column) => column.name)
  let some: Record<string, unknown>[] = []
  const send = async () => {
    if (some.length === 0) return
    await client.query(insert, [JSON.stringify(some)])
    onRows(some.length)
    some = []
  }
  for (const row of file.prepare(`SELECT ${picked} FROM "${name}"`).iterate() as Iterable<Record<string, unknown>>) {
    for (const column of truths) if (row[column] !== null) row[column] = Boolean(row[column])
    some.push(row)
    if (some.length >= rowsAtATime) await send()
  }
  await send()
}

/**
 * Take the links between tables off: rows may name rows that come later.
 *
 * @returns puts them on again, which looks at every one of them
 */
export async function takeLinksOff(client: pg.Client): Promise<() => Promise<void>> {
  const { rows: links } = await client.query<{ table: string; name: string; says: string }>(
    `SELECT t.relname AS "table", c.conname AS name, pg_get_constraintdef(c.oid) AS says
       FROM pg_constraint c JOIN pg_class t ON t.oid = c.conrelid
      WHERE c.contype = 'f' AND t.relnamespace = current_schema()::regnamespace ORDER BY 1, 2`,
  )
  for (const { table, name } of links) await client.query(`ALTER TABLE "${table}" DROP CONSTRAINT "${name}"`)
  return async () => {
    for (const { table, name, says } of links) await client.query(`ALTER TABLE "${table}" ADD CONSTRAINT "${name}" ${says}`)
  }
}
