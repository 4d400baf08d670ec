import 'server-only'
import type { OutNoun } from '#lib/planning/plots/out-ages'
import { calendarDay } from '#lib/quantity/day'
import { text, textOrNull } from '../cells'
import { database } from '../client'
import { readSnapshot } from '../read-snapshot'

const tables: [OutNoun, string][] = [
  ['thread', 'Batch'],
  ['cloth', 'ClothPiece'],
  ['chart', 'Chart'],
  ['notion', 'Notion'],
]

/** Everything of these owners that is not in its home, and since which day. */
export async function readOut(ownerIds: readonly string[]): Promise<{ noun: OutNoun; sinceOn: string | null }[]> {
  const among = ownerIds.map(() => '?').join(', ') || 'NULL'
  const sql = tables
    .map(
      ([
        noun,
        table,
      ]) => `SELECT '${noun}', CAST("outSince" AS TEXT) FROM "${table}" WHERE "goneAt" IS NULL AND "ownerId" IN (${among})
        AND "homePlaceId" IS NOT NULL AND "currentPlaceId" IS NOT NULL AND "currentPlaceId" <> "homePlaceId"`,
    )
    .join(' UNION ALL ')
  const found: { noun: OutNoun; sinceOn: string | null }[] = []
  await readSnapshot(database(), async (rows) => {
    for await (const some of rows(
      sql,
      tables.flatMap(() => [...ownerIds]),
    ))
      for (const [noun, since] of some) {
        const at = textOrNull(since)
        const sinceOn = at === null ? null : calendarDay(new Date(`${at.slice(0, 19).replace(' ', 'T')}Z`))
        found.push({ noun: text(noun) as OutNoun, sinceOn })
      }
  })
  return found
}
