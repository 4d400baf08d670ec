import { parseArgs } from 'node:util'
import { bulkInsert, timestamp } from '#lib/db/bulk-insert'
import { type Database, database } from '#lib/db/client'
import { writeTo } from '#lib/db/write-gate'
import { ok } from '#lib/result'
import { type CollectionSize, collectionSizes, makeCollection } from './collection'
import type { TableRows } from './collection/rows'

/** Rows written in one transaction: large enough to be quick, small enough that a screen's own write need not wait long. */
const rowsInWrite = 100_000
const writeTimeoutMs = 120_000

const usage = `npm run seed -- --size ${collectionSizes.join('|')} [--seed 7]`

/** Write some tables' rows under one revision, which their movements then carry. */
async function writeRows(store: Database, pending: TableRows[]): Promise<void> {
  await writeTo(
    store,
    async (write) => {
      for (const { table, rows } of pending) {
        const stamped =
          table === 'Movement' ? rows.map((row) => ({ ...row, revision: write.revision, at: timestamp(write.at) })) : rows
        await bulkInsert(write.tx, write.engine, table, stamped)
      }
      write.touch('everything', '*')
      return ok(null)
    },
    writeTimeoutMs,
  )
}

/**
 * Fill an empty database with a made-up collection.
 *
 * @param report  told after each transaction how many rows are in and how many seconds it took so far
 * @returns how many rows were written
 */
export async function seedCollection(
  store: Database,
  { size, seed, report }: { size: CollectionSize; seed: number; report: (rowCount: number, seconds: number) => void },
): Promise<number> {
  const begun = performance.now()
  let pending: TableRows[] = []
  let pendingCount = 0
  let written = 0
  const flush = async () => {
    await writeRows(store, pending)
    written += pendingCount
    pending = []
    pendingCount = 0
    report(written, (performance.now() - begun) / 1000)
  }
  for (const part of makeCollection({ size, seed })) {
    pending.push(part)
    pendingCount += part.rows.length
    if (pendingCount >= rowsInWrite) await flush()
  }
  if (pendingCount > 0) await flush()
  return written
}

function readArguments(): { size: CollectionSize; seed: number } | string {
  try {
    const { values } = parseArgs({ options: { size: { type: 'string' }, seed: { type: 'string', default: '7' } } })
    const size = collectionSizes.find((one) => one === values.size)
    if (!size) return `Say which size: ${usage}`
    if (!/^\d{1,9}$/.test(values.seed)) return `A seed is a whole number, such as 7: ${usage}`
    return { size, seed: Number(values.seed) }
  } catch (error) {
    return `${(error as Error).message} Use: ${usage}`
  }
}

/** @returns the exit code */
async function main(): Promise<number> {
  const wanted = readArguments()
  if (typeof wanted === 'string') {
    console.error(wanted)
    return 1
  }
  const store = database()
  try {
    const held = await Promise.all([store.prisma.chart.count(), store.prisma.owner.count(), store.prisma.place.count()])
    if (held.some((count) => count > 0)) {
      console.error(
        `${store.engine === 'sqlite' ? store.url.replace(/^file:/, '') : 'This database'} already holds a collection, and a made-up one is not mixed into it. Set LARDER_DATA to an empty folder and run this again.`,
      )
      return 1
    }
    const written = await seedCollection(store, {
      ...wanted,
      report: (rowCount, seconds) =>
        console.log(`${rowCount.toLocaleString('en')} rows, ${Math.round(rowCount / seconds).toLocaleString('en')} a second`),
    })
    console.log(`Done: the ${wanted.size} collection of seed ${wanted.seed}, ${written.toLocaleString('en')} rows.`)
    return 0
  } finally {
    await store.prisma.$disconnect()
  }
}

if (process.argv[1] === import.meta.filename) process.exitCode = await main()
