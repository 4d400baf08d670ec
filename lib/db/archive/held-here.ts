import 'server-only'
import { archiveTables } from '#lib/archive/tables'
import { requireWhole } from '../access/whole'
import type { Transaction } from '../client'

/** What an empty collection may have all the same: they give way to those of an archive that is brought back. */
export const ownTables = ['Setting', 'Owner'] as const

/** The tables that have rows, and how many; none for a collection with nothing in it but owners and settings. */
export async function heldHere(prisma: Pick<Transaction, '$queryRawUnsafe'>): Promise<{ table: string; count: number }[]> {
  requireWhole()
  const asked = archiveTables.filter(({ name }) => !(ownTables as readonly string[]).includes(name))
  const sql = asked.map(({ name }) => `SELECT '${name}' AS "table", (SELECT count(*) FROM "${name}") AS "count"`)
  const counts = await prisma.$queryRawUnsafe<{ table: string; count: number | bigint }[]>(sql.join(' UNION ALL '))
  return counts.map(({ table, count }) => ({ table, count: Number(count) })).filter(({ count }) => count > 0)
}
