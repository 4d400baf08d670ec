import type { ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import pg from 'pg'
import { type Database, openDatabase } from '#lib/db/client'
import { seedCollection } from '#seed/seed'
import { type RunningServer, startServer } from '#tests/browser/server'
import { startOwnProcess } from '#tests/database/own-process'
import { startPostgresqlServer } from '#tests/database/postgresql-server'
import { migrate } from '../../prisma/migrate.mjs'
import { questionsOf } from './charts-screen.bench'
import { changes, type Day, type Errand, type Health, type LoadBatch, type LoadWorld, looks, type Person } from './load-people'
import { madeCollection } from './made-collection'
import type { Bench, Measurement } from './measurement'
import { startRoundRobin } from './round-robin'
import { percentile } from './timing'

const collectionSeed = 7
const people = ['Nell Oxtoby', 'Petra Lisle', 'Ines Coldwell', 'Hanne Drewitt', 'Joss Tarrow', 'Maud Ferriby']
/** LOAD_SECONDS=3 LOAD_SIZE=home: a short run, to see that it works. */
const daySeconds = Number(process.env.LOAD_SECONDS ?? 20)
const size = process.env.LOAD_SIZE === 'home' ? 'home' : 'shop'
const warmUpSeconds = Math.min(5, daySeconds)
const healthSeconds = Math.min(3, daySeconds)
const transactions = 200
const batchesEach = size === 'home' ? { receives: 3, uses: 3, moves: 2 } : { receives: 12, uses: 12, moves: 8 }
const designsHeldAgainst = 150
const processes = 3
const stalenessRounds = 120

/** Aimed for before anything was measured; six people who never pause, on two cores that also hold those who ask. */
const aimed = { lookP95Ms: 300, changeP95Ms: 500, timesOneProcess: 1.1, staleP95Ms: 150 }

type Served = { name: string; store: Database; servers: RunningServer[]; url: string }
type Asker = <Answer>(errand: Errand) => Promise<Answer>

async function api<Answer>(url: string, asked: string, body?: object): Promise<Answer> {
  const response = await fetch(`${url}/api/v1${asked}`, {
    ...(body && { method: 'POST', body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
  })
  if (!response.ok) throw new Error(`load: ${asked} was answered with ${response.status}: ${await response.text()}`)
  return (await response.json()) as Answer
}

/** Projects, walks and goods for each of the six, taken from the collection through the API; no two share a batch. */
async function settle({ store, url }: Served, chartsAsked: string[]): Promise<LoadWorld> {
  const { prisma } = store
  const { id: ownerId } = await prisma.owner.findFirstOrThrow({ orderBy: { id: 'asc' } })
  const designs = await prisma.design.findMany({ select: { id: true, title: true }, orderBy: { id: 'asc' } })
  const some = designs.filter((_, at) => at % Math.ceil(designs.length / 600) === 0)
  const places = await prisma.place.findMany({ select: { id: true }, orderBy: { id: 'asc' }, take: 300 })

  const begun = await beginProjects(url, ownerId)
  const taken = new Set(begun.flatMap(({ batchIds }) => batchIds))
  const held = await prisma.batch.findMany({
    where: { ownerId, goneAt: null, outSince: null, homePlaceId: { not: null }, wholePutUps: { gte: 2 } },
    orderBy: { id: 'asc' },
  })
  // Of a thread one batch only: two that are alike at home are laid together when one is put back, and then are one.
  const firstOf = new Map(held.toReversed().map(({ id, threadId }) => [threadId, id]))
  const goods = held
    .filter(({ id, threadId }) => !taken.has(id) && firstOf.get(threadId) === id)
    .map(({ id: batchId, threadId, lot, putUpStrandTenths, homePlaceId }): LoadBatch => {
      return { batchId, threadId, lot, putUpStrandTenths, homePlaceId: homePlaceId as string }
    })
  const deal = (count: number) => goods.splice(0, count)
  const persons: Person[] = []
  for (const { name, bagLabel, projectId, walkId, lineIds, promised } of begun) {
    const { id: bagPlaceId } = await prisma.place.findFirstOrThrow({ where: { label: bagLabel } })
    const [receives, uses, moves] = [deal(batchesEach.receives), deal(batchesEach.uses), deal(batchesEach.moves)]
    if (moves.length < batchesEach.moves) throw new Error('load: the collection has too few batches for six people')
    persons.push({ name, bagPlaceId, projectId, walkId, lineIds, promised, receives, uses, moves })
  }
  const words = some.flatMap(({ title }) => title.split(/\P{L}+/u).filter((word) => word.length >= 5))
  return {
    ...{ ownerId, people: persons, chartsAsked, words: [...new Set(words)].slice(0, 200) },
    ...{ designIds: some.map(({ id }) => id), placeIds: places.map(({ id }) => id) },
  }
}

type Begun = Pick<Person, 'name' | 'projectId' | 'walkId' | 'lineIds' | 'promised'> & { bagLabel: string; batchIds: string[] }

/** One project and one open pull each, of designs that can be stitched now. */
async function beginProjects(url: string, ownerId: string): Promise<Begun[]> {
  const { designs } = await api<{ designs: { designId: string }[] }>(url, `/designs?owner=${ownerId}&stitchableNow=true`)
  const begun: Begun[] = []
  for (const { designId } of designs) {
    const name = people[begun.length]
    if (name === undefined) break
    const { lists } = await api<{ lists: { listId: string }[] }>(url, `/designs/${designId}`)
    const bagLabel = `Load ${begun.length + 1}`
    const { project, promised } = await api<{
      project: { projectId: string }
      promised: { batchId: string; strandTenths: number }[]
    }>(url, '/projects', { designId, threadListId: lists[0]?.listId ?? null, ownerId, bagLabel })
    const [first] = promised
    if (!first) continue
    const walk = await api<{ walkId: string; lines: { lineId: string }[] }>(url, '/walks', {
      projectIds: [project.projectId],
      by: name,
    })
    const lineIds = walk.lines.map(({ lineId }) => lineId)
    const batchIds = promised.map(({ batchId }) => batchId)
    begun.push({ name, bagLabel, batchIds, lineIds, promised: first, projectId: project.projectId, walkId: walk.walkId })
  }
  if (begun.length < people.length) throw new Error('load: too few designs can be stitched')
  return begun
}

/** How long the bare transaction takes by the engine's own driver: the revision raised and committed, nothing else. */
async function bareTransactions({ url }: Database): Promise<number[]> {
  const times: number[] = []
  if (url.startsWith('file:')) {
    const connection = new Libsql(url.replace(/^file:/, ''), { timeout: 5_000 })
    for (let turn = 0; turn < transactions; turn++) {
      const begun = performance.now()
      connection.exec('BEGIN IMMEDIATE; UPDATE Revision SET number = number + 1; COMMIT')
      times.push(performance.now() - begun)
    }
    connection.close()
    return times
  }
  const client = new pg.Client({ connectionString: url })
  await client.connect()
  for (let turn = 0; turn < transactions; turn++) {
    const begun = performance.now()
    await client.query('BEGIN')
    await client.query('UPDATE "Revision" SET "number" = "number" + 1')
    await client.query('COMMIT')
    times.push(performance.now() - begun)
  }
  await client.end()
  return times
}

/** All there is, in tenths of a millimetre of strand, and how many batches hold something else than their movements add up to. */
async function readBooks({ prisma }: Database): Promise<{ heldStrandTenths: number; batches: number; wrongBatches: number }> {
  const [row] = await prisma.$queryRawUnsafe<{ held: unknown; batches: unknown; wrong: unknown }[]>(`
    SELECT sum(b."wholePutUps" * b."putUpStrandTenths" + b."partStrandTenths") AS held, count(*) AS batches,
      sum(CASE WHEN b."wholePutUps" <> coalesce(m."whole", 0) OR b."partStrandTenths" <> coalesce(m."part", 0) THEN 1 ELSE 0 END) AS wrong
    FROM "Batch" b LEFT JOIN (
      SELECT "batchId", sum("wholeDelta") AS "whole", sum("partDeltaStrandTenths") AS "part" FROM "Movement"
      WHERE "batchId" IS NOT NULL GROUP BY "batchId"
    ) m ON m."batchId" = b."id"`)
  return { heldStrandTenths: Number(row?.held), batches: Number(row?.batches), wrongBatches: Number(row?.wrong) }
}

/** What a server says of some designs, and of all of them in lists. */
async function readCoverage(url: string, { ownerId, designIds, people: persons }: LoadWorld): Promise<string[]> {
  const own = await Promise.all(
    persons.map(({ projectId }) => api<{ designId?: string; design?: { designId: string } }>(url, `/projects/${projectId}`)),
  )
  const worked = own.flatMap((project) => project.designId ?? project.design?.designId ?? [])
  const paths = [
    ...[...worked, ...designIds.slice(0, designsHeldAgainst)].map((id) => `/designs/${id}/coverage?owner=${ownerId}`),
    ...['bestCovered', 'title', 'newest'].map((order) => `/designs?owner=${ownerId}&order=${order}`),
    `/designs?owner=${ownerId}&stitchableNow=true`,
  ]
  const said: string[] = []
  for (const asked of paths) said.push(JSON.stringify(await api(url, asked)))
  return said
}

const fresh = (served: Served, folder: string): Promise<RunningServer> =>
  served.store.engine === 'sqlite'
    ? startServer({ dataFolder: folder })
    : startServer({ dataFolder: folder, env: { DATABASE_URL: served.store.url } })

type Spent = { day: Day; health: Health; alone: Day; aloneHealth: Health; bare: number[]; books: Measurement[] }

/** A day of six, another of one alone, what they are held against, and whether all is exact afterwards. */
async function spend(served: Served, folder: string, world: LoadWorld, ask: Asker): Promise<Spent> {
  const { store, url, name } = served
  const day = (seconds: number, seed: string, some = world): Promise<Day> =>
    ask<Day>({ kind: 'day', url, seconds, seed, collection: store.engine, world: some })
  const before = await readBooks(store)
  const warm = await day(warmUpSeconds, 'warm-up')
  const six = await day(daySeconds, 'six')
  const health = await ask<Health>({ kind: 'health', url, seconds: healthSeconds, connections: people.length })
  const one = await day(Math.min(10, daySeconds), 'one', { ...world, people: world.people.slice(0, 1) })
  const aloneHealth = await ask<Health>({ kind: 'health', url, seconds: healthSeconds, connections: 1 })
  const days = [warm, six, one]
  const after = await readBooks(store)
  const sum = (of: (spent: Day) => number) => days.reduce((total, spent) => total + of(spent), 0)
  const wanted = before.heldStrandTenths + sum((spent) => spent.receivedStrandTenths) - sum((spent) => spent.usedStrandTenths)
  const isHeld = after.heldStrandTenths === wanted
  if (!isHeld) console.error(`load, ${name}: ${after.heldStrandTenths} held, ${wanted} by what was received and used`)

  const asNew = await fresh(served, folder)
  const right = await readCoverage(asNew.url, world)
  await asNew.stop()
  let rightAnswers = 0
  for (const server of served.servers)
    for (const [at, said] of (await readCoverage(server.url, world)).entries()) if (said === right[at]) rightAnswers++
  const answers = right.length * served.servers.length

  const faults = days.flatMap((spent) => spent.faults)
  for (const fault of faults.slice(0, 10)) console.error(`load, ${name}: ${fault}`)
  const asked = days.reduce((total, spent) => total + spent.times.length, 0) + faults.length
  const books = [
    rate(`${name}: answers that were faults`, faults.length, asked, 0),
    rate(
      `${name}, afterwards: batches that hold what their movements add up to`,
      after.batches - after.wrongBatches,
      after.batches,
      1,
    ),
    rate(
      `${name}, afterwards: all thread held is what was there, and what was received, less what was used`,
      isHeld ? 1 : 0,
      1,
      1,
    ),
    rate(`${name}, afterwards: answers that are those of a server started anew`, rightAnswers, answers, 1),
  ]
  const bare = await bareTransactions(store)
  return { day: six, health, alone: one, aloneHealth, bare, books }
}

function rate(name: string, some: number, of: number, aim: 0 | 1): Measurement {
  return {
    ...{ name, ours: (100 * some) / Math.max(1, of), against: null, ratio: null, unit: '%' as const, samples: of },
    ...{ oursRange: null, againstRange: null },
    goal: { words: aim === 1 ? 'all' : 'none', isMet: some === aim * of },
  }
}

const timesOf = ({ times }: Day, kinds: readonly string[]): number[] =>
  times.flatMap(([kind, ms]) => (kinds.includes(kind) ? [ms] : []))

function times(
  name: string,
  ours: readonly number[],
  against: readonly number[],
  { share, underMs }: { share: number; underMs?: number },
): Measurement[] {
  // A short run may have done nothing of the kind.
  if (ours.length === 0 || against.length === 0) return []
  const [mine, other] = [percentile(ours, share), percentile(against, share)]
  return [
    {
      ...{
        name: `${name}, p${share * 100}`,
        ours: mine,
        against: other,
        ratio: other / mine,
        unit: 'ms' as const,
        samples: ours.length,
      },
      ...{ oursRange: [Math.min(...ours), Math.max(...ours)], againstRange: [Math.min(...against), Math.max(...against)] },
      goal: underMs === undefined ? null : { words: `under ${underMs} ms`, isMet: mine < underMs },
    },
  ]
}

const perSecond = ({ times: answered, seconds }: Day): number => answered.length / seconds

function told(name: string, { day, health, alone, aloneHealth, bare, books }: Spent): Measurement[] {
  const ours = perSecond(day)
  const [looked, changed] = [timesOf(day, looks), timesOf(day, changes)]
  console.log(`${name}: ${day.times.length} answers in ${day.seconds.toFixed(1)} s, p95 of each kind:`)
  for (const kind of [...looks, ...changes]) {
    const some = timesOf(day, [kind])
    if (some.length > 0)
      console.log(`${percentile(some, 0.95).toFixed(0).padStart(7)} ms  ${String(some.length).padStart(5)}  ${kind}`)
  }
  return [
    {
      ...{
        name: `${name}, six people without a pause: answers`,
        ours,
        against: health.perSecond,
        ratio: ours / health.perSecond,
      },
      ...{ unit: 'a second' as const, samples: day.times.length, oursRange: null, againstRange: null, goal: null },
    },
    ...times(`${name}, six people: a look`, looked, health.times, { share: 0.5 }),
    ...times(`${name}, six people: a look`, looked, health.times, { share: 0.95, underMs: aimed.lookP95Ms }),
    ...times(`${name}, six people: a look`, looked, health.times, { share: 0.99 }),
    ...times(`${name}, six people: a change`, changed, bare, { share: 0.5 }),
    ...times(`${name}, six people: a change`, changed, bare, { share: 0.95, underMs: aimed.changeP95Ms }),
    ...times(`${name}, six people: a change`, changed, bare, { share: 0.99 }),
    ...times(`${name}, one alone: a look`, timesOf(alone, looks), aloneHealth.times, { share: 0.5 }),
    ...times(`${name}, one alone: a change`, timesOf(alone, changes), bare, { share: 0.5 }),
    ...books,
  ]
}

/**
 * How long after a change was answered by one process another answers with it, against asking the same process again, by turns: the time until
 * the first right answer. And how many answers before it were behind.
 */
async function measureStaleness(
  { servers }: Served,
  { ownerId, people: [person], designIds }: LoadWorld,
): Promise<Measurement[]> {
  type Cover = { cover: { threads: { thread: { threadId: string }; ownedStrandTenths: number }[] } }
  const addresses = servers.map(({ url }) => url)
  const [first, second] = addresses as [string, string]
  const designId = designIds[0] as string
  const path = `/designs/${designId}/coverage?owner=${ownerId}`
  const { cover } = await api<Cover>(first, path)
  const threadId = cover.threads[0]?.thread.threadId as string
  const owned = async (url: string) =>
    (await api<Cover>(url, path)).cover.threads.find(({ thread }) => thread.threadId === threadId)?.ownedStrandTenths ?? -1
  let held = await owned(second)
  const elsewhere: number[] = []
  const itself: number[] = []
  let behind = 0
  for (let round = 0; round < stalenessRounds; round++) {
    const from = addresses[round % addresses.length] as string
    const isElsewhere = round % 2 === 0
    const asked = isElsewhere ? (addresses[(round + 1) % addresses.length] as string) : from
    const received = { kind: 'receive', threadId, ownerId, wholePutUps: 1, putUpStrandTenths: 480_000, who: person?.name }
    await api(from, '/movements', { ...received, homePlaceId: person?.receives[0]?.homePlaceId ?? null })
    held += received.putUpStrandTenths
    const begun = performance.now()
    while ((await owned(asked)) !== held) {
      behind++
      if (performance.now() - begun > 10_000) throw new Error('load: another process was ten seconds behind')
    }
    ;(isElsewhere ? elsewhere : itself).push(performance.now() - begun)
  }
  const name = 'PostgreSQL, three processes: a change at one, until another answers with it, against until itself does'
  return [
    ...times(name, elsewhere, itself, { share: 0.5 }),
    ...times(name, elsewhere, itself, { share: 0.95, underMs: aimed.staleP95Ms }),
    rate('PostgreSQL, three processes: answers after a change that were behind', behind, behind + stalenessRounds, 0),
  ]
}

async function onSqlite(ask: Asker): Promise<Measurement[]> {
  const made = await madeCollection(size)
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-bench-load-'))
  cpSync(made.folder, folder, { recursive: true })
  const server = await startServer({ dataFolder: folder })
  const store = openDatabase(`file:${path.join(folder, 'larder.db')}`)
  try {
    const served = { name: 'SQLite', store, servers: [server], url: server.url }
    return told('SQLite', await spend(served, folder, await settle(served, questionsOf(made.answers)), ask))
  } finally {
    await store.prisma.$disconnect()
    await server.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}

async function onPostgresql(ask: Asker): Promise<Measurement[]> {
  const engine = await startPostgresqlServer({ isDurable: true })
  if (typeof engine === 'string') {
    console.error(`load: nothing of PostgreSQL, since ${engine}`)
    return []
  }
  const { answers } = await madeCollection(size)
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-bench-load-'))
  const databaseUrl = engine.url('postgres')
  await migrate(databaseUrl)
  const store = openDatabase(databaseUrl)
  const servers: RunningServer[] = []
  try {
    await seedCollection(store, { size, seed: collectionSeed, report: () => {} })
    const startOne = async () => servers.push(await startServer({ dataFolder: folder, env: { DATABASE_URL: databaseUrl } }))
    // One process is asked through the same round-robin as three, so that it counts for both.
    const serve = async (work: (served: Served) => Promise<Measurement[]>): Promise<Measurement[]> => {
      const front = await startRoundRobin(servers.map(({ url }) => url))
      const name = servers.length === 1 ? 'PostgreSQL' : 'PostgreSQL, three processes'
      return work({ name, store, servers, url: front.url }).finally(front.stop)
    }
    await startOne()
    let world: LoadWorld | undefined
    const measured = await serve(async (served) => {
      world = await settle(served, questionsOf(answers))
      return told(served.name, await spend(served, folder, world, ask))
    })
    while (servers.length < processes) await startOne()
    const three = await serve(async (served) => [
      ...told(served.name, await spend(served, folder, world as LoadWorld, ask)),
      ...(await measureStaleness(served, world as LoadWorld)),
    ])
    const [one, many] = [measured[0]?.ours ?? 0, three[0]?.ours ?? 0]
    const scaling: Measurement = {
      ...{ name: 'PostgreSQL, three processes against one: answers', ours: many, against: one, ratio: many / one },
      ...{ unit: 'a second' as const, samples: three[0]?.samples ?? 0, oursRange: null, againstRange: null },
      goal: { words: `at least ${aimed.timesOneProcess}×`, isMet: many / one >= aimed.timesOneProcess },
    }
    return [...measured, ...three, scaling]
  } finally {
    await store.prisma.$disconnect()
    for (const server of servers) await server.stop()
    await engine.stop()
    rmSync(folder, { recursive: true, force: true })
  }
}

async function run(): Promise<Measurement[]> {
  const asker: ChildProcess = await startOwnProcess(path.join(import.meta.dirname, 'load-people.ts'), {})
  await once(asker, 'message')
  const ask: Asker = async <Answer>(errand: Errand) => {
    const answered = once(asker, 'message')
    asker.send(errand)
    return (await answered)[0] as Answer
  }
  try {
    return [...(await onSqlite(ask)), ...(await onPostgresql(ask))]
  } finally {
    asker.kill()
  }
}

export const load: Bench = {
  name: 'load',
  about: [
    `Six people’s mixed day in the shop-size collection, asked by a process of its own over loopback of what npm start serves: ${daySeconds} s in which each asks again as soon as they are answered, which is far more than six people do. Ninety in a hundred look (Find, Charts with filters and words, a design, a place, a design’s coverage through the API), ten change something through the API (receive, use, carry to a bag and home, tick a walk, promise, log). Looks are held against /api/v1/health asked by as many over as many connections, changes against the bare transaction by the engine’s own driver, which raises the revision and commits. PostgreSQL is the server npm ships, with fsync on. Brackets hold the least and the most.`,
    'Afterwards the books are added up: every batch against its movements, all thread against what the six were told was done, and the answers of every process against those of a server started anew on the same collection.',
    'Three processes share one PostgreSQL behind a round-robin by connection, which stands before the one process too. On two cores three processes, PostgreSQL, the round-robin and those who ask have the machine between them, so the factor says what a machine like this gains, not what three machines would.',
  ],
  run,
}
