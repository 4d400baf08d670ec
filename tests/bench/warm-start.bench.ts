import { mkdtempSync, renameSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { buyPutUpsAt, missingAt, rankAt } from '#lib/coverage/answer-words'
import type { CoverageEngine } from '#lib/coverage/engine'
import type { NeedIndex } from '#lib/coverage/need-index'
import { loadNeeds, type NeedContext } from '#lib/db/answers/load-needs'
import { writeNeedFile } from '#lib/db/answers/need-file'
import { readDesigns } from '#lib/db/answers/read-designs'
import { readLineOfThread, readLines } from '#lib/db/answers/read-threads'
import { readRevision } from '#lib/db/answers/read-world'
import type { Database } from '#lib/db/client'
import { type ReadRows, readSnapshot } from '#lib/db/read-snapshot'
import { settingsSchema } from '#lib/settings/settings'
import { fillDatabase } from './archive-database'
import { engineOf } from './archive-engine'
import { ArchiveWorld, archiveSize, ownerIds } from './archive-world'
import { openFolder } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { bytesInUse, measuredBytes } from './memory'
import { comparedTimes, spreadOf } from './timing'

/** By turns: all rows read once, then the kept file so many times. */
const [turns, keptInTurn] = [2, 5]
const asked = [ownerIds[0]]

type Loading = { rows: ReadRows; url: string; revision: number; context: NeedContext }

/** @throws Error unless it came from where it was meant to come from */
async function load({ rows, url, revision, context }: Loading, from: 'the file' | 'the rows'): Promise<NeedIndex> {
  const { index, keptRevision } = await loadNeeds(rows, url, revision, context)
  if ((keptRevision !== null) !== (from === 'the file')) throw new Error(`warm-start: the needs did not come from ${from}`)
  return index
}

/** @throws Error at the first design the two do not say the same of */
function checkSame(world: ArchiveWorld, one: CoverageEngine, other: CoverageEngine): void {
  for (const id of world.designIds) {
    const figures = [one, other].map(({ words, index }) => {
      const row = index.answerRowOf(id)
      return [missingAt(words, row), buyPutUpsAt(words, row), rankAt(words, row)].join()
    })
    if (figures[0] !== figures[1]) throw new Error(`warm-start: design ${id}: ${figures.join(' and ')}`)
  }
}

async function timeKept(world: ArchiveWorld, loading: Loading): Promise<number> {
  const begun = performance.now()
  engineOf(world, await load(loading, 'the file'), asked)
  return performance.now() - begun
}

async function measure(world: ArchiveWorld, folder: string, loading: Loading): Promise<Measurement[]> {
  const [kept, aside] = [path.join(folder, 'answers'), path.join(folder, 'answers-aside')]
  const samples = { kept: [] as number[], rows: [] as number[] }
  let fromRows: NeedIndex | null = null
  for (let turn = 0; turn < turns; turn++) {
    const begun = performance.now()
    fromRows = await load(loading, 'the rows')
    samples.rows.push(performance.now() - begun)
    if (turn === 0) {
      const { rows, url, revision, context } = loading
      await writeNeedFile(rows, url, context.settings, { index: fromRows, revision })
    } else renameSync(aside, kept)
    for (let time = -1; time < keptInTurn; time++) {
      const ms = await timeKept(world, loading)
      if (time >= 0) samples.kept.push(ms)
    }
    if (turn < turns - 1) renameSync(kept, aside)
  }
  if (!fromRows) throw new RangeError(`warm-start: ${turns} turns`)
  const before = bytesInUse()
  const engine = engineOf(world, await load(loading, 'the file'), asked)
  const bytes = bytesInUse() - before
  checkSame(world, engine, engineOf(world, fromRows, asked))
  return [
    comparedTimes(
      'every answer ready from the kept file; only the needs worked out from the rows',
      { ours: spreadOf(samples.kept), against: spreadOf(samples.rows) },
      { samples: samples.kept.length, timesFaster: 50 },
    ),
    measuredBytes('memory of a key line after it, with all ids as texts of its own', bytes / world.keyLineCount),
  ]
}

/** In one reading of the database, as at a start. */
const measureOn = (store: Database, world: ArchiveWorld, folder: string): Promise<Measurement[]> =>
  readSnapshot(store, async (rows) => {
    const [lines, lineOfThread] = [await readLines(rows), await readLineOfThread(rows)]
    const context = { lines, lineOfThread, designs: await readDesigns(rows, null), settings: settingsSchema.parse({}) }
    return measure(world, folder, { rows, url: store.url, revision: await readRevision(rows), context })
  })

async function run(): Promise<Measurement[]> {
  console.log('Making the archive-size collection in a database (two gigabytes for a while) …')
  const world = new ArchiveWorld(archiveSize)
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-bench-'))
  const store = await openFolder(folder)
  fillDatabase(store.url, world)
  return measureOn(store, world, folder)
}

export const warmStart: Bench = {
  name: 'warm-start',
  about: [
    'What every list needs at a start of the archive-size collection (200,000 designs, 6,000,000 key lines) in a SQLite database of the project’s own schema, by the project’s own two ways: the file kept from an earlier run, read, its sum and its stamp checked and the changes since looked up; or every key line read from the database and worked out. To the first is added making the engine with every answer of one owner, from batches and promises. Threads and designs are read beforehand, for both need them. Both have the file system’s cache warm. Afterwards the answers of every design are held to be the same. The rows are read twice, between them the file five times each.',
  ],
  run,
}
