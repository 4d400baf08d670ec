import 'server-only'
import { archiveTables } from '#lib/archive/tables'
import type { Fault } from '#lib/checking/fault'
import { number, numberOrNull, text } from '../cells'
import type { Database } from '../client'
import { each, type ReadRows } from '../read-snapshot'
import { concerned, nameColumns } from './thing-names'

const tableOfNoun = {
  ...{ place: 'Place', chart: 'Chart', batch: 'Batch', cloth: 'ClothPiece', project: 'Project' },
  ...{ designer: 'Designer', thread: 'Thread', maker: 'Maker' },
} as const
const labelNouns = ['place', 'chart', 'batch', 'cloth', 'project'] as const
const pairNouns = ['chart', 'designer', 'thread', 'maker'] as const

/** What names a row by an id that no foreign key guards, and the revision behind its own changes. */
export async function* findReferenceFaults(rows: ReadRows): AsyncGenerator<Fault, void, void> {
  // A feast that is known to all is named by a word; a day of one's own by its id.
  const occasionSql = `SELECT thing."id" AS "id", thing."occasionKey" AS "key", ${nameColumns('project').join(', ')} FROM "Project" thing
    WHERE thing."occasionKey" LIKE '________-____-____-____-____________'
      AND NOT EXISTS (SELECT 1 FROM "Occasion" o WHERE o."id" = thing."occasionKey")`
  for await (const [id, key, name, link] of each(rows, occasionSql))
    yield {
      ...{ kind: 'occasion-gone', id: `occasion-gone:${text(id)}`, about: concerned('project', id, name, link) },
      occasionKey: text(key),
    }
  for (const noun of labelNouns) {
    const sql = `SELECT p."id" AS "id", p."text" AS "text" FROM "LabelPrint" p
      WHERE p."noun" = ? AND NOT EXISTS (SELECT 1 FROM "${tableOfNoun[noun]}" t WHERE t."id" = p."thingId")`
    for await (const [id, label] of each(rows, sql, [noun]))
      yield {
        ...{ kind: 'label-of-nothing', id: `label-of-nothing:${text(id)}` },
        ...{ about: concerned('label', id, `a label of a ${noun}`, null), text: text(label) },
      }
  }
  for (const noun of pairNouns) {
    const there = (column: string) => `EXISTS (SELECT 1 FROM "${tableOfNoun[noun]}" t WHERE t."id" = p."${column}")`
    const sql = `SELECT p."id" AS "id" FROM "ToldApart" p WHERE p."noun" = ? AND NOT (${there('firstId')} AND ${there('secondId')})`
    for await (const [id] of each(rows, sql, [noun]))
      yield {
        ...{ kind: 'told-apart-gone', id: `told-apart-gone:${text(id)}` },
        about: concerned('pair', id, `two ${noun}s that were told apart`, null),
      }
  }
  const revisionSql = `SELECT (SELECT "number" FROM "Revision" WHERE "id" = 'main') AS "number", (SELECT max("revision") FROM "Change") AS "latest"`
  for await (const row of each(rows, revisionSql)) {
    const [revision, latest] = [numberOrNull(row[0]) ?? 0, numberOrNull(row[1]) ?? 0]
    if (latest > revision)
      yield {
        ...{ kind: 'revision-behind', id: 'revision-behind:main' },
        ...{ about: { noun: 'collection', id: 'main', name: 'the collection', linkId: null }, revision, latest },
      }
  }
}

const linkRowsAtATime = 20_000

/**
 * Rows that name rows which are not there. On SQLite a large table is gone through in stretches, since each is asked for at once; a server
 * of its own can be asked for all of it.
 */
export async function* findBrokenLinks(rows: ReadRows, engine: Database['engine']): AsyncGenerator<Fault, void, void> {
  const keyOf = new Map(archiveTables.map(({ name, key }) => [name, key[0] as string]))
  for (const { name: table, refersTo } of archiveTables) {
    const links = Object.entries(refersTo)
    if (links.length === 0) continue
    const counts = links.map(
      ([column, names]) => `sum(CASE WHEN c."${column}" IS NOT NULL
        AND NOT EXISTS (SELECT 1 FROM "${names}" p WHERE p."${keyOf.get(names)}" = c."${column}") THEN 1 ELSE 0 END) AS "${column}"`,
    )
    const sql = `SELECT ${counts.join(', ')} FROM "${table}" c`
    const found = links.map(() => 0)
    for (const stretch of engine === 'sqlite' ? await stretchesOf(rows, table) : [null]) {
      const within = stretch === null ? '' : ' WHERE c.rowid BETWEEN ? AND ?'
      for await (const row of each(rows, `${sql}${within}`, stretch ?? []))
        for (const [at, count] of row.entries()) found[at] = (found[at] ?? 0) + number(count ?? 0)
      if (stretch !== null) await new Promise((resolve) => setImmediate(resolve))
    }
    for (const [at, [column, names]] of links.entries()) {
      const count = found[at] ?? 0
      if (count === 0) continue
      const about = { noun: 'table' as const, id: table, name: table, linkId: null }
      yield { kind: 'broken-links', id: `broken-links:${table}.${column}`, about, column, names, count }
    }
  }
}

async function stretchesOf(rows: ReadRows, table: string): Promise<[number, number][]> {
  for await (const [first, last] of each(rows, `SELECT min(rowid) AS "first", max(rowid) AS "last" FROM "${table}"`)) {
    if (first === null || last === null) return []
    const stretches: [number, number][] = []
    for (let from = number(first); from <= number(last); from += linkRowsAtATime)
      stretches.push([from, Math.min(number(last), from + linkRowsAtATime - 1)])
    return stretches
  }
  return []
}

/** What SQLite itself says of its file, table by table, so that others come in between. PostgreSQL watches over its own. */
export async function* findDamage(rows: ReadRows, engine: Database['engine']): AsyncGenerator<Fault, void, void> {
  if (engine !== 'sqlite') return
  for (const table of [...archiveTables.map(({ name }) => name), 'Revision', 'Change']) {
    const says = await integrityOf(rows, table)
    if (says !== null) {
      // A row that holds what its table does not allow reads whole all the same.
      const kind = says.startsWith('CHECK constraint failed') ? 'rule-broken' : 'database-damaged'
      const about = { noun: 'table' as const, id: table, name: table, linkId: null }
      yield { kind, id: `${kind}:${table}`, about, says: says.slice(0, 300) }
    }
    await new Promise((resolve) => setImmediate(resolve))
  }
}

/** The first thing SQLite finds wrong with a table and its indexes; null where it finds nothing. */
async function integrityOf(rows: ReadRows, table: string): Promise<string | null> {
  try {
    for await (const [says] of each(rows, `PRAGMA integrity_check("${table}")`)) return says === 'ok' ? null : text(says)
    return null
  } catch (error) {
    // So torn that it cannot be looked through.
    if (!/malformed|not a database|SQLITE_CORRUPT|SQLITE_NOTADB/i.test(String(error))) throw error
    return (error as Error).message
  }
}
