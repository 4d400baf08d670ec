// The check of the whole collection: a sound one is found sound, each thing that must not be is found and nothing beside it, and each
// repair mends what it says and leaves the journal adding up.
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import Libsql from 'libsql'
import pg from 'pg'
import sharp from 'sharp'
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest'
import type { FaultKind, Repair } from '#lib/checking/fault'
import { getAnswers } from '#lib/db/answers/get-answers'
import { writeNeedFile } from '#lib/db/answers/need-file'
import { makeBackup } from '#lib/db/backup/make-backup'
import { checkCollection, isSound } from '#lib/db/checking/check-collection'
import { checkEnded, findCheck, openFaults, repairFrom, startCheck } from '#lib/db/checking/check-jobs'
import { repairFault } from '#lib/db/checking/repair-fault'
import { listSetAside, removeSetAside } from '#lib/db/checking/set-aside'
import { openDatabase } from '#lib/db/client'
import { storeFile } from '#lib/db/file/file-store'
import { newId } from '#lib/db/new-id'
import { keepPhoto } from '#lib/db/photo/photo-files'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { readSnapshot } from '#lib/db/read-snapshot'
import { getSettings } from '#lib/db/settings/settings'
import { avifThumbName, thumbName } from '#lib/photo/photo-name'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addSmallWorld } from './small-world'
import { faultsInBooks } from './stock-books'

const at = new Date('2026-11-30T10:00:00.000Z')
const dayMs = 86_400_000

describeOnEachEngine('the check of a collection', ({ name, open }) => {
  let folder = ''
  const before = process.env.LARDER_DATA
  const held = globalThis as { larderAnswers?: unknown }
  const isSqlite = name === 'SQLite'
  let shopId = ''
  let batchId = ''
  let otherBatchId = ''
  let clothId = ''
  let chartId = ''
  let notionId = ''
  let openProjectId = ''
  let designId = ''

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-check-'))
    process.env.LARDER_DATA = folder
    process.env.DATABASE_URL = open().url
    delete held.larderAnswers
    const world = await addSmallWorld(open())
    shopId = world.ownerIds[0] as string
    const { prisma } = open()
    const free = await prisma.batch.findMany({
      where: { ownerId: shopId, promises: { none: {} }, homePlaceId: { not: null }, partCertainty: 'none' },
      orderBy: { id: 'asc' },
    })
    batchId = free[0]?.id as string
    otherBatchId = free[1]?.id as string
    clothId = (await prisma.clothPiece.findFirstOrThrow({ where: { label: 'L-3' } })).id
    chartId = (await prisma.chart.findFirstOrThrow({ where: { title: 'Nine Wrens' } })).id
    notionId = (await prisma.notion.findFirstOrThrow({ where: { name: 'Hoop' } })).id
    const project = await prisma.project.findFirstOrThrow({ where: { ownerId: shopId, quantity: 1 } })
    openProjectId = project.id
    designId = project.designId
  })
  afterAll(() => {
    delete process.env.DATABASE_URL
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    delete held.larderAnswers
    rmSync(folder, { recursive: true, force: true })
  })

  /** Write what neither rules nor triggers nor links would let through. */
  async function past(...statements: string[]): Promise<void> {
    if (isSqlite) {
      const file = new Libsql(open().url.replace(/^file:/, ''), { timeout: 5_000 })
      file.exec('PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON')
      for (const statement of statements) file.exec(statement)
      file.close()
      return
    }
    const client = new pg.Client({ connectionString: open().url })
    await client.connect()
    await client.query('SET session_replication_role = replica')
    for (const statement of statements) await client.query(statement)
    await client.end()
  }

  // All but the file itself, which is looked at in a thread of its own and stays whole here.
  const look = () => checkCollection(open(), { leaveOut: ['damage'] })
  const kindsFound = async () => (await look()).faults.map(({ kind }) => kind)
  const clean = async () => expect((await look()).faults).toEqual([])
  // What the random days are held against, told by another hand.
  afterEach(async () => expect(await faultsInBooks(open().prisma)).toEqual([]))

  /** Break one thing, see it and nothing else told, mend it, and see all well. A repair asked for once more says there is nothing left to do. */
  async function breaks(
    kind: FaultKind,
    breaking: () => Promise<unknown>,
    repair: Repair,
    beside: FaultKind[] = [],
  ): Promise<void> {
    await breaking()
    const { faults } = await look()
    expect(faults.map((fault) => fault.kind).sort()).toEqual([kind, ...beside].sort())
    const fault = faults.find((one) => one.kind === kind) as (typeof faults)[number]
    const journal = await open().prisma.movement.findMany({ orderBy: { id: 'asc' } })
    granted(await repairFault(fault, repair, { who: 'Nell Oxtoby' }))
    await clean()
    const after = await open().prisma.movement.findMany({ orderBy: { id: 'asc' } })
    expect(after.filter(({ id }) => journal.some((line) => line.id === id))).toEqual(journal)
    expect(
      after.slice(journal.length).every((line) => line.kind === 'correct' && line.reason && line.who === 'Nell Oxtoby'),
    ).toBe(true)
    expect(await repairFault(fault, repair)).toEqual({ ok: false, error: { kind: 'no-longer-there' } })
  }

  const addPlace = async (label: string, over: { kind?: string; goneAt?: Date; parentId?: string } = {}) => {
    const id = newId()
    const parent = over.parentId ? await open().prisma.place.findUniqueOrThrow({ where: { id: over.parentId } }) : null
    const path = `${parent?.path ?? '/'}${id}/`
    await open().prisma.place.create({ data: { id, label, labelKey: label.toLowerCase(), kind: 'box', path, ...over } })
    return id
  }
  const lend = async (placeId: string, line: object, kind = 'lend') => {
    const id = newId()
    const terms = { kind, placeId, ownerId: shopId, reason: 'a class', fromOn: '2026-11-01', dueOn: '2026-12-24' }
    await open().prisma.loan.create({ data: { id, ...terms, lines: { create: { id: newId(), position: 0, ...line } } } })
    return id
  }
  const ask = (thing: object) => open().prisma.missingThing.create({ data: { id: newId(), askedAt: at, ...thing } })

  it('finds a sound one sound, and says what it looked at', async () => {
    const { looked, isWhole, counts, engine, faults } = await checkCollection(open())
    expect(faults).toEqual([])
    expect({ isWhole, counts, engine }).toEqual({ isWhole: true, counts: {}, engine: isSqlite ? 'sqlite' : 'postgresql' })
    const { prisma } = open()
    expect(looked).toMatchObject({ movements: await prisma.movement.count(), places: await prisma.place.count(), snapshot: null })
    expect(looked.promises).toBe(await prisma.stockPromise.count())
  })

  it('finds stock that is not what its journal adds up to, and mends it either way', async () => {
    const { prisma } = open()
    const { wholePutUps } = await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })
    const more = () => prisma.batch.update({ where: { id: batchId }, data: { wholePutUps: { increment: 2 } } })
    await breaks('stock-differs', more, 'trust-journal')
    expect(await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })).toMatchObject({ wholePutUps })
    await breaks('stock-differs', more, 'trust-record')
    expect(await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })).toMatchObject({ wholePutUps: wholePutUps + 2 })
    const part = () => prisma.batch.update({ where: { id: batchId }, data: { partStrandTenths: 60_000, partCertainty: 'guess' } })
    await breaks('stock-differs', part, 'trust-journal')
    expect(await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })).toMatchObject({
      partStrandTenths: 0,
      partCertainty: 'none',
    })
    await breaks(
      'stock-differs',
      () => prisma.chart.update({ where: { id: chartId }, data: { copies: { increment: 1 } } }),
      'trust-journal',
    )
    await breaks(
      'stock-differs',
      () => prisma.notion.update({ where: { id: notionId }, data: { count: { increment: 3 } } }),
      'trust-record',
    )
    const piece = await prisma.clothPiece.findUniqueOrThrow({ where: { id: clothId } })
    const [lost, found] = [newId(), newId()]
    await breaks(
      'stock-differs',
      () => prisma.clothPiece.create({ data: { ...piece, id: lost, label: 'L-8', labelKey: 'l-8' } }),
      'trust-journal',
    )
    expect((await prisma.clothPiece.findUniqueOrThrow({ where: { id: lost } })).goneAt).not.toBeNull()
    await breaks(
      'stock-differs',
      () => prisma.clothPiece.create({ data: { ...piece, id: found, label: 'L-9', labelKey: 'l-9' } }),
      'trust-record',
    )
    expect((await prisma.clothPiece.findUniqueOrThrow({ where: { id: found } })).goneAt).toBeNull()
  })

  it('finds less than nothing, and what is gone and holds thread', async () => {
    const { prisma } = open()
    const { count } = await prisma.notion.findUniqueOrThrow({ where: { id: notionId } })
    if (!isSqlite) await past('ALTER TABLE "Notion" DROP CONSTRAINT "Notion_figures_check"')
    const below = async () => {
      await prisma.movement.create({ data: { id: newId(), revision: 1, at, kind: 'use', notionId, wholeDelta: -count - 1 } })
      await past(`UPDATE "Notion" SET "count" = -1 WHERE "id" = '${notionId}'`)
    }
    await below()
    // SQLite itself says so too; a server would not have taken it.
    expect(Object.keys((await checkCollection(open())).counts)).toEqual(
      isSqlite ? ['rule-broken', 'below-nothing'] : ['below-nothing'],
    )
    await breaks('below-nothing', async () => null, 'set-to-nothing')
    expect(await prisma.notion.findUniqueOrThrow({ where: { id: notionId } })).toMatchObject({ count: 0 })
    await breaks('gone-holds', () => prisma.batch.update({ where: { id: otherBatchId }, data: { goneAt: at } }), 'set-to-nothing')
  })

  it('finds what lives in a place that is gone, is out since never, and places that stand nowhere', async () => {
    const { prisma } = open()
    const goneId = await addPlace('Old drawer', { goneAt: at })
    const batch = { where: { id: batchId } }
    const { homePlaceId } = await prisma.batch.findUniqueOrThrow(batch)
    await breaks('in-gone-place', () => prisma.batch.update({ ...batch, data: { currentPlaceId: goneId } }), 'leave-gone-place')
    expect(await prisma.batch.findUniqueOrThrow(batch)).toMatchObject({
      homePlaceId,
      currentPlaceId: homePlaceId,
      outSince: null,
    })
    await breaks('out-differs', () => prisma.batch.update({ ...batch, data: { outSince: at } }), 'set-out-since')
    const bag = await prisma.place.findFirstOrThrow({ where: { label: 'K-02' } })
    await breaks('out-differs', () => prisma.batch.update({ ...batch, data: { currentPlaceId: bag.id } }), 'set-out-since')
    expect((await prisma.batch.findUniqueOrThrow(batch)).outSince).not.toBeNull()
    await prisma.batch.update({ ...batch, data: { currentPlaceId: homePlaceId, outSince: null } })
    await breaks(
      'bag-gone',
      () => prisma.project.update({ where: { id: openProjectId }, data: { placeId: goneId } }),
      'leave-gone-place',
    )

    const drawer = await prisma.place.findFirstOrThrow({ where: { label: 'T1' } })
    const room = { where: { id: drawer.parentId as string } }
    await breaks('place-in-circle', () => prisma.place.update({ ...room, data: { parentId: drawer.id } }), 'stand-higher')
    expect(await prisma.place.findUniqueOrThrow({ where: { label: 'Room', labelKey: 'room' } as never })).toMatchObject({
      parentId: null,
    })
    const wrong = () => prisma.place.update({ where: { id: drawer.id }, data: { path: `/${drawer.id}/` } })
    await breaks('place-path-differs', wrong, 'write-path', ['place-path-differs', 'place-path-differs'])
    const boxId = await addPlace('Box in the old drawer', { parentId: goneId })
    await prisma.place.update({ where: { id: goneId }, data: { parentId: room.where.id, path: `/${room.where.id}/${goneId}/` } })
    await breaks('place-in-gone-place', async () => boxId, 'stand-higher')
    expect(await prisma.place.findUniqueOrThrow({ where: { id: boxId } })).toMatchObject({
      ...{ parentId: room.where.id, path: `/${room.where.id}/${boxId}/` },
    })
  })

  it('finds promises to what is over, and beyond what there is', async () => {
    const { prisma } = open()
    const projectId = newId()
    await prisma.project.create({ data: { id: projectId, designId, ownerId: shopId, status: 'abandoned' } })
    const promise = (to: string, strandTenths: number) =>
      prisma.stockPromise.create({ data: { id: newId(), batchId, projectId: to, strandTenths } })
    await breaks('promise-closed', () => promise(projectId, 10_000), 'let-go')
    const { wholePutUps, putUpStrandTenths } = await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })
    const known = wholePutUps * putUpStrandTenths
    await breaks('promise-beyond', () => promise(openProjectId, known + 1), 'let-go')
    expect(await prisma.stockPromise.findFirstOrThrow({ where: { batchId } })).toMatchObject({ strandTenths: known })
    // It happens in a sound collection: used, lost or passed on after it was promised.
    await prisma.stockPromise.updateMany({ where: { batchId }, data: { strandTenths: known + 1 } })
    expect(isSound(await look())).toBe(true)
    await prisma.stockPromise.deleteMany({ where: { batchId } })
  })

  it('finds loans and questions that are not so', async () => {
    const { prisma } = open()
    const person = await prisma.place.findFirstOrThrow({ where: { kind: 'person' } })
    const framer = await prisma.place.findFirstOrThrow({ where: { kind: 'framer' } })
    const cloth = { where: { id: clothId } }
    const { homePlaceId } = await prisma.clothPiece.findUniqueOrThrow(cloth)
    await breaks('lent-elsewhere', () => lend(person.id, { clothPieceId: clothId }), 'tick-off')
    expect(await prisma.loan.count({ where: { closedOn: null } })).toBe(0)

    await prisma.clothPiece.update({ ...cloth, data: { currentPlaceId: person.id, outSince: at } })
    await lend(person.id, { clothPieceId: clothId })
    await breaks('lent-twice', () => lend(person.id, { clothPieceId: clothId }), 'tick-off')
    expect(await prisma.loan.count({ where: { closedOn: null } })).toBe(1)
    await breaks(
      'looked-for-twice',
      async () => [await ask({ clothPieceId: clothId }), await ask({ clothPieceId: clothId })],
      'close-question',
    )
    await prisma.missingThing.deleteMany()
    await prisma.loan.deleteMany()
    await prisma.clothPiece.update({ ...cloth, data: { currentPlaceId: homePlaceId, outSince: null } })
    await breaks('looked-for-here', () => ask({ clothPieceId: clothId }), 'close-question')

    const chart = { where: { id: chartId } }
    const chartHome = (await prisma.chart.findUniqueOrThrow(chart)).homePlaceId
    await prisma.chart.update({ ...chart, data: { currentPlaceId: framer.id, outSince: at } })
    expect(await kindsFound()).toEqual(['unlent-with-somebody'])
    await prisma.chart.update({ ...chart, data: { currentPlaceId: chartHome, outSince: null } })
    await lend(await addPlace('Somebody', { kind: 'person', goneAt: at }), { text: 'a hoop of theirs' })
    expect(await kindsFound()).toEqual(['lender-gone'])
    await prisma.loan.deleteMany()

    const walk = (title: string) =>
      prisma.walk.create({
        data: { id: newId(), kind: 'put-back', title, startedAt: at, lines: { create: { id: newId(), position: 0, batchId } } },
      })
    await walk('Monday’s list')
    await walk('Tuesday’s list')
    expect(await kindsFound()).toEqual(['put-back-twice'])
    await prisma.walk.deleteMany()
    await clean()
  })

  it('finds cuts, logs and names that lead nowhere', async () => {
    const { prisma } = open()
    const kits = await prisma.project.findFirstOrThrow({ where: { quantity: 5 } })
    const { threadId } = await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })
    const cut = (fromBag: number, toBag: number) =>
      prisma.kitLot.create({ data: { id: newId(), projectId: kits.id, batchId, threadId, fromBag, toBag, at } })
    await cut(1, 4)
    await cut(4, 5)
    expect(await kindsFound()).toEqual(['cut-twice'])
    await prisma.kitLot.deleteMany()
    await cut(5, 6)
    expect(await kindsFound()).toEqual(['cut-beyond'])
    await prisma.kitLot.deleteMany()
    await prisma.workEntry.create({ data: { id: newId(), projectId: openProjectId, day: '2026-02-30', minutes: 6, at } })
    expect(await kindsFound()).toEqual(['work-no-day'])
    await prisma.workEntry.deleteMany()

    const project = { where: { id: openProjectId } }
    await breaks('occasion-gone', () => prisma.project.update({ ...project, data: { occasionKey: newId() } }), 'clear-name')
    await prisma.project.update({ ...project, data: { occasionKey: 'christmas' } })
    await breaks(
      'label-of-nothing',
      () => prisma.labelPrint.create({ data: { id: newId(), noun: 'batch', thingId: newId(), text: '0017', printedAt: at } }),
      'forget',
    )
    const [firstId, secondId] = [newId(), newId()]
    await breaks(
      'told-apart-gone',
      () => prisma.toldApart.create({ data: { id: newId(), noun: 'thread', firstId, secondId, at } }),
      'forget',
    )
    await past(`INSERT INTO "FormerTitle" ("id", "chartId", "title", "titleKey") VALUES ('f1', 'nothing', 'Kettle', 'kettle')`)
    expect((await look()).faults).toMatchObject([
      { kind: 'broken-links', about: { name: 'FormerTitle' }, column: 'chartId', names: 'Chart', count: 1 },
    ])
    await past(`DELETE FROM "FormerTitle" WHERE "id" = 'f1'`)
    await breaks(
      'revision-behind',
      () => prisma.change.create({ data: { id: newId(), revision: 900_000, noun: 'batch', nounId: batchId } }),
      'raise-revision',
    )
    expect(await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })).toMatchObject({ number: 900_001 })
  })

  it('sets nothing right that is another by now, and what was not offered', async () => {
    const { prisma } = open()
    const batch = { where: { id: batchId } }
    await prisma.batch.update({ ...batch, data: { wholePutUps: { increment: 1 } } })
    const [fault] = (await look()).faults
    if (!fault) throw new Error('nothing was found')
    await prisma.batch.update({ ...batch, data: { wholePutUps: { increment: 1 } } })
    expect(await repairFault(fault, 'trust-record')).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await repairFault(fault, 'forget')).toEqual({ ok: false, error: { kind: 'not-offered' } })
    await prisma.batch.update({ ...batch, data: { wholePutUps: { decrement: 2 } } })
    await clean()
  })

  it('finds files that are missing, that nothing names, and that were left behind', { timeout: 60_000 }, async () => {
    const { prisma } = open()
    const image = await sharp({ create: { width: 30, height: 20, channels: 3, background: '#a33' } })
      .png()
      .toBuffer()
    const prepared = granted(await preparePhoto(image))
    const photos = path.join(folder, 'uploads', 'photos')
    const cover = await keepPhoto(prepared)
    await prisma.chart.update({ where: { id: chartId }, data: { coverFile: cover, note: 'Bought at the fair' } })
    const receipt = await storeFile(Buffer.from('%PDF-1.7'), 'application/pdf')
    const kept = { role: 'receipt', ownerId: shopId, clothPieceId: clothId, name: 'receipt.pdf', mime: 'application/pdf' }
    const keptId = newId()
    await prisma.keptFile.create({ data: { id: keptId, ...kept, bytes: 8, sha256: 'x', fileName: receipt, addedAt: at } })
    const made = granted(await makeBackup('asked'))
    expect(made.check.isGood).toBe(true)
    await clean()

    rmSync(path.join(photos, thumbName(cover)))
    await breaks('thumb-missing', async () => null, 'draw-thumb')
    rmSync(path.join(photos, cover))
    rmSync(path.join(photos, thumbName(cover)))
    await breaks('file-missing', async () => null, 'bring-back')
    expect(statSync(path.join(photos, cover)).size).toBe(prepared.full.length)
    expect(existsSync(path.join(photos, thumbName(cover)))).toBe(true)
    rmSync(path.join(photos, cover))
    await breaks('file-missing', async () => null, 'clear-file')
    const chart = await prisma.chart.findUniqueOrThrow({ where: { id: chartId } })
    expect(chart.coverFile).toBeNull()
    expect(chart.note).toContain('Bought at the fair\n')
    expect(chart.note).toContain(cover)
    rmSync(path.join(folder, 'uploads', 'files', receipt))
    await breaks('file-missing', async () => null, 'clear-file')
    expect((await prisma.keptFile.findUniqueOrThrow({ where: { id: keptId } })).goneAt).not.toBeNull()

    const left = (name: string, ageMs: number) => {
      const file = path.join(folder, 'uploads', name)
      mkdirSync(path.dirname(file), { recursive: true })
      writeFileSync(file, 'left')
      const then = new Date(Date.now() - ageMs)
      utimesSync(file, then, then)
    }
    // The small one of the cover that is named no more, and younger ones that may be waiting for their row.
    left(`photos/${thumbName(cover)}`, 0)
    left(`photos/${newId()}.webp`, dayMs / 48)
    left(`photos/${newId()}.webp.part`, dayMs / 2)
    left(`to-bring-in/${newId()}`, dayMs / 2)
    await clean()
    const orphan = `${newId()}.webp`
    left(`photos/${orphan}`, dayMs / 12)
    left(`photos/${thumbName(orphan)}`, dayMs / 12)
    left(`photos/${avifThumbName(orphan)}`, dayMs / 12)
    await prisma.photoLook.create({ data: { file: orphan, widthPx: 3, heightPx: 2, blurBase64: 'AA==' } })
    await breaks('file-unnamed', async () => null, 'set-aside')
    expect(await prisma.photoLook.count({ where: { file: orphan } })).toBe(0)
    expect(existsSync(path.join(photos, avifThumbName(orphan)))).toBe(false)
    left(`files/${newId()}.pdf.part`, 2 * dayMs)
    await breaks('half-written', async () => null, 'set-aside')
    const staged = newId()
    left(`to-bring-in/${staged}`, 2 * dayMs)
    left(`to-bring-in/${staged}.name`, 2 * dayMs)
    await breaks('staged-old', async () => null, 'set-aside')

    const [day] = await listSetAside()
    expect(day).toMatchObject({ files: 6, bytes: 24 })
    expect(existsSync(path.join(folder, 'uploads', 'set-aside', day?.day as string, 'photos', orphan))).toBe(true)
    expect(await removeSetAside('2026-02-30')).toBe(false)
    expect(await removeSetAside(day?.day as string)).toBe(true)
    expect(await listSetAside()).toEqual([])
    // It names a file, and no good backup has it.
    await prisma.chart.update({ where: { id: chartId }, data: { coverFile: `${newId()}.webp` } })
    const [fault] = (await look()).faults
    if (!fault) throw new Error('nothing was found')
    expect(await repairFault(fault, 'bring-back')).toEqual({ ok: false, error: { kind: 'in-no-backup' } })
    await prisma.chart.update({ where: { id: chartId }, data: { coverFile: null } })
  })

  it('holds what is kept for the next start, and the answers in memory, against the database', async () => {
    const { prisma, url } = open()
    const answers = await getAnswers()
    const keep = async () => {
      const settings = await getSettings()
      const { needs: index, revision } = answers
      await readSnapshot(open(), (rows) => writeNeedFile(rows, url, settings, { index, revision }))
    }
    await keep()
    const designs = await prisma.design.count()
    expect((await look()).looked).toMatchObject({
      ...{ snapshot: { looked: designs, of: designs }, answers: { looked: designs, of: designs } },
    })
    const list = await prisma.threadList.findFirstOrThrow({ where: { designId } })
    answers.needs.setList({ listId: list.id, designId, needs: [] })
    await keep()
    const { faults } = await look()
    expect(faults).toMatchObject([
      { kind: 'snapshot-differs', lists: 1, of: designs },
      { kind: 'answers-differ', designs: 1, of: designs },
    ])
    granted(await repairFault(faults[0] as (typeof faults)[0], 'drop-snapshot'))
    granted(await repairFault(faults[1] as (typeof faults)[0], 'answer-anew'))
    await clean()
  })

  if (isSqlite)
    it('says when the file itself does not read whole, and looks no further', async () => {
      const copy = path.join(folder, 'torn.db')
      const file = new Libsql(open().url.replace(/^file:/, ''))
      file.prepare('VACUUM INTO ?').run(copy)
      file.close()
      const torn = new Libsql(copy)
      const { rootpage } = torn.prepare(`SELECT rootpage FROM sqlite_master WHERE name = 'Batch_threadId_idx'`).get() as {
        rootpage: number
      }
      const { page_size: pageBytes } = torn.prepare('PRAGMA page_size').get() as { page_size: number }
      torn.close()
      const bytes = readFileSync(copy)
      writeFileSync(copy, bytes.fill(0xff, (rootpage - 1) * pageBytes, rootpage * pageBytes))
      const database = openDatabase(`file:${copy}`)
      const found = await checkCollection(database)
      await database.prisma.$disconnect()
      expect(found).toMatchObject({ isWhole: false, counts: { 'database-damaged': 1 } })
      expect(found.faults[0]).toMatchObject({ kind: 'database-damaged', about: { name: 'Batch' } })
    })

  it('is stopped with what it has, and goes on in the background with what is done about it', async () => {
    const stop = new AbortController()
    const steps: string[] = []
    const stopped = await checkCollection(open(), {
      signal: stop.signal,
      report: ({ step }) => {
        steps.push(step)
        if (step === 'places') stop.abort()
      },
    })
    expect(stopped.isWhole).toBe(false)
    expect(steps).toEqual(['damage', 'links', 'stock', 'places'])

    const { prisma } = open()
    for (const id of [batchId, otherBatchId]) await prisma.batch.update({ where: { id }, data: { outSince: at } })
    await prisma.batch.update({ where: { id: otherBatchId }, data: { goneAt: null, wholePutUps: { increment: 1 } } })
    const { jobId } = granted(await startCheck())
    expect(await startCheck()).toMatchObject({ ok: false })
    await checkEnded(jobId)
    const job = await findCheck(jobId)
    if (!job) throw new Error('the check is not known')
    expect(
      openFaults(job)
        .map(({ kind }) => kind)
        .sort(),
    ).toEqual(['out-differs', 'out-differs', 'stock-differs'])
    const done = await repairFrom(jobId, { faultKind: 'out-differs', repair: 'set-out-since' })
    expect(done?.map(({ outcome }) => outcome.answer.ok)).toEqual([true, true])
    const after = await findCheck(jobId)
    expect(after && openFaults(after).map(({ kind }) => kind)).toEqual(['stock-differs'])
    expect(await repairFrom(jobId, { faultId: 'nothing', repair: 'forget' })).toBeNull()
    await repairFrom(jobId, { faultKind: 'stock-differs', repair: 'trust-journal' })
    await clean()
  })
})
