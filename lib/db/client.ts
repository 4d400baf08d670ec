import 'server-only'
import { PrismaLibSql } from '@prisma/adapter-libsql'
import { PrismaPg } from '@prisma/adapter-pg'
import { seenOwners } from '#lib/access/who'
import { log } from '#lib/log/log'
import { who } from './access/asking'
import { databaseUrl, isPostgresqlUrl } from './data-folder'
import { PrismaClient as PostgresqlClient } from './generated/postgresql/client'
import { type Prisma, PrismaClient as SqliteClient } from './generated/sqlite/client'
import { sightedClient } from './sight/sighted-client'

/**
 * Both engines have one schema, so the SQLite client's types serve for both.
 * `engine` is for the few raw statements that differ.
 */
export type Database = { prisma: SqliteClient; engine: 'sqlite' | 'postgresql'; url: string }
export type Transaction = Prisma.TransactionClient

/**
 * SQLite waits for a lock inside the call, and everybody else in the process with it: so not for long. Whoever writes tries again, with
 * others served in between (write-gate.ts).
 */
const lockWaitMs = 250
/** PostgreSQL waits without holding anybody up, but not for ever. */
const postgresqlLockWaitMs = 10_000

/** A query slower than this is worth a line in the log. */
const slowMs = 500

/** A new client; the caller disconnects it. Screens and API use `database()`. */
export function openDatabase(url: string): Database {
  const log = [{ emit: 'event' as const, level: 'query' as const }]
  if (isPostgresqlUrl(url)) {
    const client = new PostgresqlClient({
      adapter: new PrismaPg({ connectionString: url, options: `-c lock_timeout=${postgresqlLockWaitMs}` }),
      log,
    })
    return { prisma: logSlowQueries(client as unknown as SqliteClient), engine: 'postgresql', url }
  }
  const client = new SqliteClient({ adapter: new PrismaLibSql({ url, timeout: lockWaitMs }), log })
  return { prisma: logSlowQueries(client), engine: 'sqlite', url }
}

function logSlowQueries(client: SqliteClient): SqliteClient {
  const events = client as unknown as { $on(event: 'query', listener: (query: Prisma.QueryEvent) => void): void }
  events.$on('query', (query) => {
    const ms = Math.round(query.duration)
    // Its values are not in it, only their places.
    if (query.duration > slowMs) log.warn(`slow query, ${ms} ms: ${query.query.slice(0, 300)}`, { kind: 'slow query', ms })
  })
  return client
}

// Pages, actions and routes are bundled apart and each would otherwise hold its own client.
const shared = globalThis as unknown as { larderDatabase?: Database }

/** The process's one database, whoever asks. */
function wholeDatabase(): Database {
  shared.larderDatabase ??= openDatabase(databaseUrl())
  return shared.larderDatabase
}

/** Accounts share what they see in sets; more of them than this are made again when asked. */
const sightsKept = 32
const sights = new WeakMap<object, Map<string, Database>>()

/** The process's one database, as whoever asks sees it: all of it, or only some owners' goods. */
export function database(): Database {
  const whole = wholeDatabase()
  const ownerIds = seenOwners(who())
  if (ownerIds === null) return whole
  const known = sights.get(whole.prisma) ?? new Map<string, Database>()
  sights.set(whole.prisma, known)
  const key = [...ownerIds].sort().join(' ')
  let seen = known.get(key)
  if (!seen) {
    if (known.size >= sightsKept) known.clear()
    seen = { ...whole, prisma: sightedClient(whole.prisma, ownerIds, whole.engine) }
    known.set(key, seen)
  }
  return seen
}
