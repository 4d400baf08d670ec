import { mkdtempSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { PassThrough } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createDeflateRaw } from 'node:zlib'
import { archiveTables } from '#lib/archive/tables'
import { bringBack } from '#lib/db/archive/bring-back'
import { tableRows } from '#lib/db/archive/table-rows'
import { type WrittenArchive, writeArchive } from '#lib/db/archive/write-archive'
import type { Database } from '#lib/db/client'
import { readSnapshot } from '#lib/db/read-snapshot'
import { seedCollection } from '#seed/seed'
import { openFolder } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { bytesInUse, measuredBytes } from './memory'
import { comparedTimes, spreadOf } from './timing'

const turns = 3
const seed = 7
const mostBytes = 300 * 1024 ** 2

const folderOf = () => mkdtempSync(path.join(tmpdir(), 'larder-bench-archive-'))

async function timed(work: () => Promise<unknown>): Promise<number> {
  const begun = performance.now()
  await work()
  return performance.now() - begun
}

/** What cannot be done without: every row read, written as JSON and deflated, in one stream, with no checksum and no sheet. */
async function floor(database: Database): Promise<void> {
  await readSnapshot(database, async (rows) => {
    async function* lines() {
      for (const table of archiveTables)
        for await (const some of tableRows(rows, table, database.engine))
          yield Buffer.from(some.map((row) => `${JSON.stringify(row)}\n`).join(''))
    }
    await pipeline(lines, createDeflateRaw({ level: 6 }), new PassThrough().resume())
  })
}

/** The most that is in use while something goes on, beyond what was before. */
async function mostInUse(work: (look: () => void) => Promise<unknown>): Promise<number> {
  const before = bytesInUse()
  let most = 0
  await work(() => {
    const { heapUsed, arrayBuffers } = process.memoryUsage()
    most = Math.max(most, heapUsed + arrayBuffers - before)
  })
  return most
}

async function run(): Promise<Measurement[]> {
  const [here, there] = [folderOf(), folderOf()]
  const file = path.join(here, 'collection.zip')
  const samples = { out: [] as number[], floor: [] as number[], back: [] as number[], seed: [] as number[] }
  const source = await openFolder(here)
  samples.seed.push(await timed(() => seedCollection(source, { size: 'shop', seed, report: () => {} })))

  let first: WrittenArchive | null = null
  for (let turn = 0; turn < turns; turn++) {
    samples.floor.push(await timed(() => floor(source)))
    samples.out.push(
      await timed(async () => {
        first = await writeArchive(source, { file })
      }),
    )
  }
  const outBytes = await mostInUse((look) => writeArchive(source, { file, report: look }))

  const target = await openFolder(there)
  let backBytes = 0
  samples.back.push(
    await timed(async () => {
      backBytes = await mostInUse(async (look) => {
        const back = await bringBack(target, { file, report: look })
        if (!back.ok) throw new Error(`archive-round-trip: ${back.error.kind}`)
      })
    }),
  )
  const second = await writeArchive(target, { file: path.join(there, 'again.zip') })
  const { rowCount, parts } = first as unknown as WrittenArchive
  if (JSON.stringify(second.parts) !== JSON.stringify(parts))
    throw new Error('archive-round-trip: it came back other than it was')

  const rows = `${rowCount.toLocaleString('en-GB')} rows`
  const goal = (bytes: number) => ({ words: 'at most 300 MB', isMet: bytes <= mostBytes })
  return [
    comparedTimes(
      `a shop’s collection taken out, ${rows}; the same rows read, written as JSON and deflated, and no more`,
      { ours: spreadOf(samples.out), against: spreadOf(samples.floor) },
      { samples: turns, timesFaster: 1 / 2.5 },
    ),
    comparedTimes(
      'the same brought back, checked and in one change; made anew by the generator, with bulk inserts',
      { ours: spreadOf(samples.back), against: spreadOf(samples.seed) },
      { samples: 1, timesFaster: 1 / 4 },
    ),
    measuredBytes('the archive on the disk', statSync(file).size),
    measuredBytes('the most memory in use while it is taken out', outBytes, goal(outBytes)),
    measuredBytes('the most memory in use while it is brought back', backBytes, goal(backBytes)),
  ]
}

export const archiveRoundTrip: Bench = {
  name: 'archive-round-trip',
  about: [
    'A whole collection as one ZIP, and back: 20,000 charts with their keys, 3,000 threads. What is brought back is taken out again, and has to be the same to the last byte.',
    'Beside taking out stands what any such file costs: reading all rows, writing them as JSON, deflating. Beside bringing back, the generator that makes the same collection.',
  ],
  run,
}
