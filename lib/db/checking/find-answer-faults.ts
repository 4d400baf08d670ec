import 'server-only'
import type { Fault } from '#lib/checking/fault'
import { Sample } from '#lib/checking/sample'
import { type NeedIndex, NeedIndexBuilder } from '#lib/coverage/need-index'
import { SearchIndex } from '#lib/search/search-index'
import { Answers } from '../answers/answers'
import { getAnswers, hasAnswers } from '../answers/get-answers'
import { readKeptNeeds } from '../answers/load-needs'
import { type DesignFacts, readDesigns, readNeeds } from '../answers/read-designs'
import { readLineOfThread, readLines, readStandIns, readStock, readThreads } from '../answers/read-threads'
import { readRevision } from '../answers/read-world'
import { text } from '../cells'
import type { Database } from '../client'
import { each, type ReadRows, readSnapshot } from '../read-snapshot'
import { getSettings } from '../settings/settings'

/** Designs looked at: of a larger collection a sample. */
const mostDesigns = 2_000
/** Asked for at once; SQLite takes no more than 999 of them. */
const idsAtATime = 500

/** How many were held against the database, and of how many. */
export type Compared = { looked: number; of: number }

const collection = { noun: 'collection', id: 'main', name: 'the collection', linkId: null } as const

/** The designs that are looked at, with what each needs as the database has it. */
async function readAnew(rows: ReadRows, seed: number) {
  const sample = new Sample(mostDesigns, seed)
  const sql = `SELECT d."id" FROM "Design" d JOIN "Chart" c ON c."id" = d."chartId" WHERE c."goneAt" IS NULL ORDER BY d."id"`
  for await (const [id] of each(rows, sql)) sample.offer(text(id))
  const settings = await getSettings()
  const [lines, lineOfThread] = [await readLines(rows), await readLineOfThread(rows)]
  const designs = new Map<string, DesignFacts>()
  const builder = new NeedIndexBuilder(lineOfThread.keys())
  for (let at = 0; at < sample.taken.length; at += idsAtATime) {
    const ids = sample.taken.slice(at, at + idsAtATime)
    for (const [id, facts] of await readDesigns(rows, ids)) designs.set(id, facts)
    for await (const list of readNeeds(rows, ids, { designs, lines, lineOfThread, settings })) builder.add(list)
  }
  return { sample, context: { designs, lines, lineOfThread, settings }, needs: builder.finish() }
}

/** What a design's lists need, in an order of its own. */
const needsOf = (index: NeedIndex, designId: string): string =>
  JSON.stringify(
    index
      .rowsOf(designId)
      .map((row) => {
        const { threads, needs, start, end } = index.needsOf(row)
        const each = Array.from({ length: end - start }, (_, at) => [
          index.threadIds[threads[start + at] as number] as string,
          needs[start + at],
        ])
        return [index.listAt(row), index.isIncomplete(row), each.sort(([a], [b]) => (String(a) < String(b) ? -1 : 1))]
      })
      .sort(([a], [b]) => (String(a) < String(b) ? -1 : 1)),
  )

/**
 * Hold the needs kept for the next start against the database: of every design, or of a sample where there are many.
 *
 * @returns null in `compared` where none are kept, or those that are would not be used.
 */
export async function findSnapshotFaults(rows: ReadRows, url: string): Promise<{ compared: Compared | null; faults: Fault[] }> {
  const revision = await readRevision(rows)
  const anew = await readAnew(rows, revision)
  const kept = await readKeptNeeds(rows, url, revision, anew.context)
  if (kept === null) return { compared: null, faults: [] }
  const differ = anew.sample.taken.filter((id) => needsOf(kept.index, id) !== needsOf(anew.needs, id)).length
  const compared = { looked: anew.sample.taken.length, of: anew.sample.seen }
  if (differ === 0) return { compared, faults: [] }
  const facts = { kind: 'snapshot-differs' as const, lists: differ, of: compared.looked }
  return { compared, faults: [{ ...facts, id: 'snapshot-differs:main', about: collection }] }
}

/** Somebody writes on while they are compared: it is tried so often. */
const attempts = 3

/**
 * Hold the answers this process has in memory against those worked out anew from the database, from everybody's stock: of every design, or
 * of a sample where there are many.
 *
 * @returns null in `compared` where this process holds none, or changes came faster than they could be compared
 */
export async function findAnswerFaults(database: Database): Promise<{ compared: Compared | null; faults: Fault[] }> {
  for (let tried = 0; tried < attempts && hasAnswers(); tried++) {
    const found = await readSnapshot(database, async (rows) => {
      const revision = await readRevision(rows)
      const { sample, context, needs } = await readAnew(rows, revision)
      const [threads, standIns, stock] = [await readThreads(rows, null), await readStandIns(rows), await readStock(rows, null)]
      const held = await getAnswers()
      if (held.revision !== revision) return null
      // From here on nothing else runs in between.
      const world = { ...held.world, ...context, threads, standIns, stock }
      const fresh = new Answers(revision, world, needs, new SearchIndex())
      const ownerIds = [...held.world.owners.keys()].sort()
      const [coverage, coverageAnew] = [held.coverage(ownerIds), fresh.coverage(ownerIds)]
      const isAsHeld = (id: string) =>
        needsOf(held.needs, id) === needsOf(needs, id) &&
        JSON.stringify(held.world.designs.get(id)) === JSON.stringify(context.designs.get(id)) &&
        JSON.stringify(coverage.answerFor(id)) === JSON.stringify(coverageAnew.answerFor(id))
      return {
        compared: { looked: sample.taken.length, of: sample.seen },
        differ: sample.taken.filter((id) => !isAsHeld(id)).length,
      }
    })
    if (found === null) continue
    const { compared, differ } = found
    if (differ === 0) return { compared, faults: [] }
    const facts = { kind: 'answers-differ' as const, designs: differ, of: compared.looked }
    return { compared, faults: [{ ...facts, id: 'answers-differ:main', about: collection }] }
  }
  return { compared: null, faults: [] }
}
