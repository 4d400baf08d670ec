import 'server-only'
import type { ListNeeds } from '#lib/coverage/need-columns'
import { inSpan } from '#lib/log/span'
import { SearchIndex } from '#lib/search/search-index'
import { type Database, database } from '../client'
import { readSnapshot } from '../read-snapshot'
import { getSettings } from '../settings/settings'
import { ownersSeenBy } from '../sight/sighted-client'
import { changeRowsKept, isSomebodyInTheWay } from '../write-gate'
import { Answers, type World } from './answers'
import { changedIds, designsOf, threadsOfBatches } from './changed-ids'
import { loadNeeds, readAllNeeds } from './load-needs'
import { fewestListsKept, writeNeedFile } from './need-file'
import { readDesigns, readNeeds } from './read-designs'
import { readLineOfThread, readLines, readStandIns, readStock, readThreads } from './read-threads'
import { readFormer, readNames, readNotions, readPieces, readPlaces, readProjects, readRevision, readThemes } from './read-world'
import { searchEntries } from './search-entries'

type Shared = {
  answers: Answers | null
  url: string
  /** Answers of those who see only some owners' goods, by whose. */
  seen: Map<string, Shared>
  turn: Promise<unknown>
  /** The revision the needs were last kept at for the next start. */
  keptRevision: number
  /** Set while they are waiting to be kept. */
  keeping: NodeJS.Timeout | null
}

const shared = globalThis as unknown as { larderAnswers?: Shared }

const noneYet = (url: string): Shared => ({
  ...{ answers: null, url, seen: new Map(), turn: Promise.resolve(), keptRevision: -1, keeping: null },
})

/** Answers for some owners only are held for so many sets of them, those asked last. */
const sightsHeld = 4

/** The needs are kept anew when so many revisions have passed, well before catching up with them would be too much. */
const revisionsUnkept = 200
const keepAfterMs = 5_000

/** Where the answers of whoever asks are held: one for all who see everything, else one for each set of owners. */
function stateOf(mine: Database): Shared {
  if (shared.larderAnswers?.url !== mine.url) {
    clearTimeout(shared.larderAnswers?.keeping ?? undefined)
    shared.larderAnswers = noneYet(mine.url)
  }
  const ownerIds = ownersSeenBy(mine.prisma)
  if (ownerIds === null) return shared.larderAnswers
  const { seen } = shared.larderAnswers
  const key = [...ownerIds].sort().join(' ')
  const state = seen.get(key) ?? noneYet(mine.url)
  seen.delete(key)
  seen.set(key, state)
  if (seen.size > sightsHeld) seen.delete(seen.keys().next().value as string)
  return state
}

/**
 * The answers for all that whoever asks may see, never behind: the revision is looked up, and whatever was written since the last call is
 * read and taken over before they are handed out. Read them at once; a later call may change them.
 */
export async function getAnswers(): Promise<Answers> {
  const mine = database()
  const state = stateOf(mine)
  const { number: revision } = await mine.prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
  if (state.answers?.revision === revision) return state.answers

  const turn = state.turn.then(() => upToDate(mine, state, revision))
  state.turn = turn.catch(() => {})
  return turn
}

/** Whether answers are held by this process at all: a command of its own holds none. */
export const hasAnswers = (): boolean =>
  (shared.larderAnswers?.answers ?? null) !== null && shared.larderAnswers?.url === database().url

/** The needs kept for the next start were thrown away: keep them anew. */
export function keepNeedsAnew(): void {
  if (!shared.larderAnswers) return
  shared.larderAnswers.keptRevision = -1
  keepSoon(database(), shared.larderAnswers)
}

async function upToDate(mine: Database, state: Shared, revision: number): Promise<Answers> {
  const known = state.answers
  if (known && known.revision >= revision) return known
  // Half caught up is worse than starting again.
  state.answers = null
  state.answers = await inSpan(
    'answers',
    { 'larder.revision': revision, 'larder.behind': known ? revision - known.revision : -1 },
    async () => (known && (await unlessInTheWay(() => catchUp(mine, known)))) ?? (await buildTrying(mine, state)),
  )
  if (ownersSeenBy(mine.prisma) === null) keepSoon(mine, state)
  return state.answers
}

/** A distributed database may refuse to read as well, and what was half taken over by then is of no use. @returns null where it did */
async function unlessInTheWay<T>(read: () => Promise<T>): Promise<T | null> {
  try {
    return await read()
  } catch (error) {
    if (isSomebodyInTheWay(error)) return null
    throw error
  }
}

const buildAttempts = 4

async function buildTrying(mine: Database, state: Shared): Promise<Answers> {
  for (let tried = 1; tried < buildAttempts; tried++) {
    const answers = await unlessInTheWay(() => build(mine, state))
    if (answers) return answers
  }
  return build(mine, state)
}

/** Keep the needs for the next start, a little later, once what goes on has settled. */
function keepSoon(mine: Database, state: Shared): void {
  const { answers } = state
  if (!answers || state.keeping || answers.needs.listCount < fewestListsKept) return
  if (state.keptRevision >= 0 && answers.revision - state.keptRevision < revisionsUnkept) return
  state.keeping = setTimeout(() => {
    const turn = state.turn.then(async () => {
      const now = state.answers
      state.keeping = null
      if (!now) return
      state.keptRevision = now.revision
      const { revision, needs } = now
      await readSnapshot(mine, (rows) => writeNeedFile(rows, mine.url, now.world.settings, { index: needs, revision }))
    })
    state.turn = turn.catch(() => {})
  }, keepAfterMs)
  state.keeping.unref()
}

function build(mine: Database, state: Shared): Promise<Answers> {
  return readSnapshot(mine, async (rows, allRows) => {
    const revision = await readRevision(rows)
    const settings = await getSettings()
    const lines = await readLines(rows)
    const lineOfThread = await readLineOfThread(rows)
    const designs = await readDesigns(rows, null)
    const context = { designs, lines, lineOfThread, settings }
    const isWhole = ownersSeenBy(mine.prisma) === null
    // What is kept for the next start tells of every owner's lists.
    const { index: needs, keptRevision } = isWhole
      ? await loadNeeds(rows, mine.url, revision, context)
      : { index: await readAllNeeds(rows, context), keptRevision: null }
    state.keptRevision = keptRevision ?? -1
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
      formerCodes: await readFormer(rows, 'codes'),
      formerTitles: await readFormer(rows, 'titles'),
      stock: await readStock(rows, null),
      pieces: await readPieces(rows, allRows),
      notions: await readNotions(rows, null),
      designs,
      projects: await readProjects(rows, null),
    }
    const search = new SearchIndex()
    search.addAll(searchEntries(world))
    return new Answers(revision, world, needs, search)
  })
}

/** Take over what was written since. @returns null when it is too much, or of a kind that touches everything. */
async function catchUp(mine: Database, answers: Answers): Promise<Answers | null> {
  return readSnapshot(mine, async (rows, allRows) => {
    const revision = await readRevision(rows)
    if (revision - answers.revision > changeRowsKept) return null
    const ids = await changedIds(rows, answers.revision)
    if (ids === null) return null
    const of = (noun: string) => ids.get(noun) ?? []
    const { world, search } = answers
    if (of('everything').length > 0) return null
    const makerIds = new Set([...world.lines.values()].map(({ makerId }) => makerId))
    const isKnown = {
      line: (id: string) => world.lines.has(id),
      maker: (id: string) => makerIds.has(id),
      designer: (id: string) => world.designers.has(id),
      owner: (id: string) => world.owners.has(id),
    }
    // A new one is used by what is new too; a changed one by anything.
    for (const noun of ['line', 'maker', 'designer', 'owner'] as const) if (of(noun).some(isKnown[noun])) return null
    if (of('setting').length > 0) {
      const settings = await getSettings()
      if (settings.allowance !== world.settings.allowance) return null
      answers.setSettings(settings)
    }
    if (of('line').length > 0) world.lines = await readLines(rows)
    if (of('line').length > 0) world.lineOfThread = await readLineOfThread(rows)
    if (of('owner').length > 0) world.owners = await readNames(rows, 'Owner')

    if (of('place').length > 0) {
      const places = await readPlaces(rows)
      // A place that moved takes everything in it along; one that is new or renamed does not.
      if (of('place').some((id) => world.places.get(id) && world.places.get(id)?.path !== places.get(id)?.path)) return null
      world.places = places
    }
    if (of('thread').length > 0) world.formerCodes = await readFormer(rows, 'codes')
    if (of('chart').length > 0) world.formerTitles = await readFormer(rows, 'titles')
    if (of('thread').length > 0) answers.setThreads(of('thread'), await readThreads(rows, of('thread')))
    if (of('thread').length > 0 || of('standIn').length > 0) answers.setStandIns(await readStandIns(rows))
    if (of('batch').length + of('thread').length > 0) {
      // A thread that was merged into another has no batches any more: they are the other's.
      const ofBatches = of('batch').length > 0 ? await threadsOfBatches(allRows, of('batch')) : []
      const threadIds = [...new Set([...ofBatches, ...of('thread')])]
      answers.setStock(threadIds, await readStock(rows, threadIds))
    }
    if (of('cloth').length > 0 || of('project').length > 0) answers.setPieces(await readPieces(rows, allRows))
    for (const id of of('notion')) world.notions.delete(id)
    if (of('notion').length > 0) for (const [id, notion] of await readNotions(rows, of('notion'))) world.notions.set(id, notion)
    // What was handed to an owner that is not seen is among them, and then found gone.
    const designIds = await designsOf(allRows, of)
    if (designIds.length > 0) {
      world.themes = await readThemes(rows)
      world.designers = await readNames(rows, 'Designer')
      const designs = await readDesigns(rows, designIds)
      const lists: ListNeeds[] = []
      for await (const list of readNeeds(rows, designIds, { ...world, designs })) lists.push(list)
      answers.setDesigns(designIds, designs, lists)
    }
    if (of('project').length > 0) answers.setProjects(of('project'), await readProjects(rows, of('project')))
    const touched = {
      thread: of('thread'),
      cloth: of('cloth'),
      notion: of('notion'),
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
