import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { archiveTables, tablesLeftOut } from '#lib/archive/tables'
import { getAnswers } from '#lib/db/answers/get-answers'
import { bringBack } from '#lib/db/archive/bring-back'
import { writeArchive } from '#lib/db/archive/write-archive'
import { bulkInsert } from '#lib/db/bulk-insert'
import type { Database } from '#lib/db/client'
import { bringInSample } from '#lib/db/importing/sample'
import { writeTo } from '#lib/db/write-gate'
import { ok } from '#lib/result'
import { seedCollection } from '#seed/seed'
import { describeOnEachEngine, openEmpty } from './engines'
import { granted } from './granted'
import { type ActName, acts } from './larder-acts'
import { addOneOfEverything } from './one-of-everything'
import { addSmallWorld } from './small-world'

/** Every row of every table as Prisma reads it, past everything an archive is written with. */
async function everyRow({ prisma }: Database): Promise<Record<string, unknown[]>> {
  const tables: Record<string, unknown[]> = {}
  for (const { name, key } of archiveTables) {
    const delegate = `${name.charAt(0).toLowerCase()}${name.slice(1)}`
    const { findMany } = (prisma as unknown as Record<string, { findMany: (ask: object) => Promise<object[]> }>)[
      delegate
    ] as never
    const rows: Record<string, unknown>[] = await (findMany as (ask: object) => Promise<Record<string, unknown>[]>)({})
    const keyOf = (row: Record<string, unknown>) => JSON.stringify(key.map((column) => row[column]))
    tables[name] = rows.sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1))
  }
  return tables
}

const held = globalThis as { larderDatabase?: unknown; larderAnswers?: unknown }

/** A data folder of its own for as long as `work` takes. */
async function inFolder<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const before = process.env.LARDER_DATA
  process.env.LARDER_DATA = folder
  try {
    return await work()
  } finally {
    process.env.LARDER_DATA = before
  }
}

/** The collection through an archive into an empty database of the other engine or this one, and what stands there then. */
async function roundTrip(source: Database, folder: string, engine: Database['engine']): Promise<void> {
  const file = path.join(folder, 'there.zip')
  const there = path.join(folder, `there-${engine}`)
  const first = await writeArchive(source, { file })
  const other = await openEmpty(engine)
  if (!other) return
  try {
    await inFolder(there, async () => {
      const back = granted(await bringBack(other.database, { file }))
      expect(back).toMatchObject({ rowCount: first.rowCount, uploadCount: first.uploadCount, missing: first.missing })
      expect(await everyRow(other.database)).toEqual(await everyRow(source))
      const second = await writeArchive(other.database, { file: path.join(folder, 'back.zip') })
      expect(second.parts).toEqual(first.parts)
      // Movements and walks say at which revision: none is above the collection's own.
      expect(second.revision).toBeGreaterThanOrEqual(first.revision)
    })
  } finally {
    await other.drop()
    rmSync(there, { recursive: true, force: true })
  }
}

describeOnEachEngine('a whole collection taken out and brought back', ({ name, open }) => {
  const dataBefore = process.env.LARDER_DATA
  const theOther = name === 'SQLite' ? 'postgresql' : 'sqlite'
  let folder = ''
  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-archive-'))
    process.env.LARDER_DATA = path.join(folder, 'data')
    delete held.larderAnswers
  })
  afterAll(() => {
    process.env.LARDER_DATA = dataBefore
    delete held.larderAnswers
    rmSync(folder, { recursive: true, force: true })
  })

  it('has every table and column there is', async () => {
    const rows: { table: string; column: string }[] = await open().prisma.$queryRawUnsafe(
      name === 'SQLite'
        ? `SELECT m.name AS "table", c.name AS "column" FROM sqlite_master m JOIN pragma_table_info(m.name) c WHERE m.type = 'table'`
        : `SELECT table_name::text AS "table", column_name::text AS "column" FROM information_schema.columns WHERE table_schema = 'public'`,
    )
    const there = rows
      .filter(({ table }) => !/^(_prisma_|sqlite_)/.test(table) && !(table in tablesLeftOut))
      .map(({ table, column }) => `${table}.${column}`)
    const archived = archiveTables.flatMap(({ name: table, columns }) =>
      Object.keys(columns).map((column) => `${table}.${column}`),
    )
    expect(archived.sort()).toEqual(there.sort())
  })

  it('is nothing at all, when there is nothing', () => roundTrip(open(), folder, theOther))

  it('is days of borrowing, kitting and counting, and a row of every kind, to the last one', { timeout: 120_000 }, async () => {
    const world = await addSmallWorld(open())
    const usual = (Object.keys(acts) as ActName[]).filter((act) => act !== 'merge places' && act !== 'split a place')
    const chance = fc.record({ first: fc.nat(997), second: fc.nat(991), many: fc.nat(3), yes: fc.boolean(), other: fc.boolean() })
    const turns = fc.sample(fc.record({ act: fc.constantFrom(...usual), chance }), { seed: 20_261_130, numRuns: 60 })
    for (const { act, chance: by } of turns) await acts[act]({ prisma: open().prisma, world, ...by })
    await addOneOfEverything(open())

    const there = await everyRow(open())
    expect(Object.entries(there).flatMap(([table, rows]) => (rows.length === 0 ? [table] : []))).toEqual([])
    await roundTrip(open(), folder, theOther)
  })

  it('is one moment, whatever is written meanwhile', async () => {
    const before = await everyRow(open())
    let wrote: Promise<unknown> | null = null
    await writeArchive(open(), {
      file: path.join(folder, 'meanwhile.zip'),
      report: ({ step }) => {
        if (step !== 'rows' || wrote) return
        wrote = writeTo(open(), async ({ tx, engine }) => {
          await bulkInsert(tx, engine, 'Maker', [{ id: 'meanwhile', name: 'Meanwhile', nameKey: 'meanwhile', version: 0 }])
          return ok(null)
        })
      },
    })
    await wrote
    const other = await openEmpty(theOther)
    if (!other) return
    await inFolder(path.join(folder, 'moment'), async () => {
      granted(await bringBack(other.database, { file: path.join(folder, 'meanwhile.zip') }))
      expect(await everyRow(other.database)).toEqual(before)
    })
    await other.drop()
    await open().prisma.maker.delete({ where: { id: 'meanwhile' } })
  })

  it('says which files were not there, and comes back without them', async () => {
    const photos = path.join(folder, 'data', 'uploads', 'photos')
    const lost = readdirSync(photos).find((file) => file.endsWith('-thumb.webp')) as string
    rmSync(path.join(photos, lost))
    const made = await writeArchive(open(), { file: path.join(folder, 'lost.zip') })
    expect(made.missing).toEqual([`uploads/photos/${lost}`])
    await roundTrip(open(), folder, theOther)
  })

  it('leaves nothing behind when it is stopped', async () => {
    const stop = new AbortController()
    const file = path.join(folder, 'stopped.zip')
    const work = writeArchive(open(), {
      file,
      signal: stop.signal,
      report: ({ step }) => step === 'rows' && stop.abort(new Error('enough')),
    })
    await expect(work).rejects.toThrow('enough')
    expect(readdirSync(folder).filter((entry) => entry.startsWith('stopped'))).toEqual([])
  })
})

describeOnEachEngine('a larger collection taken out and brought back', ({ name, open }) => {
  const dataBefore = process.env.LARDER_DATA
  const theOther = name === 'SQLite' ? 'postgresql' : 'sqlite'
  let folder = ''
  beforeAll(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-archive-'))
    process.env.LARDER_DATA = path.join(folder, 'data')
    delete held.larderAnswers
  })
  afterAll(() => {
    process.env.LARDER_DATA = dataBefore
    delete held.larderAnswers
    rmSync(folder, { recursive: true, force: true })
  })

  // Each goes over to the other engine, so that one block of each is enough.
  if (name === 'SQLite')
    it('is the sample, with the same answers', { timeout: 120_000 }, async () => {
      granted(await bringInSample())
      await roundTrip(open(), folder, theOther)
      const answersOf = async () => {
        delete held.larderAnswers
        const answers = await getAnswers()
        const ownerIds = [...answers.world.owners.keys()].sort()
        return [...answers.world.designs.keys()].sort().map((id) => answers.coverage(ownerIds).answerFor(id))
      }
      const here = await answersOf()
      const other = await openEmpty('sqlite')
      if (!other) return
      granted(await bringBack(other.database, { file: path.join(folder, 'there.zip') }))
      held.larderDatabase = other.database
      expect(await answersOf()).toEqual(here)
      held.larderDatabase = open()
      await other.drop()
    })

  if (name === 'PostgreSQL')
    it('is a collection of a home’s size', { timeout: 120_000 }, async () => {
      const made = await openEmpty('postgresql')
      if (!made) return
      await seedCollection(made.database, { size: 'home', seed: 11, report: () => {} })
      await roundTrip(made.database, folder, theOther)
      await made.drop()
    })
})
