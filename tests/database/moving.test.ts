import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import { afterAll, beforeAll, expect, inject, it } from 'vitest'
import { ofTheMoment } from '#lib/backup/kept-here'
import { repairsOf, weightOf } from '#lib/checking/fault'
import { sqlitePath } from '#lib/db/backup/copy-database'
import { checkCollection } from '#lib/db/checking/check-collection'
import { repairFault } from '#lib/db/checking/repair-fault'
import { type Database, openDatabase } from '#lib/db/client'
import { moveToPostgresql } from '#lib/db/moving/move-to-postgresql'
import { newId } from '#lib/db/new-id'
import { describeOnEachEngine, openEmpty } from './engines'
import { granted } from './granted'
import { addOneOfEverything } from './one-of-everything'
import { addPerson } from './people'
import { addSmallWorld } from './small-world'

const canRun = !('missing' in inject('postgresql'))

describeOnEachEngine('moving into PostgreSQL', ({ name, open }) => {
  if (name !== 'SQLite') {
    it('is refused where it is there already', async () => {
      const [from, to] = [open().url, open().url]
      expect(await moveToPostgresql({ from, to })).toEqual({ ok: false, error: { kind: 'not-from-sqlite' } })
    })
    return
  }
  let fresh: { database: Database; drop: () => Promise<void> }
  const toFresh = async () => {
    fresh = (await openEmpty('postgresql')) as typeof fresh
    return { from: open().url, to: fresh.database.url }
  }

  const folder = mkdtempSync(path.join(tmpdir(), 'larder-moving-'))
  const before = process.env.LARDER_DATA
  afterAll(() => {
    process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })
  beforeAll(async () => {
    process.env.LARDER_DATA = folder
    await addSmallWorld(open())
    await addOneOfEverything(open())
    await addPerson(open(), 'Nell', (await open().prisma.owner.findFirstOrThrow()).id)
  })

  it.runIf(canRun)('wants a sound collection: what must not be is set right first', async () => {
    // The small world's cloth came without a line in the journal.
    expect(await moveToPostgresql(await toFresh())).toEqual({ ok: false, error: { kind: 'not-sound', count: 1 } })
    await fresh.drop()
    const [fault] = (await checkCollection(open())).faults.filter(({ kind }) => weightOf(kind) === 'wrong')
    if (!fault) throw new Error('no fault was found')
    for (const repair of repairsOf(fault).slice(0, 1)) granted(await repairFault(fault, repair))
  })

  it.runIf(canRun)('brings every row over, the same on both sides, and nothing of the moment', async () => {
    const steps: string[] = []
    const moved = granted(
      await moveToPostgresql({ ...(await toFresh()), report: ({ step }) => void (steps.at(-1) !== step && steps.push(step)) }),
    )
    expect(steps).toEqual(['checking', 'copying', 'comparing', 'checking'])
    expect(moved.isWrittenSince).toBe(false)
    // Counted by the databases themselves, apart from what moved them.
    const file = new Libsql(sqlitePath(open().url))
    for (const { table, here, there } of moved.tables) {
      const count = Number((file.prepare(`SELECT count(*) AS n FROM "${table}"`).get() as { n: number }).n)
      const [counted] = await fresh.database.prisma.$queryRawUnsafe<{ n: bigint }[]>(`SELECT count(*) AS n FROM "${table}"`)
      // The change that tells whoever holds answers to begin anew is one more.
      expect([here.rows, there.rows, Number(counted?.n) - (table === 'Change' ? 1 : 0)], table).toEqual([count, count, count])
      expect(there.sha256, table).toBe(here.sha256)
    }
    file.close()
    expect(moved.tables.map(({ table }) => table)).toEqual(
      expect.arrayContaining(['Account', 'AccountOwner', 'AuditEntry', 'Movement']),
    )
    for (const table of ofTheMoment)
      expect(await fresh.database.prisma.$queryRawUnsafe(`SELECT 1 AS n FROM "${table}"`), table).toEqual([])
    // Read by the program, it is the same collection.
    const read = ({ prisma }: Database) => prisma.movement.findMany({ orderBy: { id: 'asc' } })
    expect(await read(fresh.database)).toEqual(await read(open()))
    await fresh.drop()
  })

  it.runIf(canRun)('keeps nothing where one cell arrived otherwise than it left', async () => {
    const asked = await toFresh()
    const moved = await moveToPostgresql({
      ...asked,
      meanwhile: async (client) =>
        void (await client.query(`UPDATE "Place" SET "label" = "label" || ' ' WHERE "id" = (SELECT min("id") FROM "Place")`)),
    })
    expect(moved).toMatchObject({ ok: false, error: { kind: 'differs', tables: [{ table: 'Place' }] } })
    expect(await fresh.database.prisma.place.count()).toBe(0)
    expect(await fresh.database.prisma.revision.findUnique({ where: { id: 'main' } })).toMatchObject({ number: 0 })
    // Nothing was left half done there: it can be moved into still, and then no second time.
    granted(await moveToPostgresql(asked))
    expect(await moveToPostgresql(asked)).toMatchObject({ ok: false, error: { kind: 'not-empty' } })
    await fresh.drop()
  })

  it.runIf(canRun)('says when somebody wrote to the old one meanwhile, and moves it as it was before', async () => {
    const asked = await toFresh()
    const writer = openDatabase(asked.from)
    const moved = granted(
      await moveToPostgresql({
        ...asked,
        meanwhile: async () => {
          await writer.prisma.$transaction([
            writer.prisma.revision.update({ where: { id: 'main' }, data: { number: { increment: 1 } } }),
            writer.prisma.owner.create({ data: { id: newId(), name: 'Late', nameKey: 'late' } }),
          ])
        },
      }),
    )
    expect(moved.isWrittenSince).toBe(true)
    expect(await fresh.database.prisma.owner.count({ where: { nameKey: 'late' } })).toBe(0)
    await writer.prisma.$disconnect()
    await fresh.drop()
  })

  it('is from SQLite and to PostgreSQL only', async () => {
    const from = open().url
    expect(await moveToPostgresql({ from, to: from })).toEqual({ ok: false, error: { kind: 'not-to-postgresql' } })
    const to = 'postgresql://nobody@127.0.0.1:1/none'
    expect(await moveToPostgresql({ from: to, to })).toEqual({ ok: false, error: { kind: 'not-from-sqlite' } })
    expect(await moveToPostgresql({ from: 'file:/nowhere/larder.db', to })).toMatchObject({
      ok: false,
      error: { kind: 'no-collection' },
    })
  })
})
