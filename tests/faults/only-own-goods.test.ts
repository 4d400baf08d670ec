import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { operations } from '#api/operations'
import type { Handler } from '#api/serve'
import type { SignedIn } from '#lib/access/who'
import { archiveTables } from '#lib/archive/tables'
import { asProgram, whileAsking } from '#lib/db/access/asking'
import { getAnswers } from '#lib/db/answers/get-answers'
import { bulkInsert } from '#lib/db/bulk-insert'
import { database } from '#lib/db/client'
import { readKeptCloth } from '#lib/db/cloth/kept-cloth'
import { newId } from '#lib/db/new-id'
import { listOwners } from '#lib/db/owner/owners'
import { findPhoto } from '#lib/db/photo/photo-files'
import { removePlace } from '#lib/db/place/remove-place'
import { findFeedOwner, findFeedToken, removeFeedToken, renewFeedToken } from '#lib/db/planning/days/calendar-feed'
import { NotSeen } from '#lib/db/sight/not-seen'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { seededRandom } from '#seed/random'
import { describeOnEachEngine } from '../database/engines'
import { granted } from '../database/granted'
import { addOneOfEverything } from '../database/one-of-everything'
import { addSmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { goodsOf, keyOf, markGoods, type Row, readRows } from '../database/whose-goods'
import { anyCall, apiHandlers, poolOf, send } from './any-call'

/** Stands in every word of the shop's goods, and in nobody else's. */
const marker = 'zqx'
/** So many calls of each operation. */
const callsEach = Number(process.env.HOSTILE_CALLS ?? 6)

const looker = (ownerIds: string[], role: SignedIn['role'] = 'keeper'): SignedIn => ({
  ...{ kind: 'account', accountId: newId(), name: 'Ines Coldwell', role, ownerIds },
  by: { kind: 'session', sessionId: newId() },
})

describeOnEachEngine('an account that sees one owner’s goods', ({ name, open }) => {
  const data = mkdtempSync(path.join(tmpdir(), 'larder-own-'))
  let handlers: Map<string, Handler>
  let shopId: string
  let hanneId: string
  let shops: Map<string, Map<string, Row>>
  let asHanne: <T>(work: () => T) => T
  let before: string[]

  beforeAll(async () => {
    vi.stubEnv('LARDER_DATA', data)
    vi.stubEnv('DATABASE_URL', open().url)
    const { prisma } = open()
    const world = await addSmallWorld(open())
    ;[shopId, hanneId] = world.ownerIds as [string, string]
    await addOneOfEverything(open())
    // Made by hand, its plan is no plan.
    await prisma.cutPlan.updateMany({ data: { status: 'dropped', closedAt: new Date() } })
    const batch = await prisma.batch.findFirstOrThrow({ where: { ownerId: shopId, goneAt: null } })
    await prisma.movement.create({
      data: { id: newId(), revision: 1, at: new Date(), kind: 'move', batchId: batch.id, who: marker, reason: marker },
    })
    await prisma.owner.update({ where: { id: shopId }, data: { name: `${marker} shop`, nameKey: `${marker} shop` } })
    shops = await goodsOf(open(), shopId)
    await markGoods(open(), shops, marker)
    shops = await goodsOf(open(), shopId)
    const request = { who: looker([hanneId]), address: '127.0.0.1', onceKey: null }
    asHanne = (work) => whileAsking(request, work)
    before = await faultsInBooks(prisma)
    handlers = await apiHandlers()
  })
  afterAll(() => {
    vi.unstubAllEnvs()
    rmSync(data, { recursive: true, force: true })
  })

  it('finds the rows of its own and of nobody, and none else, whichever way they are read', async () => {
    const wrong: string[] = []
    for (const table of archiveTables) {
      const theirs = shops.get(table.name) ?? new Map()
      const delegate = `${table.name[0]?.toLowerCase()}${table.name.slice(1)}` as 'batch'
      const all = (await readRows(open(), table.name)).map((row) => keyOf(table, row)).sort()
      const own = all.filter((key) => !theirs.has(key))
      const asked = (await asHanne(() => database().prisma[delegate].findMany())) as unknown as Row[]
      const byPrisma = asked.map((row) => keyOf(table, row)).sort()
      const counted = await asHanne(() => database().prisma[delegate].count())
      const bySql = (await asHanne(() => readRows(database(), table.name))).map((row) => keyOf(table, row)).sort()
      if (String(byPrisma) !== String(own)) wrong.push(`${table.name} by the client`)
      if (counted !== own.length) wrong.push(`${table.name} counted`)
      if (String(bySql) !== String(own)) wrong.push(`${table.name} by SQL`)
    }
    expect(wrong).toEqual([])
  })

  it('is shown no photo of another’s, and no calendar but its own', async () => {
    const { coverFile } = await open().prisma.chart.findFirstOrThrow({ where: { ownerId: shopId, coverFile: { not: null } } })
    const { photoFile } = await open().prisma.workEntry.findFirstOrThrow({ where: { photoFile: { not: null } } })
    for (const name of [coverFile, photoFile] as string[]) {
      expect(await findPhoto(name)).not.toBeNull()
      expect(await asHanne(() => findPhoto(name))).toBeNull()
      expect(await asHanne(() => findPhoto(name.replace('.webp', '-thumb.webp')))).toBeNull()
    }
    const { token } = granted(await renewFeedToken(shopId))
    expect(await asHanne(() => findFeedToken(shopId))).toBeNull()
    await asHanne(() => removeFeedToken(shopId))
    expect((await asHanne(() => renewFeedToken(shopId))).ok).toBe(false)
    expect(await findFeedToken(shopId)).toBe(token)
    // Whoever knows an address need not be signed in.
    expect((await whileAsking({ who: { kind: 'nobody' }, address: '', onceKey: null }, () => findFeedOwner(token)))?.id).toBe(
      shopId,
    )
  })

  it('is told that its goods are kept or wanted by another, and not by what', async () => {
    const { prisma } = open()
    const piece = await prisma.clothPiece.findFirstOrThrow({ where: { ownerId: hanneId, goneAt: null } })
    const batch = await prisma.batch.findFirstOrThrow({ where: { ownerId: hanneId, goneAt: null, promises: { none: {} } } })
    const project = await prisma.project.findFirstOrThrow({ where: { ownerId: shopId, goneAt: null }, orderBy: { id: 'asc' } })
    await prisma.project.update({ where: { id: project.id }, data: { clothPieceId: piece.id, status: 'stitching' } })
    const promise = await prisma.stockPromise.create({
      data: { id: newId(), projectId: project.id, batchId: batch.id, strandTenths: 1 },
    })
    await asHanne(async () => {
      const kept = (await readKeptCloth(database().prisma, [piece.id])).get(piece.id)
      expect(kept?.projects).toEqual([{ projectId: project.id, status: 'stitching', title: 'another owner’s work' }])
      const answers = await getAnswers()
      expect(answers.world.pieces.find(({ id }) => id === piece.id)?.isReserved).toBe(true)
      expect(answers.world.stock.promises.get(batch.threadId)?.map(({ id }) => id)).toContain(promise.id)
      expect([...answers.world.owners.keys()]).toEqual([hanneId])
      const read = await database().prisma.stockPromise.findUniqueOrThrow({
        where: { id: promise.id },
        select: { strandTenths: true, project: { select: { status: true, note: true, design: { select: { title: true } } } } },
      })
      expect(read).toEqual({
        strandTenths: 1,
        project: { status: 'stitching', note: null, design: { title: 'another owner’s' } },
      })
      // Given away meanwhile: what is remembered lets go of it.
      await asProgram(async () => {
        await prisma.batch.update({ where: { id: batch.id }, data: { ownerId: shopId } })
        await write(async ({ touch }) => {
          touch('batch', batch.id)
          return ok(null)
        })
      })
      const later = await getAnswers()
      expect(later.batchesOf(batch.threadId, [hanneId]).map(({ id }) => id)).not.toContain(batch.id)
      await asProgram(() => prisma.batch.update({ where: { id: batch.id }, data: { ownerId: hanneId } }))
    })
    await write(async ({ touch }) => {
      touch('everything', '*')
      return ok(null)
    })
    // They stay so for what follows.
    shops = await goodsOf(open(), shopId)
    before = await faultsInBooks(prisma)
  })

  it('cannot make anything another’s, nor hang it on what is', async () => {
    const batch = await open().prisma.batch.findFirstOrThrow({ where: { ownerId: hanneId, goneAt: null } })
    const { prisma } = asHanne(() => database())
    const other = [...(shops.get('Batch')?.keys() ?? [])][0] as string
    await expect(prisma.batch.update({ where: { id: batch.id }, data: { ownerId: shopId } })).rejects.toThrow(NotSeen)
    await expect(prisma.batch.create({ data: { ...batch, id: newId(), ownerId: shopId } })).rejects.toThrow(NotSeen)
    await expect(
      prisma.movement.create({ data: { id: newId(), revision: 1, at: new Date(), kind: 'move', batchId: other } }),
    ).rejects.toThrow(NotSeen)
    const rows = [{ id: newId(), revision: 1, kind: 'move', batchId: other }]
    await expect(bulkInsert(prisma, open().engine, 'Movement', rows)).rejects.toThrow(NotSeen)
    expect(await prisma.batch.updateMany({ where: { id: other }, data: { lot: 'X' } })).toEqual({ count: 0 })
    await expect(prisma.batch.update({ where: { id: other }, data: { lot: 'X' } })).rejects.toMatchObject({ code: 'P2025' })
    expect(await prisma.batch.deleteMany({ where: { id: other } })).toEqual({ count: 0 })
  })

  it('takes no place off the map that another’s goods are in', async () => {
    const place = await open().prisma.place.findUniqueOrThrow({ where: { labelKey: 'n1' } })
    await open().prisma.clothPiece.updateMany({
      where: { ownerId: hanneId, homePlaceId: place.id },
      data: { homePlaceId: null, currentPlaceId: null },
    })
    const removed = await asHanne(() => removePlace({ id: place.id, version: place.version }))
    expect(removed).toMatchObject({ ok: false, error: { kind: 'not-empty' } })
  })

  it('sees nothing at all where it sees nobody’s goods', async () => {
    const seesNone = { who: looker([]), address: '', onceKey: null }
    await whileAsking(seesNone, async () => {
      expect(await listOwners()).toEqual([])
      expect(await database().prisma.chart.count()).toBe(0)
      expect((await getAnswers()).world.designs.size).toBe(0)
      expect(await database().prisma.thread.count()).toBeGreaterThan(0)
    })
  })

  it('is answered nothing of another’s by any operation, and changes nothing of it', async () => {
    const faults: string[] = []
    const log = vi.spyOn(console, 'error').mockImplementation((...said) => {
      faults.push(
        said
          .map((one) => (one instanceof Error ? one.stack : String(one)))
          .join(' ')
          .slice(0, 900),
      )
    })
    const random = seededRandom(`own goods ${name}`)
    const pool = await poolOf(open())
    const theirs = new Set([...shops.values()].flatMap((rows) => [...rows.keys()]))
    for (let turn = 0; turn < callsEach; turn++)
      for (const declared of operations) {
        if (declared.takesFile) continue
        const call = anyCall(declared, { random, pool })
        // First as plain as it may be asked.
        if (turn === 0) call.query = new URLSearchParams()
        const known = faults.length
        const response = await asHanne(() => send(handlers, declared, call))
        const text = await response.text()
        const asked = `${declared.id} ${JSON.stringify(call.parts)} ${call.query} ${call.body?.slice(0, 300) ?? ''}`
        // Said in good order while the answers are read.
        const isNotReady = response.status === 503 && declared.id === 'getReady'
        if ((response.status >= 500 && !isNotReady) || faults.length > known)
          faults.push(`${response.status} of ${asked}: ${text.slice(0, 300)}`)
        // What was asked for is said again by some refusals.
        if (text.includes(marker) && !asked.includes(marker)) {
          const at = text.indexOf(marker)
          faults.push(`told by ${asked}: …${text.slice(Math.max(0, at - 200), at + 100)}`)
        }
        const namesTheirs = Object.values(call.parts).some((id) => theirs.has(id))
        if (namesTheirs && response.status < 300)
          faults.push(`${response.status} for another’s of ${asked}: ${text.slice(0, 200)}`)
      }
    log.mockRestore()
    expect(faults).toEqual([])
    const after = await goodsOf(open(), shopId)
    for (const [table, rows] of shops) expect([table, [...(after.get(table) ?? [])]]).toEqual([table, [...rows]])
    expect(await faultsInBooks(open().prisma)).toEqual(before)
  }, 600_000)
})
