import 'server-only'
import { archiveTables } from '#lib/archive/tables'
import type { Fault } from '#lib/checking/fault'
import { grouped } from '#lib/grouped'
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

/** A column that names rows of another table. */
type Link = { table: string; column: string; names: string }

const keyOf = new Map(archiveTables.map(({ name, key }) => [name, key[0] as string]))
const links: readonly Link[] = archiveTables.flatMap(({ name: table, refersTo }) =>
  Object.entries(refersTo).map(([column, names]) => ({ table, column, names })),
)
/** Counts the rows of `c` whose link leads nowhere. */
const brokenCount = ({ column, names }: Link): string =>
  `count(CASE WHEN c."${column}" IS NOT NULL AND NOT EXISTS (SELECT 1 FROM "${names}" p WHERE p."${keyOf.get(names)}" = c."${column}") THEN 1 END)`

/**
 * Rows that name rows which are not there. On SQLite a table is gone through in stretches of rows, since whoever asks holds up everybody
 * else; a server of its own is asked for some columns whole.
 */
export async function* findBrokenLinks(rows: ReadRows, engine: Database['engine']): AsyncGenerator<Fault, void, void> {
  for await (const { link, count } of engine === 'sqlite' ? countInStretches(rows) : countWhole(rows)) {
    if (count === 0) continue
    const { table, column, names } = link
    const about = { noun: 'table' as const, id: table, name: table, linkId: null }
    yield { kind: 'broken-links', id: `broken-links:${table}.${column}`, about, column, names, count }
  }
}

const linksAtATime = 20

async function* countWhole(rows: ReadRows): AsyncGenerator<{ link: Link; count: number }, void, void> {
  for (let at = 0; at < links.length; at += linksAtATime) {
    const some = links.slice(at, at + linksAtATime)
    const sql = some.map((link, turn) => `(SELECT ${brokenCount(link)} FROM "${link.table}" c) AS "n${turn}"`)
    for await (const row of each(rows, `SELECT ${sql.join(', ')}`))
      for (const [turn, link] of some.entries()) yield { link, count: number(row[turn]) }
  }
}

const rowsAtATime = 20_000

async function* countInStretches(rows: ReadRows): AsyncGenerator<{ link: Link; count: number }, void, void> {
  for (const [table, some] of grouped(links, (link) => link.table)) {
    const counts = some.map(() => 0)
    const sql = some.map((link, turn) => `${brokenCount(link)} AS "n${turn}"`).join(', ')
    for (const stretch of await stretchesOf(rows, table)) {
      for await (const row of each(rows, `SELECT ${sql} FROM "${table}" c WHERE c.rowid BETWEEN ? AND ?`, stretch))
        for (const [turn, count] of row.entries()) counts[turn] = (counts[turn] ?? 0) + number(count)
      await new Promise((resolve) => setImmediate(resolve))
    }
    for (const [turn, link] of some.entries()) yield { link, count: counts[turn] ?? 0 }
  }
}

async function stretchesOf(rows: ReadRows, table: string): Promise<[number, number][]> {
  for await (const [first, last] of each(rows, `SELECT min(rowid) AS "first", max(rowid) AS "last" FROM "${table}"`)) {
    if (first === null || last === null) return []
    const stretches: [number, number][] = []
    for (let from = number(first); from <= number(last); from += rowsAtATime)
      stretches.push([from, Math.min(number(last), from + rowsAtATime - 1)])
    return stretches
  }
  return []
}
