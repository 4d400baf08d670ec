import 'server-only'
import { log } from '#lib/log/log'
import { asProgram } from './access/asking'
import { getAnswers, hasAnswers } from './answers/get-answers'
import { knownMigrations } from './backup/copy-database'
import { database } from './client'

/** Why this process cannot serve yet, or just now. */
export type Unready =
  | { kind: 'database-away' }
  /** The database wants migrations this version has, or has some it does not know. */
  | { kind: 'other-version' }
  | { kind: 'answers-not-built' }

/** A database that takes longer to say what it has is as good as away. */
const patienceMs = 3_000

const shared = globalThis as unknown as { larderBuilding?: Promise<unknown> | null }

/** What keeps this process from serving; null where nothing does. Answers that were never built are begun with, so that they will be. */
export async function findUnready(): Promise<Unready | null> {
  let applied: string[]
  try {
    applied = await within(patienceMs, asProgram(readApplied))
  } catch {
    return { kind: 'database-away' }
  }
  const known = await knownMigrations()
  if (known.join() !== applied.join()) return { kind: 'other-version' }
  if (hasAnswers()) return null
  shared.larderBuilding ??= asProgram(getAnswers)
    .catch((error) => log.error('the answers could not be built', { error }))
    .finally(() => {
      shared.larderBuilding = null
    })
  return { kind: 'answers-not-built' }
}

async function readApplied(): Promise<string[]> {
  const rows = await database().prisma.$queryRaw<{ name: string }[]>`
    SELECT migration_name AS name FROM "_prisma_migrations" WHERE rolled_back_at IS NULL AND finished_at IS NOT NULL`
  return rows.map(({ name }) => name).sort()
}

async function within<T>(ms: number, work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('late')), ms)
  })
  try {
    return await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
    work.catch(() => {})
  }
}
