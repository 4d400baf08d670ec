import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { database } from '#lib/db/client'
import { listOwners } from '#lib/db/owner/owners'
import { seedCollection } from '#seed/seed'
import { migrate } from '../../prisma/migrate.mjs'

/** The made-up collection of a shop (20,000 charts, 3,000 threads), always of this seed. */
const collectionSeed = 7

export type ShopCollection = {
  folder: string
  answers: Answers
  /** The owner whose goods the screens show first. */
  ownerIds: string[]
}

let made: Promise<ShopCollection> | null = null
let folder: string | null = null

/** The shop's collection in a folder of its own, made when first asked for and shared by all groups of a run. */
export function shopCollection(): Promise<ShopCollection> {
  made ??= make()
  return made
}

async function make(): Promise<ShopCollection> {
  folder = mkdtempSync(path.join(tmpdir(), 'larder-bench-'))
  process.env.LARDER_DATA = folder
  delete process.env.DATABASE_URL
  console.log('Making the shop-size collection …')
  await migrate()
  await seedCollection(database(), { size: 'shop', seed: collectionSeed, report: () => {} })
  const answers = await getAnswers()
  const [owner] = await listOwners()
  if (!owner) throw new Error('shopCollection: the collection has no owner')
  return { folder, answers, ownerIds: [owner.id] }
}

/** Close it and take its folder away, if it was made. */
export async function dropShopCollection(): Promise<void> {
  if (folder === null) return
  await database().prisma.$disconnect()
  rmSync(folder, { recursive: true, force: true })
}
