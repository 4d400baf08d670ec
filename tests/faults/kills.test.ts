import { once } from 'node:events'
import {
  copyFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs'
import { availableParallelism, tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import pg from 'pg'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, inject, it } from 'vitest'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readNeedFile, writeNeedFile } from '#lib/db/answers/need-file'
import { writeArchive } from '#lib/db/archive/write-archive'
import { writeBackup } from '#lib/db/backup/write-backup'
import { checkCollection } from '#lib/db/checking/check-collection'
import { type Database, openDatabase } from '#lib/db/client'
import { newId } from '#lib/db/new-id'
import { keepPhoto } from '#lib/db/photo/photo-files'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { readSnapshot } from '#lib/db/read-snapshot'
import { type Random, seededRandom } from '#seed/random'
import { describeOnEachEngine, openEmpty } from '../database/engines'
import { granted } from '../database/granted'
import { addSmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { faultsAfter, faultsBroughtBack, faultsOfBackups, type Reference } from './aftermath'
import type { DeedName, Given } from './deeds'
import type { Told } from './hand'
import { beginHand, bundleHand, forgetHand, type Hand } from './hands'
import { readShape } from './shape'

/** So many kills in all, as a run of everything has time for: KILLS=2000 for a longer one, KILLS_SEED for other moments. Of ten, one is on PostgreSQL. */
const killsAsked = Number(process.env.KILLS ?? 60)
const seed = process.env.KILLS_SEED ?? 'kills'
/** So many writes are watched before anything is killed; the moments lie within them. */
const writesWatched = 8

const scratch = mkdtempSync(path.join(tmpdir(), 'larder-kills-'))
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true })
  forgetHand()
})

/** Quick and slow ones in turn; those that say nothing new on PostgreSQL are left to SQLite. */
const deedsOf: Record<Database['engine'], readonly DeedName[]> = {
  sqlite: [
    'bringing in',
    'walks carried out',
    'kits cut',
    'places merged and parted',
    'doubles merged',
    'a cut confirmed',
    'photographs and files',
    'stock handled',
    'a backup',
    'a restore',
    'an archive taken out',
    'an archive brought back',
    'needs kept',
  ],
  postgresql: ['bringing in', 'walks carried out', 'kits cut', 'doubles merged', 'a cut confirmed', 'a restore'],
}
/** These do much past Prisma, whose statements are counted. */
const byTheClock = new Set<DeedName>(['an archive brought back', 'a backup', 'a restore', 'an archive taken out', 'needs kept'])

/** A world to be copied for each kill: the database, and the data folder beside it. */
type World = { engine: Database['engine']; url: string; folder: string; given: Given }
type Copy = { url: string; folder: string; drop: () => Promise<void> }

let copies = 0
async function copyWorld({ engine, url, folder }: World): Promise<Copy> {
  const mine = path.join(scratch, `copy-${++copies}`)
  cpSync(folder, mine, { recursive: true })
  const drop = async () => rmSync(mine, { recursive: true, force: true })
  if (engine === 'sqlite') {
    const file = path.join(mine, 'larder.db')
    copyFileSync(url.replace(/^file:/, ''), file)
    return { url: `file:${file}`, folder: mine, drop }
  }
  const name = `larder_kill_${process.pid}_${copies}`
  const template = new URL(url).pathname.slice(1)
  // A connection that was given back may not be over yet, and nobody may be connected to what is copied.
  await administer(`SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '${template}'`)
  await administer(`CREATE DATABASE ${name} TEMPLATE ${template}`)
  return {
    url: Object.assign(new URL(url), { pathname: `/${name}` }).toString(),
    folder: mine,
    drop: async () => {
      await administer(`DROP DATABASE ${name} WITH (FORCE)`)
      await drop()
    },
  }
}

async function administer(sql: string): Promise<void> {
  const server = inject('postgresql')
  if ('missing' in server) throw new Error(server.missing)
  const client = new pg.Client({ connectionString: server.urlOf.replace('{database}', 'postgres') })
  await client.connect()
  await client.query(sql)
  await client.end()
}

/** What a deed does when nobody disturbs it: the shapes its writes leave, how long each takes, how many statements. */
type Watched = { reference: Reference; writesMs: number[]; statements: number }

async function watch(world: World, deed: DeedName): Promise<Watched> {
  const copy = await copyWorld(world)
  const before = openDatabase(copy.url)
  const first = await before.prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
  const reference = new Map([[first.number, await readShape(before)]])
  await before.prisma.$disconnect()
  const hand = beginHand(copy)
  await hand.isReady
  const told: Told = { deed, given: world.given, until: { kind: 'writes', count: writesWatched } }
  const ended = once(hand.child, 'exit')
  hand.child.send(told)
  expect(await ended, `${deed}: ${hand.errors()}`).toEqual([0, null])
  let [begunMs, statements] = [0, 0]
  const writesMs: number[] = []
  for (const { what, atMs } of hand.said) {
    if (what === 'begun') begunMs = atMs
    else if (what === 'over') writesMs.push(atMs - begunMs)
    else if (typeof what === 'object' && 'statements' in what) statements = what.statements
    else if (typeof what === 'object') reference.set(what.revision, what.shape)
  }
  await copy.drop()
  return { reference, writesMs, statements }
}

/** In which of its writes, and how long after that began; at a statement it ends by itself. */
type Kill = { deed: DeedName; until: Told['until']; write: number; afterMs: number }

function planKills(deeds: readonly DeedName[], watched: ReadonlyMap<DeedName, Watched>, count: number, random: Random): Kill[] {
  return Array.from({ length: count }, (_, turn): Kill => {
    const deed = deeds[turn % deeds.length] as DeedName
    const { writesMs, statements } = watched.get(deed) as Watched
    const isByStatement = !byTheClock.has(deed) && statements > 0 && Math.floor(turn / deeds.length) % 2 === 1
    const most = writesMs.length
    const write = random.int(0, most - 1)
    return isByStatement
      ? { deed, until: { kind: 'statement', number: random.int(1, statements), most }, write, afterMs: 0 }
      : { deed, until: { kind: 'killed', most }, write, afterMs: random.int(0, Math.floor((writesMs[write] ?? 0) * 0.9)) }
  })
}

/** @returns whether it was in the middle of a write */
async function letWorkAndKill(hand: Hand, { deed, until, write, afterMs }: Kill, given: Given): Promise<boolean> {
  await hand.isReady
  const ended = once(hand.child, 'exit')
  hand.child.send({ deed, given, until } satisfies Told)
  if (until.kind === 'killed') {
    const begun = () => hand.said.filter(({ what }) => what === 'begun').length
    while (begun() <= write && hand.child.exitCode === null) await Promise.race([once(hand.child, 'message'), ended])
    await new Promise((resolve) => setTimeout(resolve, afterMs))
    hand.child.kill('SIGKILL')
  }
  // One that had counted on more statements than there were rests.
  const late = setTimeout(() => hand.child.kill('SIGKILL'), 60_000)
  // It was at work until then, and did not fall over by itself.
  expect(await ended, `${deed}: ${hand.errors()}`).toEqual([null, 'SIGKILL'])
  clearTimeout(late)
  return hand.said.at(-1)?.what === 'begun'
}

/** One at a time: which data folder the checks look into is the process's. */
let turn: Promise<unknown> = Promise.resolve()
function inFolder<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const mine = turn.then(async () => {
    const before = process.env.LARDER_DATA
    process.env.LARDER_DATA = folder
    try {
      return await work()
    } finally {
      if (before === undefined) delete process.env.LARDER_DATA
      else process.env.LARDER_DATA = before
    }
  })
  turn = mine.catch(() => {})
  return mine
}

describeOnEachEngine('a process that is killed', ({ open }) => {
  let world: World
  let shapes: { nothing: string; all: string }

  beforeAll(async () => {
    await bundleHand()
    const database = open()
    const { prisma, engine } = database
    const small = await addSmallWorld(database)
    const folder = path.join(scratch, `world-${engine}`)
    const given = path.join(scratch, `given-${engine}`)
    for (const made of [path.join(folder, 'backups'), given]) mkdirSync(made, { recursive: true })
    const [kits, wrens] = await prisma.project.findMany({
      where: { ownerId: small.ownerIds[0] as string },
      orderBy: { id: 'asc' },
    })
    const placeOf = async (label: string) => (await prisma.place.findUniqueOrThrow({ where: { labelKey: label } })).id
    const chart = await prisma.chart.findFirstOrThrow({ where: { ownerId: small.ownerIds[0] as string }, orderBy: { id: 'asc' } })
    const quarterIds = Array.from({ length: 12 }, () => newId())
    const box = await placeOf('n1')
    const piece = await prisma.clothPiece.findFirstOrThrow({ orderBy: { id: 'asc' } })
    for (const id of quarterIds) {
      const { label: _, labelKey: __, ...like } = piece
      const size = { widthUm: 18 * 25_400, heightUm: 27 * 25_400, isSquared: true, homePlaceId: box, currentPlaceId: box }
      await prisma.clothPiece.create({ data: { ...like, ...size, id } })
      const { revision } = await prisma.movement.findFirstOrThrow({ select: { revision: true } })
      await prisma.movement.create({
        data: { id: newId(), revision, kind: 'receive', clothPieceId: id, wholeDelta: 1, toPlaceId: box, at: new Date() },
      })
    }
    const codes = Array.from({ length: 60 }, (_, at) => String(at + 1).padStart(4, '0'))
    writeFileSync(
      path.join(given, 'threads.csv'),
      `Owner,Maker,Line,Code,Name,Fibre,Strands,Put-up,Skeins,Place\n${codes
        .map((code) => `The Oxmarsh Needle Room,Brackwater,Stranded,${code},,cotton,6,8 m,${1 + (Number(code) % 5)},T1-1`)
        .join('\n')}\n`,
    )
    const plain = sharp({ create: { width: 600, height: 400, channels: 3, background: '#8e2f2b' } })
    writeFileSync(path.join(given, 'photo.png'), await plain.png().toBuffer())
    writeFileSync(path.join(given, 'photo.pdf'), `%PDF-1.4\n% ${'the salt road '.repeat(9_000)}\n%%EOF\n`)
    await inFolder(folder, async () => {
      const photoFile = await keepPhoto(granted(await preparePhoto(await plain.png().toBuffer())))
      await prisma.project.update({ where: { id: kits?.id as string }, data: { photoFile } })
      const made = granted(await writeBackup({ url: database.url, folder: given, kind: 'asked' }))
      copyFileSync(path.join(given, made.name), path.join(given, 'backup.zip'))
      await writeArchive(database, { file: path.join(given, 'whole.zip') })
    })
    const empty = await openEmpty('sqlite')
    if (empty) {
      await empty.database.prisma.$disconnect()
      copyFileSync(empty.database.url.replace(/^file:/, ''), path.join(given, 'empty.db'))
      shapes = { nothing: await readShape(empty.database), all: await readShape(database) }
      await empty.drop()
    }
    expect(await faultsInBooks(prisma)).toEqual([])
    world = {
      ...{ engine, url: database.url, folder },
      given: {
        ...{ folder: given, kitsId: kits?.id as string, wrensId: wrens?.id as string, quarterIds },
        ...{ placeId: await placeOf('t1-1'), intoId: await placeOf('t2-2'), ownerId: small.ownerIds[0] as string },
        ...{ threadIds: [small.threadIds[3] as string, small.threadIds[4] as string], chartId: chart.id },
        designId: small.designs[0]?.designId as string,
      },
    }
    // A database somebody is connected to cannot be copied.
    await prisma.$disconnect()
    if (engine === 'sqlite') {
      // What lies in the log beside the file would not be copied with it.
      const file = new Libsql(database.url.replace(/^file:/, ''), { timeout: 5_000 })
      file.exec('PRAGMA wal_checkpoint(TRUNCATE)')
      file.close()
    }
  })

  const count = (engine: Database['engine']) => Math.round(killsAsked * (engine === 'sqlite' ? 0.9 : 0.1))

  it('leaves no half thing, whatever it was at and wherever in it', { timeout: 7_200_000 }, async () => {
    const deeds = deedsOf[world.engine]
    const watched = new Map<DeedName, Watched>()
    const waiting = [...deeds]
    const lanes = (work: () => Promise<void>) => Promise.all(Array.from({ length: Math.min(3, availableParallelism()) }, work))
    await lanes(async () => {
      for (let deed = waiting.shift(); deed; deed = waiting.shift()) watched.set(deed, await watch(world, deed))
    })

    const kills = planKills(deeds, watched, count(world.engine), seededRandom(`${seed} ${world.engine}`))
    const landed = new Map<DeedName, { inside: number; of: number }>(deeds.map((deed) => [deed, { inside: 0, of: 0 }]))
    const faults: string[] = []
    await lanes(async () => {
      const begin = async () => {
        const kill = kills.shift()
        if (!kill) return null
        const copy = await copyWorld(world)
        return { kill, copy, hand: beginHand(copy) }
      }
      for (let now = await begin(); now; ) {
        const { kill, copy, hand } = now
        const isInside = await letWorkAndKill(hand, kill, world.given)
        const { reference } = watched.get(kill.deed) as Watched
        const tally = landed.get(kill.deed) as { inside: number; of: number }
        tally.of += 1
        if (isInside) tally.inside += 1
        // The next one starts while this one is looked at.
        const next = begin()
        const found = await inFolder(copy.folder, async () => {
          const again = openDatabase(copy.url)
          try {
            return [
              ...(await faultsAfter(again, copy.folder, reference)),
              ...(kill.deed === 'an archive brought back' ? await faultsBroughtBack(copy.folder, shapes) : []),
              ...(kill.deed === 'a backup' ? await faultsOfBackups(copy.folder) : []),
            ]
          } finally {
            await again.prisma.$disconnect()
          }
        })
        for (const fault of found) faults.push(`${kill.deed}, ${JSON.stringify(kill)}: ${fault}`)
        await copy.drop()
        now = await next
      }
    })
    const inside = [...landed.values()].reduce((sum, tally) => sum + tally.inside, 0)
    const all = [...landed.values()].reduce((sum, { of }) => sum + of, 0)
    if (process.env.KILLS) console.info([...landed].map(([deed, tally]) => `${deed}: ${tally.inside} of ${tally.of}`).join('\n'))
    expect(faults).toEqual([])
    expect(all).toBe(count(world.engine))
    // What landed between two writes proves nothing.
    expect(inside / all).toBeGreaterThan(0.75)
  })

  it('reads needs that were torn anew, and keeps them anew', async () => {
    const copy = await copyWorld(world)
    const database = openDatabase(copy.url)
    const random = seededRandom(`${seed} torn ${world.engine}`)
    const held = globalThis as { larderDatabase?: Database; larderAnswers?: unknown }
    const before = held.larderDatabase
    await inFolder(copy.folder, async () => {
      held.larderDatabase = database
      delete held.larderAnswers
      try {
        const { needs, revision, world: read } = await getAnswers()
        const keep = () =>
          readSnapshot(database, (rows) => writeNeedFile(rows, database.url, read.settings, { index: needs, revision }))
        const kept = () => readSnapshot(database, (rows) => readNeedFile(rows, database.url, read.settings, revision))
        await keep()
        expect((await kept())?.revision).toBe(revision)
        const file = path.join(copy.folder, 'answers', readdirSync(path.join(copy.folder, 'answers'))[0] as string)
        const whole = readFileSync(file)
        for (let turn = 0; turn < 60; turn++) {
          const at = random.int(0, whole.length - 1)
          if (turn % 3 === 0) truncateSync(file, at)
          else {
            const torn = Buffer.from(whole)
            // A byte gone wrong, or everything behind it never written.
            if (turn % 3 === 1) torn[at] = (torn[at] as number) ^ (1 << random.int(0, 7))
            else torn.fill(0, at)
            writeFileSync(file, torn)
          }
          const isSame = readFileSync(file).equals(whole)
          expect(await kept(), `torn at ${at}`).toEqual(isSame ? expect.anything() : null)
          delete held.larderAnswers
          const fresh = await getAnswers()
          expect(fresh.needs.packed, `torn at ${at}`).toEqual(needs.packed)
          await keep()
          expect(readFileSync(file).equals(whole)).toBe(true)
        }
        expect((await checkCollection(database, { leaveOut: ['damage'] })).counts).toEqual({})
      } finally {
        held.larderDatabase = before
        delete held.larderAnswers
        await database.prisma.$disconnect()
      }
    })
    await copy.drop()
  })
})
