import { type ChildProcess, fork } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import {
  copyFileSync,
  createReadStream,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { Readable } from 'node:stream'
import { buffer } from 'node:stream/consumers'
import Libsql from 'libsql'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { ZipFile } from 'yazl'
import { archiveTables } from '#lib/archive/tables'
import { isBackupName } from '#lib/backup/backup-name'
import { getAnswers } from '#lib/db/answers/get-answers'
import { backUpOnTime } from '#lib/db/backup/backup-clock'
import { markFolder } from '#lib/db/backup/backup-folder'
import { backupEnded, findBackupJob, startBackupJob, stopBackupJob } from '#lib/db/backup/backup-jobs'
import { getBackupSettings } from '#lib/db/backup/backup-settings'
import { bringInBackup } from '#lib/db/backup/bring-in-backup'
import { changeBackupSettings } from '#lib/db/backup/change-backup-settings'
import { checkBackup } from '#lib/db/backup/check-backup'
import { getLastRun } from '#lib/db/backup/last-run'
import { findBackup, listBackups, removeBackup } from '#lib/db/backup/list-backups'
import { makeBackup, restoreKept } from '#lib/db/backup/make-backup'
import { openBackup } from '#lib/db/backup/open-backup'
import { restoreBackup } from '#lib/db/backup/restore-backup'
import { readRestoreOutlook } from '#lib/db/backup/restore-outlook'
import { restoreStopped } from '#lib/db/backup/restore-stopped'
import { writeBackup } from '#lib/db/backup/write-backup'
import type { Database } from '#lib/db/client'
import { addOwner } from '#lib/db/owner/owners'
import { findPhoto, keepPhoto } from '#lib/db/photo/photo-files'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addSmallWorld, type SmallWorld } from './small-world'
import { faultsInBooks } from './stock-books'
import { goods } from './things'

type Rows = { findMany: () => Promise<unknown[]> }

/** Every row of every table as Prisma reads it, in an order of its own; the revision and its change rows are told apart. */
async function everyRow({ prisma }: Database): Promise<Record<string, string[]>> {
  const all: Record<string, string[]> = {}
  for (const { name } of archiveTables) {
    const model = (prisma as unknown as Record<string, Rows>)[name.replace(/^./, (letter) => letter.toLowerCase())] as Rows
    all[name] = (await model.findMany()).map((row) => JSON.stringify(row)).sort()
  }
  return all
}

/** A backup once made on the other engine, for each to restore. */
let elsewhere: { file: string; rows: Record<string, string[]>; photo: Uint8Array; photoName: string } | null = null
const shelf = mkdtempSync(path.join(tmpdir(), 'larder-shelf-'))
afterAll(() => rmSync(shelf, { recursive: true, force: true }))

describeOnEachEngine('backups', ({ name: engineName, open }) => {
  let folder = ''
  let world: SmallWorld
  let photoName = ''
  const before = process.env.LARDER_DATA
  const backups = () => path.join(folder, 'backups')
  const drafts = () => [folder, backups()].flatMap((inside) => readdirSync(inside).filter((name) => name.startsWith('.draft')))
  let lots = 0
  const owned = () =>
    goods({
      ...{ threadId: world.threadIds[0] as string, ownerId: world.ownerIds[0] as string, wholePutUps: 1, homePlaceId: null },
      lot: `from the ${++lots}th day`,
    })

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-backups-'))
    process.env.LARDER_DATA = folder
    process.env.DATABASE_URL = open().url
    mkdirSync(backups())
    world = await addSmallWorld(open())
    const png = await sharp({ create: { width: 40, height: 30, channels: 3, background: '#8e2f2b' } })
      .png()
      .toBuffer()
    photoName = await keepPhoto(granted(await preparePhoto(png)))
    await open().prisma.project.updateMany({ data: { photoFile: photoName } })
  })
  afterAll(() => {
    delete process.env.DATABASE_URL
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  const make = async () => granted(await writeBackup({ url: open().url, folder: backups(), kind: 'asked' })).name
  const fileOf = (name: string) => path.join(backups(), name)

  it('hold database and uploads, and are found whole when restored to a scratch place', async () => {
    const made = granted(await makeBackup('asked'))
    expect(made.check).toMatchObject({ isGood: true })
    const listed = await findBackup(made.name)
    const { prisma } = open()
    expect(listed?.check).toMatchObject({
      isGood: true,
      holds: {
        charts: 3,
        threads: 8,
        cloth: 4,
        notions: 3,
        places: await prisma.place.count(),
        movements: await prisma.movement.count(),
        photos: 1,
        files: 0,
      },
    })
    expect(await getLastRun()).toMatchObject({ ended: 'good' })
    expect(drafts()).toEqual([])
  })

  it('put back every row and file, after anything, while the answers look on', async () => {
    const rows = await everyRow(open())
    const name = await make()
    const answers = await getAnswers()
    const charts = answers.world.designs.size
    const revision = (await open().prisma.revision.findFirstOrThrow()).number

    granted(await receiveThread(owned()))
    await open().prisma.project.deleteMany()
    await open().prisma.chart.updateMany({ data: { title: 'Another', isOutOfPrint: true } })
    granted(await addOwner({ name: 'Ines Coldwell', kind: 'person' }))
    rmSync(path.join(folder, 'uploads', 'photos', photoName))
    expect(await readRestoreOutlook(name)).toMatchObject({
      held: { projects: 3, photos: 1 },
      present: { projects: 0, photos: 0 },
      since: { movements: 1, writes: 2 },
    })

    const restored = granted(await restoreKept(name))
    expect(await everyRow(open())).toEqual(rows)
    expect(await findPhoto(photoName)).not.toBeNull()
    expect(await faultsInBooks(open().prisma)).toEqual([])
    const after = await getAnswers()
    expect(after.world.designs.size).toBe(charts)
    expect([...after.world.owners.values()]).not.toContain('Ines Coldwell')
    // It goes on from the higher number, so that whoever is behind starts again.
    expect((await open().prisma.revision.findFirstOrThrow()).number).toBeGreaterThan(revision + 2)
    // The journal is append-only again, and rows hang together by the database's own word.
    const [movement] = await open().prisma.movement.findMany({ take: 1 })
    await expect(open().prisma.movement.delete({ where: { id: movement?.id as string } })).rejects.toThrow()
    await expect(open().prisma.batch.deleteMany({})).rejects.toThrow()
    // And writing goes on.
    granted(await receiveThread(owned()))

    // What was there a moment before is set aside, and comes back as well.
    const aside = await findBackup(restored.setAside)
    expect(aside).toMatchObject({ kind: 'before-restore', check: { isGood: true, holds: { projects: 0 } } })
  })

  it('stay consistent while others write', { timeout: 120_000 }, async () => {
    let isOver = false
    const writing = (async () => {
      let written = 0
      while (!isOver) {
        granted(await receiveThread(owned()))
        written++
        await new Promise((resolve) => setImmediate(resolve))
      }
      return written
    })()
    const made = granted(await makeBackup('asked'))
    isOver = true
    expect(await writing).toBeGreaterThan(0)
    expect(made.check).toMatchObject({ isGood: true })
  })

  it('made on one engine are restored on the other', async () => {
    const name = await make()
    if (elsewhere === null) {
      copyFileSync(fileOf(name), path.join(shelf, 'elsewhere.zip'))
      const photo = await findPhoto(photoName)
      elsewhere = { file: path.join(shelf, 'elsewhere.zip'), rows: await everyRow(open()), photo: photo as Uint8Array, photoName }
      return
    }
    granted(await restoreBackup({ url: open().url, file: elsewhere.file, folder: backups() }))
    expect(await everyRow(open())).toEqual(elsewhere.rows)
    expect(await findPhoto(elsewhere.photoName)).toEqual(elsewhere.photo)
    expect(await faultsInBooks(open().prisma)).toEqual([])
    granted(await restoreBackup({ url: open().url, file: fileOf(name), folder: backups() }))
  })

  it('that were altered, torn or made by others are told apart, and never restored', async () => {
    const rows = await everyRow(open())
    const bytes = readFileSync(fileOf(await make()))
    const altered = Buffer.from(bytes)
    // In the middle of the pressed database.
    altered.writeUInt8(altered.readUInt8(20_000) ^ 0xff, 20_000)
    const packed = async (parts: Record<string, string>) => {
      const zip = new ZipFile()
      for (const [name, text] of Object.entries(parts)) zip.addBuffer(Buffer.from(text), name)
      zip.end()
      return buffer(zip.outputStream)
    }
    const head = {
      format: 'chart-larder-backup',
      version: 1,
      madeAt: '2026-11-30T02:10:05.000Z',
      kind: 'asked',
      engine: 'sqlite',
    }
    const empty = { ...head, revision: 1, lastChangeId: null, migration: '', counts: {}, holds: {} }
    const part = (name: string) => ({ name, bytes: 1, sha256: '0'.repeat(64) })
    const cases: [string, Buffer, object][] = [
      ['altered', altered, { kind: 'part-altered', name: 'larder.db' }],
      ['torn', bytes.subarray(0, bytes.length - 900), { kind: 'not-a-backup' }],
      ['empty', Buffer.alloc(0), { kind: 'not-a-backup' }],
      ['another', await packed({ 'hello.txt': 'hello' }), { kind: 'not-a-backup' }],
      ['newer', await packed({ 'manifest.json': JSON.stringify({ ...head, version: 2 }) }), { kind: 'newer' }],
      [
        'no part',
        await packed({ 'manifest.json': JSON.stringify({ ...empty, parts: [part('larder.db')] }) }),
        { kind: 'part-missing' },
      ],
      [
        'leading out',
        await packed({ 'manifest.json': JSON.stringify({ ...empty, parts: [part('uploads/../larder.db')] }) }),
        { kind: 'part-unknown' },
      ],
      [
        'one more',
        await packed({ 'manifest.json': JSON.stringify({ ...empty, parts: [] }), 'x.txt': 'x' }),
        { kind: 'part-unknown' },
      ],
      [
        'no database',
        await packed({
          'manifest.json': JSON.stringify({
            ...empty,
            // SHA-256 of "hello" (NIST's and everybody's).
            parts: [{ name: 'larder.db', bytes: 5, sha256: '2cf24dba5fb0a30e26e83b2ac5b9e29e1b161e5c1fa7425e73043362938b9824' }],
          }),
          'larder.db': 'hello',
        }),
        { kind: 'database-damaged' },
      ],
    ]
    for (const [what, made, fault] of cases) {
      const file = path.join(shelf, 'tried.zip')
      writeFileSync(file, made)
      const check = await checkBackup(file)
      expect(check, what).toMatchObject({ isGood: false, canRestore: false })
      expect(check.isGood ? [] : check.faults, what).toContainEqual(expect.objectContaining(fault))
      expect(await restoreBackup({ url: open().url, file, folder: backups() }), what).toMatchObject({
        ok: false,
        error: { kind: 'bad-backup' },
      })
    }
    expect(await everyRow(open())).toEqual(rows)
    expect(drafts()).toEqual([])
  })

  it('of a collection whose amounts are not its journal say so', async () => {
    const name = await make()
    const file = path.join(shelf, 'doctored.zip')
    await doctor(fileOf(name), path.join(shelf, 'doctored.db'), file, (sql) =>
      sql.exec(`UPDATE "Batch" SET "wholePutUps" = "wholePutUps" + 1 WHERE "id" = (SELECT min("id") FROM "Batch")`),
    )
    expect(await checkBackup(file)).toMatchObject({
      isGood: false,
      canRestore: true,
      faults: [{ kind: 'stock-differs', noun: 'batch', count: 1 }],
    })
  })

  it('come in from elsewhere, and go only when somebody removes them', async () => {
    const file = fileOf(await make())
    const stream = () => Readable.toWeb(createReadStream(file)) as ReadableStream<Uint8Array>
    const { name } = granted(await bringInBackup(stream()))
    expect(await findBackup(name)).toMatchObject({ isBroughtIn: true, check: null })
    const refusedOne = await bringInBackup(new Blob(['no backup']).stream() as ReadableStream<Uint8Array>)
    expect(refusedOne).toMatchObject({ ok: false, error: { kind: 'bad-backup', faults: [{ kind: 'not-a-backup' }] } })
    expect(await removeBackup('../larder.db')).toBe(false)
    expect(await removeBackup(name)).toBe(true)
    expect(await findBackup(name)).toBeNull()
    expect(drafts()).toEqual([])
  })

  // Where the file goes is the same whatever engine it was read from.
  const itOnce = (title: string, test: () => Promise<void>) => engineName === 'SQLite' && it(title, test)

  itOnce('go to a folder that was chosen, and nowhere when its disk is not there', async () => {
    const disk = path.join(shelf, `disk-${engineName}`)
    const settings = await getBackupSettings()
    expect(await changeBackupSettings({ ...settings, folder: disk })).toMatchObject({
      ok: false,
      error: { kind: 'folder-missing' },
    })
    mkdirSync(disk)
    granted(await changeBackupSettings({ ...settings, folder: disk }))
    const { name } = granted(await makeBackup('asked'))
    expect(existsSync(path.join(disk, name))).toBe(true)
    rmSync(disk, { recursive: true })
    expect(await makeBackup('scheduled')).toMatchObject({ ok: false, error: { kind: 'folder-missing', folder: disk } })
    expect(await getLastRun()).toMatchObject({ ended: 'refused', refusal: { kind: 'folder-missing' } })
    // The mount point alone is not the disk.
    mkdirSync(disk)
    expect(await makeBackup('scheduled')).toMatchObject({ ok: false, error: { kind: 'folder-not-ours' } })
    expect(readdirSync(disk)).toEqual([])
    granted(await markFolder(disk))
    granted(await makeBackup('scheduled'))
    granted(await changeBackupSettings({ ...settings, folder: null }))
  })

  itOnce('due while another is worked on are made when it has ended', async () => {
    const kept = granted(await makeBackup('asked')).name
    const checking = granted(await startBackupJob({ verb: 'check', name: kept }))
    await backUpOnTime()
    expect((await findBackupJob(checking.jobId))?.state).toMatchObject({ kind: 'ended', answer: { kind: 'checked' } })
    expect((await listBackups())[0]).toMatchObject({ kind: 'scheduled', check: { isGood: true } })
  })

  itOnce('stopped leave nothing behind', async () => {
    const names = readdirSync(backups())
    const { jobId } = granted(await startBackupJob({ verb: 'make', kind: 'asked' }))
    expect(await startBackupJob({ verb: 'make', kind: 'asked' })).toMatchObject({
      ok: false,
      error: { kind: 'too-many-at-once' },
    })
    await stopBackupJob(jobId)
    expect((await findBackupJob(jobId))?.state).toEqual({ kind: 'ended', answer: { kind: 'stopped' } })
    expect(readdirSync(backups())).toEqual(names)
    const again = granted(await startBackupJob({ verb: 'make', kind: 'asked' }))
    await backupEnded(again.jobId)
    expect((await findBackupJob(again.jobId))?.state).toMatchObject({ kind: 'ended', answer: { kind: 'made' } })
  })

  it('are not restored by the command while the program has the collection open', async () => {
    const name = await make()
    writeFileSync(path.join(folder, 'running'), String(process.ppid))
    expect(await restoreStopped(fileOf(name))).toEqual({ ok: false, error: { kind: 'running', pid: process.ppid } })
    rmSync(path.join(folder, 'running'))
    // This very test holds the file open; a server of PostgreSQL says nothing of who asks it.
    if (engineName === 'SQLite')
      expect(await restoreStopped(fileOf(name))).toEqual({ ok: false, error: { kind: 'running', pid: null } })
    expect(await restoreStopped(path.join(folder, 'nowhere.zip'))).toMatchObject({ ok: false })
  })

  it('are restored by the command onto nothing, and onto a database that does not read', async () => {
    const file = path.join(shelf, 'for-the-command.zip')
    copyFileSync(fileOf(await make()), file)
    const { DATABASE_URL: url, LARDER_DATA: data } = process.env
    try {
      for (const damage of [null, Buffer.alloc(50_000, 'no database'), 'half'] as const) {
        const house = mkdtempSync(path.join(tmpdir(), 'larder-stopped-'))
        const live = path.join(house, 'larder.db')
        process.env.LARDER_DATA = house
        process.env.DATABASE_URL = `file:${live}`
        if (damage === 'half') {
          const whole = path.join(shelf, 'half.db')
          const opened = await openBackup(file)
          if (opened.ok) await opened.value.readPart('larder.db', whole)
          if (opened.ok) opened.value.close()
          const bytes = readFileSync(whole)
          rmSync(whole)
          writeFileSync(live, bytes.fill(0x5a, 40_000, bytes.length - 40_000))
        } else if (damage) writeFileSync(live, damage)
        const restored = granted(await restoreStopped(file))
        const sql = new Libsql(live)
        expect(sql.prepare('SELECT count(*) AS n FROM "Thread"').get()).toMatchObject({ n: 8 })
        sql.close()
        expect(existsSync(path.join(house, 'uploads', 'photos', photoName))).toBe(true)
        // What was there stands under a dated name: a backup where it could be read, else as it was.
        if (damage === null) expect(isBackupName(restored.setAside)).toBe(true)
        else expect(existsSync(path.join(restored.setAside, 'larder.db'))).toBe(true)
        rmSync(house, { recursive: true })
      }
    } finally {
      process.env.DATABASE_URL = url
      process.env.LARDER_DATA = data
    }
  })

  /** Let an errand run in a process of its own, and kill it after so many milliseconds, or at a step. */
  async function runAndKill(errand: object, at: { step: string } | { afterMs: number }): Promise<void> {
    const child: ChildProcess = fork(path.join(process.cwd(), 'lib/db/backup/built/backup-work.mjs'), {
      env: { ...process.env, DATABASE_URL: open().url, LARDER_DATA: folder },
    })
    const ended = once(child, 'exit')
    child.on('message', (posted: { kind: string; progress?: { step: string } }) => {
      if (posted.kind === 'hold') child.send('held')
      if ('step' in at && posted.progress?.step === at.step) child.kill('SIGKILL')
    })
    child.send(errand)
    if ('afterMs' in at) setTimeout(() => child.kill('SIGKILL'), at.afterMs)
    await ended
  }

  it('killed at any point leave the old or the new state whole', { timeout: 240_000 }, async () => {
    const name = await make()
    const then = await everyRow(open())
    granted(await receiveThread(owned()))
    await open().prisma.project.updateMany({ data: { note: 'since' } })
    const now = await everyRow(open())
    const isWhole = async () => [JSON.stringify(then), JSON.stringify(now)].includes(JSON.stringify(await everyRow(open())))
    const whole = async () => {
      for (const one of readdirSync(backups()).filter(isBackupName))
        expect(await checkBackup(fileOf(one)), one).toMatchObject({ isGood: true })
    }
    for (const one of readdirSync(backups()).filter((file) => file !== name && isBackupName(file))) await removeBackup(one)
    const making = { verb: 'make', folder: backups(), kind: 'asked' }
    await runAndKill(making, { step: 'copying' })
    if (engineName === 'SQLite') await runAndKill(making, { step: 'packing' })
    await whole()
    const restoring = { verb: 'restore', file: fileOf(name), folder: backups() }
    for (const step of engineName === 'SQLite' ? ['setting-aside', 'putting-in-place'] : ['putting-in-place']) {
      await runAndKill(restoring, { step })
      expect(await isWhole(), step).toBe(true)
    }
    for (const afterMs of engineName === 'SQLite' ? [800, 1_000] : [1_100]) {
      await runAndKill(restoring, { afterMs })
      expect(await isWhole(), `after ${afterMs} ms`).toBe(true)
    }
    await whole()
    granted(await restoreKept(name))
    expect(await everyRow(open())).toEqual(then)
    // What the killed ones left half made is taken away with the next.
    expect(drafts()).toEqual([])
    expect((await listBackups()).every(({ check }) => check === null || check.isGood)).toBe(true)
  })
})

/** Unpack a backup's database to `database`, change it, and write `file` with it, the manifest saying so. */
async function doctor(backup: string, database: string, file: string, change: (sql: InstanceType<typeof Libsql>) => void) {
  const opened = await openBackup(backup)
  if (!opened.ok) throw new Error(opened.error.kind)
  const { manifest, readPart, close } = opened.value
  const zip = new ZipFile()
  expect(await readPart('larder.db', database)).toBe(true)
  const uploads = manifest.parts.filter(({ name }) => name !== 'larder.db')
  for (const { name } of uploads) {
    await readPart(name, `${database}.part`)
    zip.addBuffer(readFileSync(`${database}.part`), name)
    rmSync(`${database}.part`)
  }
  close()
  const sql = new Libsql(database)
  change(sql)
  sql.close()
  const bytes = readFileSync(database)
  rmSync(database)
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  zip.addBuffer(bytes, 'larder.db')
  const parts = [{ name: 'larder.db', bytes: bytes.length, sha256 }, ...uploads]
  zip.addBuffer(Buffer.from(JSON.stringify({ ...manifest, parts })), 'manifest.json')
  zip.end()
  writeFileSync(file, await buffer(zip.outputStream))
}
