import { randomUUID } from 'node:crypto'
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import pg from 'pg'
import { afterAll, beforeAll, describe, inject } from 'vitest'
import { type Database, openDatabase } from '#lib/db/client'
import { leaveQueuedJobs } from '#lib/db/job/queued-jobs'

type Fresh = { url: string; drop: () => Promise<void> }

function freshSqlite(): Fresh {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-test-'))
  const file = path.join(folder, 'larder.db')
  copyFileSync(inject('sqliteTemplate'), file)
  return { url: `file:${file}`, drop: async () => rmSync(folder, { recursive: true, force: true }) }
}

async function freshPostgresql(urlOf: string): Promise<Fresh> {
  const name = `larder_${randomUUID().replaceAll('-', '')}`
  const admin = async (sql: string) => {
    const client = new pg.Client({ connectionString: urlOf.replace('{database}', 'postgres') })
    await client.connect()
    // Two copies of one template at a time are refused; the lock makes the second wait.
    await client.query('SELECT pg_advisory_lock(1)')
    await client.query(sql)
    await client.end()
  }
  await admin(`CREATE DATABASE ${name} TEMPLATE larder_template`)
  return { url: urlOf.replace('{database}', name), drop: () => admin(`DROP DATABASE ${name} WITH (FORCE)`) }
}

/** A migrated, empty database beside that of a block, to bring something over to; null where the engine cannot be run here. */
export async function openEmpty(engine: Database['engine']): Promise<{ database: Database; drop: () => Promise<void> } | null> {
  const postgresql = inject('postgresql')
  if (engine === 'postgresql' && 'missing' in postgresql) return null
  const made = engine === 'sqlite' || 'missing' in postgresql ? freshSqlite() : await freshPostgresql(postgresql.urlOf)
  const database = openDatabase(made.url)
  return {
    database,
    drop: async () => {
      await database.prisma.$disconnect()
      await made.drop()
    },
  }
}

/**
 * The same tests on each engine, each with a migrated database of its own, empty at the start of the block.
 * `open` gives the block's database; `openAnother` a second client on it, as another process would have.
 */
export function describeOnEachEngine(
  title: string,
  tests: (engine: { name: string; open: () => Database; openAnother: () => Database }) => void,
): void {
  const postgresql = inject('postgresql')
  const suites: { name: string; fresh: (() => Promise<Fresh>) | null; missing?: string }[] = [
    { name: 'SQLite', fresh: async () => freshSqlite() },
    'missing' in postgresql
      ? { name: 'PostgreSQL', fresh: null, missing: postgresql.missing }
      : { name: 'PostgreSQL', fresh: () => freshPostgresql(postgresql.urlOf) },
  ]
  for (const { name, fresh, missing } of suites) {
    describe.skipIf(fresh === null)(`${title} (${name}${missing ? `, skipped: ${missing}` : ''})`, () => {
      let made: Fresh
      const opened: Database[] = []
      beforeAll(async () => {
        made = await (fresh as () => Promise<Fresh>)()
        opened.push(openDatabase(made.url))
        // What `database()` and `write()` use while this block runs.
        ;(globalThis as { larderDatabase?: Database }).larderDatabase = opened[0]
      })
      afterAll(async () => {
        await leaveQueuedJobs()
        for (const database of opened) await database.prisma.$disconnect()
        await made.drop()
      })
      const openAnother = () => {
        const another = openDatabase(made.url)
        opened.push(another)
        return another
      }
      tests({ name, open: () => opened[0] as Database, openAnother })
    })
  }
}
