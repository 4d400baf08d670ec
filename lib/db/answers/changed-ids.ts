import 'server-only'
import type { ReadRows } from '../read-snapshot'

/** More changes than this at once are quicker read anew. */
const mostCaughtUp = 500

/** What changed after a revision, by noun; null when it is more than is worth catching up with. */
export async function changedIds(rows: ReadRows, after: number): Promise<Map<string, string[]> | null> {
  const ids = new Map<string, string[]>()
  let count = 0
  const sql = 'SELECT DISTINCT "noun", "nounId" FROM "Change" WHERE "revision" > ? ORDER BY "noun", "nounId"'
  for await (const some of rows(sql, [after])) {
    for (const [noun, nounId] of some) {
      if (++count > mostCaughtUp) return null
      ids.set(String(noun), [...(ids.get(String(noun)) ?? []), String(nounId)])
    }
  }
  return ids
}

const marks = (ids: readonly string[]) => ids.map(() => '?').join(', ')

async function idsOf(rows: ReadRows, sql: string, values: readonly string[]): Promise<string[]> {
  const found: string[] = []
  for await (const some of rows(sql, [...values])) for (const [id] of some) found.push(String(id))
  return found
}

export const threadsOfBatches = (rows: ReadRows, batchIds: readonly string[]) =>
  idsOf(rows, `SELECT DISTINCT "threadId" FROM "Batch" WHERE "id" IN (${marks(batchIds)})`, batchIds)

/** The designs touched by a change of their own, of their chart or of a list; ids of lists and charts that are gone fall away. */
export async function designsOf(rows: ReadRows, of: (noun: string) => string[]): Promise<string[]> {
  const found = new Set(of('design'))
  for (const [noun, sql] of [
    ['chart', 'SELECT "id" FROM "Design" WHERE "chartId" IN'],
    ['list', 'SELECT "designId" FROM "ThreadList" WHERE "id" IN'],
  ] as const) {
    if (of(noun).length === 0) continue
    for (const id of await idsOf(rows, `${sql} (${marks(of(noun))})`, of(noun))) found.add(id)
  }
  return [...found]
}
