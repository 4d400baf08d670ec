import 'server-only'
import { inSpan } from '#lib/log/span'
import type { Result } from '#lib/result'
import { bulkInsert } from './bulk-insert'
import type { Database, Transaction } from './client'
import { newId } from './new-id'

/** What a change row can name; `everything` tells a reader to start again from the database. */
export type ChangedNoun =
  | 'owner'
  | 'place'
  | 'maker'
  | 'line'
  | 'thread'
  | 'standIn'
  | 'batch'
  | 'cloth'
  | 'notion'
  | 'designer'
  | 'chart'
  | 'design'
  | 'list'
  | 'project'
  | 'setting'
  | 'everything'

export type Write = {
  tx: Transaction
  engine: Database['engine']
  /** The revision this write raises the collection to. */
  revision: number
  /** One moment for all of it. */
  at: Date
  /** Say what was written, so that derived views catch up. */
  touch(noun: ChangedNoun, nounId: string): void
}

/** More changes than this in one write are quicker read anew than caught up with. */
const changesWorthNaming = 2_000
/** Change rows older than this many revisions are dropped; a reader further behind starts again. */
export const changeRowsKept = 10_000
/** Told with every write on PostgreSQL, with the revision it raised. */
export const revisionNotice = 'larder_revision'
const attempts = 10
/** However quickly the attempts went by, whoever is in the way is given so long. */
const patienceMs = 10_000

class Abandoned<E> extends Error {
  constructor(readonly refusal: E) {
    super('write abandoned')
  }
}

// One writing transaction at a time in the process: SQLite has one writer anyway, and waiting here is fair and cannot time out.
const shared = globalThis as unknown as { larderWriters?: Map<string, Promise<unknown>> }
shared.larderWriters ??= new Map()

/**
 * The one door for writes: read, decide, write, all in one transaction.
 *
 * Its first statement raises the revision, which takes SQLite's write lock and the PostgreSQL row lock, so what `work` reads after
 * it cannot change under it, and revisions are committed in their order. A refused result, or anything thrown, leaves no trace.
 * When another process is in the way the whole of `work` runs again, so it must have no effect but through `tx`.
 *
 * @param work       gets the open transaction; everything in it goes through `write.tx`
 * @param timeoutMs  how long the transaction may take once begun
 */
export function writeTo<T, E>(
  database: Database,
  work: (write: Write) => Promise<Result<T, E>>,
  timeoutMs = 30_000,
): Promise<Result<T, E>> {
  const writers = shared.larderWriters as Map<string, Promise<unknown>>
  const before = writers.get(database.url) ?? Promise.resolve()
  const mine = before.then(() => attempt(database, work, timeoutMs))
  writers.set(
    database.url,
    mine.catch(() => {}),
  )
  return mine
}

/** Let nobody in this process write while `work` runs: what is under way is waited for, and what comes later waits. */
export function holdWritesTo(url: string, work: () => Promise<void>): Promise<void> {
  const writers = shared.larderWriters as Map<string, Promise<unknown>>
  const mine = (writers.get(url) ?? Promise.resolve()).then(work)
  writers.set(
    url,
    mine.catch(() => {}),
  )
  return mine
}

async function attempt<T, E>(
  database: Database,
  work: (write: Write) => Promise<Result<T, E>>,
  timeoutMs: number,
): Promise<Result<T, E>> {
  const tells = database.engine === 'postgresql' && (await canTell(database))
  const began = performance.now()
  for (let tried = 1; ; tried++) {
    try {
      return await inSpan('write', { 'larder.tried': tried }, () =>
        database.prisma.$transaction((tx) => inTransaction(database, tx, work, tells), {
          maxWait: 10_000,
          timeout: timeoutMs,
        }),
      )
    } catch (error) {
      if (error instanceof Abandoned) return { ok: false, error: error.refusal as E }
      const isPatienceOver = tried >= attempts && performance.now() - began > patienceMs
      if (isPatienceOver || !isSomebodyInTheWay(error)) throw error
      await new Promise((resolve) => setTimeout(resolve, Math.random() * 50 * 2 ** Math.min(tried, 5)))
    }
  }
}

async function inTransaction<T, E>(
  database: Database,
  tx: Transaction,
  work: (write: Write) => Promise<Result<T, E>>,
  tells: boolean,
): Promise<Result<T, E>> {
  const { number: revision } = await tx.revision.update({ where: { id: 'main' }, data: { number: { increment: 1 } } })
  const touched = new Map<string, { noun: ChangedNoun; nounId: string }>()
  const result = await work({
    tx,
    engine: database.engine,
    revision,
    at: new Date(),
    touch: (noun, nounId) => touched.set(`${noun}:${nounId}`, { noun, nounId }),
  })
  if (!result.ok) throw new Abandoned(result.error)

  const changes = touched.size > changesWorthNaming ? [{ noun: 'everything' as const, nounId: '*' }] : [...touched.values()]
  await bulkInsert(
    tx,
    database.engine,
    'Change',
    changes.map((change) => ({ id: newId(), revision, ...change })),
  )
  // Heard by the others when this is committed, and not at all where it is not.
  if (tells) await tx.$executeRawUnsafe('SELECT pg_notify($1, $2)', revisionNotice, String(revision))
  if (revision % 1_000 === 0) await tx.change.deleteMany({ where: { revision: { lt: revision - changeRowsKept } } })
  return result
}

const canTellAt = new Map<string, Promise<boolean>>()

/** Whether the database passes notices on: one that only speaks PostgreSQL's protocol may not, and a write that tried would be lost. */
function canTell({ url, prisma }: Database): Promise<boolean> {
  const known = canTellAt.get(url)
  if (known) return known
  const found = prisma.$executeRawUnsafe(`SELECT pg_notify('larder_tried', '')`).then(
    () => true,
    // Away for the moment, it is asked again.
    (error) => {
      if (!/does not exist|not supported|unimplemented|syntax/i.test(String(error))) canTellAt.delete(url)
      return false
    },
  )
  canTellAt.set(url, found)
  return found
}

/** Locked, timed out waiting, or a serialization failure: trying again may well succeed. */
export function isSomebodyInTheWay(error: unknown): boolean {
  const { name, code, message } = error as { name?: unknown; code?: unknown; message?: unknown }
  const says = String(message)
  if (code === 'P1008' || code === 'P2034' || inTheWay.has(String(code))) return true
  if (code === 'P2028') return /Unable to start a transaction/i.test(says)
  // Refused at the very end, by the commit, it comes as the driver's adapter tells it; a statement of our own, with SQLSTATE in its sentence.
  if (name === 'DriverAdapterError' && says === 'TransactionWriteConflict') return true
  const state = /Raw query failed. Code: `(\w+)`/.exec(says)?.[1]
  if (state !== undefined && inTheWay.has(state)) return true
  return /SQLITE_BUSY|database is locked|deadlock detected|could not serialize/i.test(says)
}

/** SQLSTATE: serialization failure, deadlock. */
const inTheWay = new Set(['40001', '40P01'])
