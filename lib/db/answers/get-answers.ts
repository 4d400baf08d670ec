import 'server-only'
import { SearchIndex } from '#lib/search/search-index'
import { type Database, database } from '../client'
import { type ReadRows, readSnapshot } from '../read-snapshot'
import { getSettings } from '../settings/settings'
import { changeRowsKept } from '../write-gate'
import { Answers, type World } from './answers'
import {
  readDesigns,
  readLineOfThread,
  readLines,
  readNames,
  readNeeds,
  readPieces,
  readPlaces,
  readProjects,
  readRevision,
  readStandIns,
  readStock,
  readThemes,
  readThreads,
} from './read-world'
import { searchEntries } from './search-entries'

type Shared = { answers: Answers | null; url: string; turn: Promise<unknown> }

const shared = globalThis as unknown as { larderAnswers?: Shared }

/** More changes than this at once are quicker read anew. */
const mostCaughtUp = 500

/**
 * The answers for the whole collection, never behind: the revision is looked up, and whatever was written since the last call is
 * read and taken over before they are handed out. Read them at once; a later call may change them.
 */
export async function getAnswers(): Promise<Answers> {
  const mine = database()
  if (shared.larderAnswers?.url !== mine.url) shared.larderAnswers = { answers: null, url: mine.url, turn: Promise.resolve() }
  const state = shared.larderAnswers
  const { number: revision } = await mine.prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
  if (state.answers?.revision === revision) return state.answers

  const turn = state.turn.then(() => upToDate(mine, state, revision))
  state.turn = turn.catch(() => {})
  return turn
}

async function upToDate(mine: Database, state: Shared, revision: number): Promise<Answers> {
  const known = state.answers
  if (known && known.revision >= revision) return known
  // Half caught up is worse than starting again.
  state.answers = null
  state.answers = (known && (await catchUp(mine, known))) ?? (await build(mine))
  return state.answers
}

function build(mine: Database): Promise<Answers> {
  return readSnapshot(mine, async (rows) => {
    const revision = await readRevision(rows)
    const settings = await getSettings()
    const lines = await readLines(rows)
    const lineOfThread = await readLineOfThread(rows)
    const designs = await readDesigns(rows, null)
    const needs = await readNeeds(rows, null, { designs, lines, lineOfThread, settings })
    const world: World = {
      settings,
      owners: await readNames(rows, 'Owner'),
      places: await readPlaces(rows),
      designers: await readNames(rows, 'Designer'),
      themes: await readThemes(rows),
      lines,
      lineOfThread,
      threads: await readThreads(rows, null),
      standIns: await readStandIns(rows),
      stock: await readStock(rows, null),
      pieces: await readPieces(rows),
      designs,
      lists: new Map(needs.map((list) => [list.listId, list])),
      projects: await readProjects(rows, null),
    }
    const search = new SearchIndex()
    search.addAll(searchEntries(world))
    return new Answers(revision, world, search)
  })
}

/** Take over what was written since. @returns null when it is too much, or of a kind that touches everything. */
async function catchUp(mine: Database, answers: Answers): Promise<Answers | null> {
  return readSnapshot(mine, async (rows) => {
    const revision = await readRevision(rows)
    if (revision - answers.revision > changeRowsKept) return null
    const ids = await changedIds(rows, answers.revision)
    if (ids === null) return null
    const of = (noun: string) => ids.get(noun) ?? []
    if (['everything', 'setting', 'maker', 'line', 'designer', 'owner'].some((noun) => of(noun).length > 0)) return null
    const { world, search } = answers

    if (of('place').length > 0) {
      const places = await readPlaces(rows)
      // A place that moved takes everything in it along; one that is new or renamed does not.
      if (of('place').some((id) => world.places.get(id) && world.places.get(id)?.path !== places.get(id)?.path)) return null
      world.places = places
    }
    if (of('thread').length > 0) answers.setThreads(of('thread'), await readThreads(rows, of('thread')))
    if (of('thread').length > 0 || of('standIn').length > 0) answers.setStandIns(await readStandIns(rows))
    if (of('batch').length > 0) {
      const threadIds = await threadsOfBatches(rows, of('batch'))
      answers.setStock(threadIds, await readStock(rows, threadIds))
    }
    if (of('cloth').length > 0 || of('project').length > 0) answers.setPieces(await readPieces(rows))
    const designIds = await designsOf(rows, of)
    if (designIds.length > 0) {
      world.themes = await readThemes(rows)
      world.designers = await readNames(rows, 'Designer')
      const designs = await readDesigns(rows, designIds)
      answers.setDesigns(designIds, designs, await readNeeds(rows, designIds, { ...world, designs }))
    }
    if (of('project').length > 0) answers.setProjects(of('project'), await readProjects(rows, of('project')))
    const touched = {
      thread: of('thread'),
      cloth: of('cloth'),
      place: of('place'),
      project: of('project'),
      design: designIds,
    }
    search.replaceAll(
      Object.entries(touched).flatMap(([noun, nounIds]) => nounIds.map((id) => `${noun}:${id}`)),
      searchEntries(world, touched),
    )
    answers.revision = revision
    return answers
  })
}

/** What changed after a revision, by noun; null when it is more than is worth catching up with. */
async function changedIds(rows: ReadRows, after: number): Promise<Map<string, string[]> | null> {
  const ids = new Map<string, string[]>()
  let count = 0
  const sql = 'SELECT DISTINCT "noun", "nounId" FROM "Change" WHERE "revision" > ? ORDER BY "noun", "nounId"'
  for await (const some of rows(sql, [after])) {
    for (const [noun, nounId] of some) {
      if (++count > mostCaughtUp) return null
      ids.set(String(noun), [...(ids.get(String(noun)) ?? []), String(nounId)])
    }
  }
  return ids
}

const marks = (ids: readonly string[]) => ids.map(() => '?').join(', ')

async function idsOf(rows: ReadRows, sql: string, values: readonly string[]): Promise<string[]> {
  const found: string[] = []
  for await (const some of rows(sql, [...values])) for (const [id] of some) found.push(String(id))
  return found
}

const threadsOfBatches = (rows: ReadRows, batchIds: readonly string[]) =>
  idsOf(rows, `SELECT DISTINCT "threadId" FROM "Batch" WHERE "id" IN (${marks(batchIds)})`, batchIds)

/** The designs touched by a change of their own, of their chart or of a list; ids of lists and charts that are gone fall away. */
async function designsOf(rows: ReadRows, of: (noun: string) => string[]): Promise<string[]> {
  const found = new Set(of('design'))
  for (const [noun, sql] of [
    ['chart', 'SELECT "id" FROM "Design" WHERE "chartId" IN'],
    ['list', 'SELECT "designId" FROM "ThreadList" WHERE "id" IN'],
  ] as const) {
    if (of(noun).length === 0) continue
    for (const id of await idsOf(rows, `${sql} (${marks(of(noun))})`, of(noun))) found.add(id)
  }
  return [...found]
}
