// Applies <engine>/migrations/*/migration.sql in order, each in one transaction, and keeps the same _prisma_migrations table
// as Prisma's own CLI does, so that either can go on from the other.
import { createHash, randomUUID } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'

const here = import.meta.dirname
/** The advisory lock Prisma's own migrate takes on PostgreSQL. */
const prismaLockId = 72707369

export const isPostgresqlUrl = (url) => /^postgres(ql)?:/.test(url)

/** Where data lives when DATABASE_URL does not say otherwise: one folder, LARDER_DATA or ./data. */
export function dataFolder(env = process.env) {
  return path.resolve(path.dirname(here), env.LARDER_DATA || 'data')
}

export function databaseUrl(env = process.env) {
  return env.DATABASE_URL || `file:${path.join(dataFolder(env), 'larder.db')}`
}

async function openSqlite(url) {
  const file = path.resolve(path.dirname(here), url.replace(/^file:/, ''))
  mkdirSync(path.dirname(file), { recursive: true })
  const { default: Database } = await import('libsql')
  const connection = new Database(file, { timeout: 10_000 })
  connection.exec('PRAGMA journal_mode = WAL')
  return {
    all: async (sql) => connection.prepare(sql).all(),
    run: async (sql, values) => connection.prepare(sql).run(...values),
    close: async () => connection.close(),
    // Foreign keys stay off while tables are rebuilt; the switch has no effect inside a transaction.
    apply: async (sql, record) => {
      connection.exec('PRAGMA foreign_keys = OFF')
      connection.exec('BEGIN IMMEDIATE')
      try {
        connection.exec(sql)
        await record()
        connection.exec('COMMIT')
      } catch (error) {
        if (connection.inTransaction) connection.exec('ROLLBACK')
        throw error
      } finally {
        connection.exec('PRAGMA foreign_keys = ON')
      }
    },
    tableSql: `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
      "id" TEXT PRIMARY KEY NOT NULL, "checksum" TEXT NOT NULL, "finished_at" DATETIME, "migration_name" TEXT NOT NULL,
      "logs" TEXT, "rolled_back_at" DATETIME, "started_at" DATETIME NOT NULL DEFAULT current_timestamp,
      "applied_steps_count" INTEGER UNSIGNED NOT NULL DEFAULT 0)`,
    now: () => Date.now(),
  }
}

/** A migration that has taken so long was broken off: its row is nobody's. */
const lockIsOldAfter = '10 minutes'

/**
 * Let one process at a time migrate. Where there are no advisory locks (a distributed database that speaks PostgreSQL's protocol), by a row.
 *
 * @param lock  'row' to do without the first
 * @returns lets go of it
 */
async function lockPostgresql(client, lock) {
  if (lock !== 'row') {
    try {
      await client.query(`SELECT pg_advisory_lock(${prismaLockId})`)
      // Let go of with the connection.
      return async () => {}
    } catch (error) {
      if (!('severity' in error)) throw error
    }
  }
  const table = '"_larder_migrating"'
  // Two that make it at once may both find it missing; one is then refused, and it is there.
  await client
    .query(`CREATE TABLE IF NOT EXISTS ${table} ("id" INTEGER PRIMARY KEY, "at" TIMESTAMPTZ NOT NULL)`)
    .catch((error) => {
      if (!['23505', '42P07'].includes(error.code)) throw error
    })
  for (;;) {
    await client.query(`DELETE FROM ${table} WHERE "at" < now() - interval '${lockIsOldAfter}'`)
    const taken = await client.query(`INSERT INTO ${table} VALUES (1, now()) ON CONFLICT DO NOTHING`)
    if (taken.rowCount === 1) return () => client.query(`DELETE FROM ${table}`)
    await new Promise((resolve) => setTimeout(resolve, 200))
  }
}

async function openPostgresql(url, lock) {
  const { default: pg } = await import('pg')
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  const release = await lockPostgresql(client, lock)
  return {
    all: async (sql) => (await client.query(sql)).rows,
    run: async (sql, values) => {
      let at = 0
      return client.query(
        sql.replace(/\?/g, () => `$${++at}`),
        values,
      )
    },
    close: async () => {
      await release().catch(() => {})
      await client.end()
    },
    apply: async (sql, record) => {
      await client.query('BEGIN')
      try {
        await client.query(sql)
        await record()
        await client.query('COMMIT')
      } catch (error) {
        await client.query('ROLLBACK')
        throw error
      }
    },
    tableSql: `CREATE TABLE IF NOT EXISTS "_prisma_migrations" (
      "id" VARCHAR(36) PRIMARY KEY NOT NULL, "checksum" VARCHAR(64) NOT NULL, "finished_at" TIMESTAMPTZ,
      "migration_name" VARCHAR(255) NOT NULL, "logs" TEXT, "rolled_back_at" TIMESTAMPTZ,
      "started_at" TIMESTAMPTZ NOT NULL DEFAULT now(), "applied_steps_count" INTEGER NOT NULL DEFAULT 0)`,
    now: () => new Date(),
  }
}

/**
 * Bring the database at `url` up to date.
 *
 * @param options.lock  on PostgreSQL: 'row' where a row is to let one process in at a time, for tests
 * @returns the names of the migrations applied just now
 * @throws Error when a migration that was applied has been edited since, or one is applied that this version does not know
 */
export async function migrate(url = databaseUrl(), { lock = 'advisory' } = {}) {
  const engine = isPostgresqlUrl(url) ? 'postgresql' : 'sqlite'
  const folder = path.join(here, engine, 'migrations')
  const names = readdirSync(folder)
    .filter((name) => existsSync(path.join(folder, name, 'migration.sql')))
    .sort()
  const database = engine === 'postgresql' ? await openPostgresql(url, lock) : await openSqlite(url)
  try {
    await database.run(database.tableSql, [])
    const rows = await database.all(
      'SELECT migration_name, checksum FROM "_prisma_migrations" WHERE rolled_back_at IS NULL AND finished_at IS NOT NULL',
    )
    const done = new Map(rows.map((row) => [row.migration_name, row.checksum]))
    for (const name of done.keys()) {
      if (!names.includes(name)) throw new Error(`This data was made by a newer Chart Larder (it has "${name}"). Update first.`)
    }
    const applied = []
    for (const name of names) {
      const sql = readFileSync(path.join(folder, name, 'migration.sql'), 'utf8')
      const checksum = createHash('sha256').update(sql).digest('hex')
      if (done.has(name)) {
        if (done.get(name) !== checksum) throw new Error(`migrate: "${name}" was edited after it was applied`)
        continue
      }
      await database.apply(sql, () =>
        database.run(
          `INSERT INTO "_prisma_migrations" (id, checksum, started_at, finished_at, migration_name, applied_steps_count)
           VALUES (?, ?, ?, ?, ?, 1)`,
          [randomUUID(), checksum, database.now(), database.now(), name],
        ),
      )
      applied.push(name)
    }
    return applied
  } finally {
    await database.close()
  }
}

/** How many accounts can sign in and keep house, in a database that is up to date. */
export async function countKeepers(url = databaseUrl()) {
  const database = isPostgresqlUrl(url) ? await openPostgresql(url) : await openSqlite(url)
  try {
    return (await database.all(`SELECT id FROM "Account" WHERE role = 'keeper' AND "closedAt" IS NULL`)).length
  } finally {
    await database.close()
  }
}

if (process.argv[1] === import.meta.filename) console.log('migrations applied:', (await migrate()).join(', ') || 'none')
