import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { databaseName } from '#lib/backup/manifest'
import { backUpOnTime } from '#lib/db/backup/backup-clock'
import { listBackups } from '#lib/db/backup/list-backups'
import { openBackup } from '#lib/db/backup/open-backup'
import { restoreBackup } from '#lib/db/backup/restore-backup'
import { writeBackup } from '#lib/db/backup/write-backup'
import { newId } from '#lib/db/new-id'
import { describeOnEachEngine, openEmpty } from './engines'
import { granted } from './granted'
import { addPerson, signInSecret } from './people'

const ofTheMoment = ['Session', 'ApiToken', 'SignInChallenge', 'AnsweredKey', 'BackgroundJob']

describeOnEachEngine('people and backups', ({ name: engineName, open }) => {
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-people-'))
  const before = process.env.LARDER_DATA
  const backups = path.join(folder, 'backups')
  let backup = ''
  const ownerId = newId()

  beforeAll(async () => {
    process.env.LARDER_DATA = folder
    process.env.DATABASE_URL = open().url
    mkdirSync(backups)
    await open().prisma.owner.create({ data: { id: ownerId, name: 'Hanne Drewitt', nameKey: 'hanne drewitt' } })
    await addPerson(open(), 'Hanne', ownerId)
    backup = path.join(backups, granted(await writeBackup({ url: open().url, folder: backups, kind: 'asked' })).name)
  })
  afterAll(() => {
    delete process.env.DATABASE_URL
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })
  const restore = (url: string) => restoreBackup({ url, file: backup, folder: backups })

  it('take accounts along, and nothing that lets anybody in just now: not in a free page either', async () => {
    const copy = path.join(folder, 'copy.db')
    const opened = granted(await openBackup(backup))
    expect(await opened.readPart(databaseName, copy)).toBe(true)
    opened.close()
    expect(readFileSync(copy).includes(signInSecret)).toBe(false)
    const database = new Libsql(copy)
    const count = (table: string) => Number((database.prepare(`SELECT count(*) AS n FROM "${table}"`).get() as { n: number }).n)
    for (const table of ofTheMoment) expect(count(table), table).toBe(0)
    for (const table of ['Account', 'AccountOwner', 'Passkey', 'AuditEntry']) expect(count(table), table).toBe(1)
    database.close()
    // Here all of them are still signed in.
    expect(await open().prisma.session.count()).toBe(1)
  })

  it('restored where there is nobody bring theirs along', async () => {
    const fresh = await openEmpty(open().engine)
    if (!fresh) throw new Error('the engine runs already')
    granted(await restore(fresh.database.url))
    const { prisma } = fresh.database
    expect(await prisma.account.findMany({ select: { name: true, owners: { select: { ownerId: true } } } })).toEqual([
      { name: 'Hanne', owners: [{ ownerId }] },
    ])
    expect([await prisma.passkey.count(), await prisma.auditEntry.count(), await prisma.session.count()]).toEqual([1, 1, 0])
    await fresh.drop()
  })

  it('restored where there are people leave them signed in, and forget whose goods are gone', async () => {
    const fresh = await openEmpty(open().engine)
    if (!fresh) throw new Error('the engine runs already')
    const { prisma } = fresh.database
    const gone = await prisma.owner.create({ data: { id: newId(), name: 'Tobias Wrenfield', nameKey: 'tobias wrenfield' } })
    const accountId = await addPerson(fresh.database, 'Tobias', gone.id)
    granted(await restore(fresh.database.url))
    expect((await prisma.owner.findMany()).map(({ name }) => name)).toEqual(['Hanne Drewitt'])
    expect((await prisma.account.findMany()).map(({ id, name }) => [id, name])).toEqual([[accountId, 'Tobias']])
    expect([await prisma.accountOwner.count(), await prisma.passkey.count()]).toEqual([0, 1])
    expect([await prisma.session.count(), await prisma.apiToken.count(), await prisma.backgroundJob.count()]).toEqual([1, 1, 1])
    // What was done there and what was done here are both still told.
    expect((await prisma.auditEntry.findMany()).map(({ accountName }) => accountName).sort()).toEqual(['Hanne', 'Tobias'])
    await fresh.drop()
  })

  it('are made once when several clocks strike', { timeout: 120_000 }, async () => {
    const due = new Date('2026-11-30T03:00:00Z')
    await Promise.all([backUpOnTime(due), backUpOnTime(due)])
    // With one process a clock strikes once; with several one that is late must not make it again.
    if (engineName === 'PostgreSQL') await backUpOnTime(due)
    expect((await listBackups()).filter(({ kind }) => kind === 'scheduled')).toHaveLength(1)
  })
})
