import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { type Database, openDatabase } from '#lib/db/client'
import { databaseUrl } from '#lib/db/data-folder'
import { listOwners } from '#lib/db/owner/owners'
import type { CollectionSize } from '#seed/collection'
import { seedCollection } from '#seed/seed'
import { migrate } from '../../prisma/migrate.mjs'

/** The made-up collections are always of this seed: home has 500 charts and 400 threads, shop 20,000 and 3,000. */
const collectionSeed = 7

export type MadeCollection = {
  folder: string
  answers: Answers
  /** The owner whose goods the screens show first. */
  ownerIds: string[]
}

const made = new Map<CollectionSize, Promise<MadeCollection>>()
const opened: { folder: string; store: Database }[] = []

/** A made-up collection in a folder of its own, made when first asked for and shared by all groups of a run. */
export function madeCollection(size: CollectionSize): Promise<MadeCollection> {
  const known = made.get(size) ?? make(size)
  made.set(size, known)
  return known
}

/** Point the process's database at a data folder, empty or not. */
export async function openFolder(folder: string): Promise<Database> {
  process.env.LARDER_DATA = folder
  delete process.env.DATABASE_URL
  await migrate()
  const store = openDatabase(databaseUrl())
  ;(globalThis as { larderDatabase?: Database }).larderDatabase = store
  opened.push({ folder, store })
  return store
}

async function make(size: CollectionSize): Promise<MadeCollection> {
  console.log(`Making the ${size}-size collection …`)
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-bench-'))
  const store = await openFolder(folder)
  await seedCollection(store, { size, seed: collectionSeed, report: () => {} })
  const answers = await getAnswers()
  const [owner] = await listOwners()
  if (!owner) throw new Error('madeCollection: the collection has no owner')
  return { folder, answers, ownerIds: [owner.id] }
}

/** Close all that were opened and take their folders away. */
export async function dropFolders(): Promise<void> {
  for (const { folder, store } of opened) {
    await store.prisma.$disconnect()
    rmSync(folder, { recursive: true, force: true })
  }
}
