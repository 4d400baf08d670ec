import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync, statfsSync, writeFileSync } from 'node:fs'
import { connect, createServer, type Server, type Socket } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import pg from 'pg'
import sharp from 'sharp'
import { afterAll, beforeAll, describe, expect, inject, it, vi } from 'vitest'
import { z } from 'zod'
import { operation } from '#api/operation'
import { endpoint, serve } from '#api/serve'
import { weightOf } from '#lib/checking/fault'
import { getAnswers } from '#lib/db/answers/get-answers'
import { writeNeedFile } from '#lib/db/answers/need-file'
import { newArchiveFile } from '#lib/db/archive/archive-files'
import { writeArchive } from '#lib/db/archive/write-archive'
import { writeBackup } from '#lib/db/backup/write-backup'
import { checkCollection } from '#lib/db/checking/check-collection'
import { type Database, openDatabase } from '#lib/db/client'
import { keepFile } from '#lib/db/file/keep-file'
import { prepareFile } from '#lib/db/file/prepare-file'
import { bringIn } from '#lib/db/importing/bring-in'
import { stageFile } from '#lib/db/importing/stage-file'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { setPhoto } from '#lib/db/project/set-photo'
import { readSnapshot } from '#lib/db/read-snapshot'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { troubleOf } from '#lib/db/trouble'
import { ask } from '#tests/unit/api/ask'
import { GET as listOwners } from '../../app/api/v1/owners/route'
import { describeOnEachEngine, openEmpty } from '../database/engines'
import { granted } from '../database/granted'
import { addSmallWorld, type SmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { goods } from '../database/things'

const held = globalThis as { larderDatabase?: Database; larderAnswers?: unknown }

/** Another database in the place of the process's own, for as long as `work` takes. */
async function working<T>(database: Database, folder: string, work: () => Promise<T>): Promise<T> {
  const before = held.larderDatabase
  held.larderDatabase = database
  delete held.larderAnswers
  vi.stubEnv('LARDER_DATA', folder)
  const warned = vi.spyOn(console, 'warn').mockImplementation(() => {})
  try {
    return await work()
  } finally {
    held.larderDatabase = before
    delete held.larderAnswers
    vi.unstubAllEnvs()
    warned.mockRestore()
  }
}

const declared = operation({
  method: 'post',
  path: '/try',
  id: 'try',
  group: 'Service',
  summary: 'Try',
  body: z.strictObject({ lot: z.string() }),
  answer: z.strictObject({ batchId: z.string() }),
  answerMeans: 'Received.',
  takesIdempotencyKey: true,
  example: { answer: { batchId: 'b' } },
})
let world: SmallWorld
const receive = (lot: string) =>
  receiveThread(
    goods({
      threadId: world.threadIds[0] as string,
      ownerId: world.ownerIds[0] as string,
      wholePutUps: 1,
      homePlaceId: null,
      lot,
    }),
  )
const { POST } = endpoint({
  POST: serve(declared, async ({ body }) => ({ batchId: granted(await receive(body.lot)).batchId })),
})
const send = (lot: string, key = lot.replaceAll(' ', '-')) =>
  ask(POST, { path: 'try', body: { lot }, headers: { 'idempotency-key': key } })
const isSound = async (database: Database) => {
  expect(await faultsInBooks(database.prisma)).toEqual([])
  const checked = await checkCollection(database, { leaveOut: ['damage', 'answers'] })
  expect(checked.faults.filter(({ kind }) => weightOf(kind) === 'wrong')).toEqual([])
}

/** A disk of so many megabytes, in memory; null where none can be mounted, with the reason. */
function mountSmallDisk(megabytes: number): { folder: string; unmount: () => void } | string {
  if (process.platform !== 'linux') return 'a small disk is mounted on Linux only'
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-full-'))
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'larder-test', folder])
  if (mounted.status !== 0) {
    rmSync(folder, { recursive: true, force: true })
    return 'a small disk can be mounted by root only'
  }
  return {
    folder,
    unmount: () => {
      spawnSync('umount', ['-l', folder])
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

const disk = mountSmallDisk(24)
describe.skipIf(typeof disk === 'string')(`a full disk${typeof disk === 'string' ? ` (skipped: ${disk})` : ''}`, () => {
  const folder = typeof disk === 'string' ? '' : disk.folder
  const ballast = path.join(folder, 'ballast')
  let database: Database
  afterAll(async () => {
    await database?.prisma.$disconnect()
    if (typeof disk !== 'string') disk.unmount()
  })

  /** All but so many bytes taken up. */
  function fillUp(leftBytes: number) {
    rmSync(ballast, { force: true })
    const { bavail, bsize } = statfsSync(folder)
    writeFileSync(ballast, Buffer.alloc(Math.max(0, bavail * bsize - leftBytes)))
  }
  const files = () =>
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && !/^(?:larder\.db.*|ballast)$/.test(entry.name))
      .map(({ name, parentPath }) => path.join(parentPath, name))

  it('is said in a sentence, leaves nothing half, and everything works again once there is room', {
    timeout: 120_000,
  }, async () => {
    copyFileSync(inject('sqliteTemplate'), path.join(folder, 'larder.db'))
    database = openDatabase(`file:${path.join(folder, 'larder.db')}`)
    await working(database, folder, async () => {
      world = await addSmallWorld(database)
      mkdirSync(path.join(folder, 'backups'))
      const { prisma } = database
      const png = await sharp({
        create: {
          width: 900,
          height: 900,
          channels: 3,
          background: '#8e2f2b',
          noise: { type: 'gaussian', mean: 120, sigma: 60 },
        },
      })
        .png()
        .toBuffer()
      const photo = granted(await preparePhoto(png))
      const file = granted(await prepareFile('salt-road.pdf', Buffer.from(`%PDF-1.4\n% ${'salt '.repeat(60_000)}\n%%EOF\n`)))
      const project = await prisma.project.findFirstOrThrow({ orderBy: { id: 'asc' } })
      const chart = await prisma.chart.findFirstOrThrow({ orderBy: { id: 'asc' } })
      const csv = Buffer.from(
        `Owner,Maker,Line,Code,Strands,Put-up,Skeins\n${Array.from({ length: 900 }, (_, at) => `The Oxmarsh Needle Room,Brackwater,Stranded,${at + 1},6,8 m,2`).join('\n')}\n`,
      )
      const staged = await stageFile('threads.csv', csv)
      const { needs, revision, world: read } = await getAnswers()
      const before = { files: files().sort(), threads: await prisma.thread.count() }

      // The log beside the database would have room in it for some more writes.
      const log = new Libsql(path.join(folder, 'larder.db'), { timeout: 5_000 })
      log.exec('PRAGMA wal_checkpoint(TRUNCATE)')
      log.close()
      fillUp(0)
      let full = await send('full 0')
      for (let turn = 1; full.status === 200 && turn < 60; turn++) full = await send(`full ${turn}`)
      expect(full.status).toBe(507)
      expect(full.body).toMatchObject({
        type: '/reference#problem-no-room',
        detail: expect.stringContaining('no room left on the disk'),
      })
      const isFull = async (work: Promise<unknown>) =>
        expect(
          troubleOf(
            await work.then(
              () => null,
              (error) => error,
            ),
          ),
        ).toBe('full')
      await isFull(stageFile('threads.csv', csv))
      await isFull(bringIn(staged.stagedId, { kind: 'threads' }))
      await isFull(setPhoto({ projectId: project.id, photo }))
      await isFull(keepFile({ thing: { noun: 'chart', id: chart.id }, role: 'chart', file, pages: 1, isAnother: false }))
      expect(await writeBackup({ url: database.url, folder: path.join(folder, 'backups'), kind: 'asked' })).toMatchObject({
        error: { kind: 'disk-full' },
      })
      const archive = await newArchiveFile(new Date())
      await isFull(writeArchive(database, { file: archive.file }))
      // The needs are kept for the next start only: it is logged, and goes on without.
      const said = vi.spyOn(console, 'error').mockImplementation(() => {})
      await readSnapshot(database, (rows) => writeNeedFile(rows, database.url, read.settings, { index: needs, revision }))
      expect(said).toHaveBeenCalledOnce()
      said.mockRestore()
      // Looking goes on.
      expect((await ask(listOwners)).status).toBe(200)
      expect(await prisma.thread.count()).toBe(before.threads)

      rmSync(ballast)
      expect(files().sort()).toEqual(before.files)
      await isSound(database)
      expect((await send('after')).status).toBe(200)
      granted(await bringIn(staged.stagedId, { kind: 'threads' }))
      granted(await setPhoto({ projectId: project.id, photo }))
      granted(await keepFile({ thing: { noun: 'chart', id: chart.id }, role: 'chart', file, pages: 1, isAnother: false }))
      await writeArchive(database, { file: archive.file })
      await isSound(database)
    })
  })
})

describeOnEachEngine('a database that another program holds', ({ name, open }) => {
  beforeAll(async () => {
    world = await addSmallWorld(open())
  })

  it('is said after ten seconds, while everybody else is served, and is no hindrance afterwards', {
    timeout: 60_000,
  }, async () => {
    const { url, prisma } = open()
    const before = await prisma.batch.count()
    const letGo = name === 'SQLite' ? holdSqlite(url) : await holdPostgresql(url)
    const warned = vi.spyOn(console, 'warn').mockImplementation(() => {})
    let [longestMs, lastMs] = [0, performance.now()]
    const ticking = setInterval(() => {
      longestMs = Math.max(longestMs, performance.now() - lastMs)
      lastMs = performance.now()
    }, 20)
    const waiting = send(`held ${name}`)
    // Whoever only looks does not wait.
    expect((await ask(listOwners)).status).toBe(200)
    const answered = await waiting
    clearInterval(ticking)
    warned.mockRestore()
    expect(answered.status).toBe(503)
    expect(answered.headers.get('retry-after')).toBe('5')
    expect(answered.body).toMatchObject({ detail: expect.stringContaining('Another program holds the database') })
    // SQLite waits inside the call, a quarter of a second at a time.
    expect(longestMs).toBeLessThan(3_000)
    await letGo()
    expect((await send(`held ${name}`)).status).toBe(200)
    expect(await prisma.batch.count()).toBe(before + 1)
    await isSound(open())
  })

  function holdSqlite(url: string): () => Promise<void> {
    const other = new Libsql(url.replace(/^file:/, ''))
    other.exec('BEGIN IMMEDIATE')
    return async () => {
      other.exec('ROLLBACK')
      other.close()
    }
  }

  async function holdPostgresql(url: string): Promise<() => Promise<void>> {
    const other = new pg.Client({ connectionString: url })
    await other.connect()
    await other.query('BEGIN')
    await other.query('SELECT * FROM "Revision" FOR UPDATE')
    return () => other.end()
  }
})

/** A wire to a server that can be cut and joined again. */
async function openWire(target: { host: string; port: number }) {
  const sockets = new Set<Socket>()
  let server: Server
  const listen = (port: number) =>
    new Promise<number>((resolve) => {
      server = createServer((near) => {
        const far = connect(target)
        for (const socket of [near, far]) {
          sockets.add(socket)
          socket.on('error', () => {}).on('close', () => sockets.delete(socket))
        }
        near.pipe(far).pipe(near)
      }).listen(port, '127.0.0.1', () => resolve((server.address() as { port: number }).port))
    })
  const port = await listen(0)
  return {
    port,
    cut: async () => {
      const closed = new Promise((resolve) => server.close(resolve))
      for (const socket of sockets) socket.destroy()
      await closed
    },
    join: () => listen(port),
  }
}

describe('a database that is gone for a while', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-gone-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))

  const isAway = async (asked: Promise<{ status: number; headers: Headers; body: unknown }>) => {
    const { status, headers, body } = await asked
    expect([status, headers.get('retry-after')], JSON.stringify(body)).toEqual([503, '10'])
    expect(body).toMatchObject({ detail: expect.stringContaining('The database does not answer') })
  }

  const server = inject('postgresql')
  it.skipIf('missing' in server)(
    'PostgreSQL: is said, and everything goes on by itself when it is there again',
    { timeout: 90_000 },
    async () => {
      const empty = await openEmpty('postgresql')
      if (!empty) return
      const direct = new URL(empty.database.url)
      const wire = await openWire({ host: direct.hostname, port: Number(direct.port || 5432) })
      const database = openDatabase(Object.assign(new URL(direct), { host: `127.0.0.1:${wire.port}` }).toString())
      await working(database, folder, async () => {
        world = await addSmallWorld(empty.database)
        expect((await send('there')).status).toBe(200)
        const before = await database.prisma.batch.count()
        await wire.cut()
        for (let turn = 0; turn < 3; turn++) {
          await isAway(ask(listOwners))
          await isAway(send('gone'))
        }
        await wire.join()
        expect((await ask(listOwners)).status).toBe(200)
        // The same request once more: what was not done is done, once.
        expect((await send('gone')).status).toBe(200)
        expect((await send('gone')).headers.get('idempotent-replay')).toBe('true')
        expect(await database.prisma.batch.count()).toBe(before + 1)

        // Cut in the middle of many writes: each was done or was not, and a repeat of all of them does every one once.
        const keys = Array.from({ length: 30 }, (_, at) => `cut ${at}`)
        const sent = Promise.all(keys.map((lot) => send(lot)))
        await new Promise((resolve) => setTimeout(resolve, 60))
        await wire.cut()
        await new Promise((resolve) => setTimeout(resolve, 200))
        await wire.join()
        for (const { status } of await sent) expect([200, 503]).toContain(status)
        for (const lot of keys) expect([200, 409]).toContain((await send(lot)).status)
        expect(await database.prisma.batch.count({ where: { lot: { startsWith: 'cut ' } } })).toBe(keys.length)
        await isSound(database)
      })
      await database.prisma.$disconnect()
      await wire.cut()
      await empty.drop()
    },
  )

  it('SQLite: a file that was moved away is said, and used again when it is back', async () => {
    const file = path.join(folder, 'larder.db')
    copyFileSync(inject('sqliteTemplate'), file)
    const database = openDatabase(`file:${file}`)
    await working(database, folder, async () => {
      world = await addSmallWorld(database)
      expect((await send('there')).status).toBe(200)
      const count = () => database.prisma.batch.count({ where: { lot: 'moved' } })
      await database.prisma.$disconnect()
      const beside = ['', '-wal', '-shm'].filter((ending) => readdirSync(folder).includes(`larder.db${ending}`))
      for (const ending of beside) renameSync(`${file}${ending}`, path.join(folder, `away.db${ending}`))
      for (let turn = 0; turn < 2; turn++) {
        await isAway(ask(listOwners))
        await isAway(send('moved'))
      }
      await database.prisma.$disconnect()
      for (const ending of ['', '-wal', '-shm']) rmSync(`${file}${ending}`, { force: true })
      for (const ending of beside) renameSync(path.join(folder, `away.db${ending}`), `${file}${ending}`)
      await database.prisma.$disconnect()
      expect((await ask(listOwners)).status).toBe(200)
      expect((await send('moved')).status).toBe(200)
      expect(await count()).toBe(1)
      await isSound(database)
    })
    await database.prisma.$disconnect()
  })
})
