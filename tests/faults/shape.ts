import { archiveTables } from '#lib/archive/tables'
import type { Database } from '#lib/db/client'
import { readSnapshot } from '#lib/db/read-snapshot'

const tables = archiveTables.filter(({ name }) => name !== 'LabelPrint')

/** How many rows of everything there are, and what all their numbers come to: a write half done has a shape no whole one has. */
export async function readShape(database: Database): Promise<string> {
  const lines: string[] = []
  for (let at = 0; at < tables.length; at += 12) {
    const sql = tables
      .slice(at, at + 12)
      .map(({ name, columns }) => {
        const sums = Object.entries(columns).flatMap(([column, kind]) =>
          kind === 'whole' || kind === 'whole?'
            ? [`coalesce(sum(CAST("${column}" AS bigint)), 0)`]
            : kind.endsWith('?')
              ? [`count("${column}")`]
              : [],
        )
        const parts = ['count(*)', ...sums].map((sum) => `CAST(${sum} AS text)`).join(` || ' ' || `)
        return `SELECT '${name}' AS "of", ${parts} AS "sums" FROM "${name}"`
      })
      .join(' UNION ALL ')
    await readSnapshot(database, async (rows) => {
      for await (const some of rows(sql)) for (const [of, sums] of some) lines.push(`${of}: ${sums}`)
    })
  }
  return lines.sort().join('\n')
}
