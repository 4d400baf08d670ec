import { beforeAll, expect, it } from 'vitest'
import { applyBulkEdit } from '#lib/db/bulk-edit/apply-bulk-edit'
import { findBulkEdit, listBulkEdits } from '#lib/db/bulk-edit/queries'
import { previewBulkEdit } from '#lib/db/bulk-edit/read-bulk-edit'
import { undoBulkEdit } from '#lib/db/bulk-edit/undo-bulk-edit'
import { bulkInsert } from '#lib/db/bulk-insert'
import { newId } from '#lib/db/new-id'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { takeThread } from '#lib/db/stock/take-thread'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addLarkholm, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

describeOnEachEngine('changing many threads at once', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), old: newId(), fresh: newId(), bag: newId(), line: newId(), project: newId() }
  const many = 2_500
  const threadIds = Array.from({ length: many }, () => newId())
  const [first, second, third] = threadIds as [string, string, string]

  const receive = async (threadId: string, ownerId = ids.shop) =>
    granted(await receiveThread(goods({ threadId, ownerId, wholePutUps: 2, homePlaceId: ids.old }))).batchId
  const homesOf = async (threadId: string) =>
    open().prisma.batch.findMany({
      where: { threadId, goneAt: null },
      select: { homePlaceId: true, currentPlaceId: true },
      orderBy: { id: 'asc' },
    })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [aPlace(ids.old, 'T2.1', 'drawer'), aPlace(ids.fresh, 'T3.1', 'drawer'), aPlace(ids.bag, 'K-07', 'bag')],
    })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: ids.line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    const designId = newId()
    await addCharted(open(), { ownerId: ids.shop, title: 'Rook Hill in Snow', designId })
    await prisma.project.create({ data: { id: ids.project, designId, ownerId: ids.shop } })
    granted(
      await write<null, never>(async ({ tx, engine }) => {
        await bulkInsert(
          tx,
          engine,
          'Thread',
          threadIds.map((id, at) => ({ id, lineId: ids.line, code: String(at + 1).padStart(4, '0') })),
        )
        return ok(null)
      }),
    )
  })

  it('sets a minimum for thousands in one write, and takes it back but for one that was changed since', async () => {
    const request = { threadIds, ownerIds: [ids.shop], change: { kind: 'minimum', putUps: 2 }, what: 'Keep 2' } as const
    const { plan, fingerprint } = await previewBulkEdit(request)
    expect(plan.lines).toHaveLength(many)
    const { bulkEditId, changed } = granted(await applyBulkEdit({ ...request, fingerprint, who: 'Nell Oxtoby' }))
    expect(changed).toBe(many)
    const { prisma } = open()
    expect(await prisma.thread.count({ where: { minimumPutUps: 2, version: 1 } })).toBe(many)

    await prisma.thread.update({ where: { id: second }, data: { minimumPutUps: 7, version: { increment: 1 } } })
    expect(granted(await undoBulkEdit({ bulkEditId }))).toEqual({
      takenBack: many - 1,
      left: [{ threadId: second, batchId: null, why: 'changed-since' }],
    })
    expect(await prisma.thread.count({ where: { minimumPutUps: null } })).toBe(many - 1)
    expect(await findBulkEdit(bulkEditId)).toMatchObject({ isUndone: true, what: 'Keep 2', left: [{ threadId: second }] })
    expect(await undoBulkEdit({ bulkEditId })).toEqual({ ok: false, error: { kind: 'already-undone', bulkEditId } })
  })

  it('moves every batch home in one write with its movement; what is out stays out; the undo brings all back', async () => {
    const atHome = await receive(first)
    const out = await receive(second)
    granted(await takeThread({ batchId: out, wholePutUps: 2, takesPart: false, toPlaceId: ids.bag }))
    await receive(first, ids.hanne)
    const request = {
      threadIds: [first, second, third],
      ownerIds: [ids.shop],
      change: { kind: 'home', toPlaceId: ids.fresh },
      what: 'New home T3.1',
    } as const
    const { bulkEditId, ...counts } = granted(await applyBulkEdit(request))
    expect(counts).toEqual({ changed: 2, refused: 1, same: 0 })
    expect(await homesOf(first)).toEqual([
      { homePlaceId: ids.fresh, currentPlaceId: ids.fresh },
      { homePlaceId: ids.old, currentPlaceId: ids.old },
    ])
    expect(await homesOf(second)).toEqual([{ homePlaceId: ids.fresh, currentPlaceId: ids.bag }])
    const { prisma } = open()
    const moved = await prisma.movement.findMany({ where: { batchId: { in: [atHome, out] }, kind: 'move' } })
    expect(moved).toHaveLength(2)
    expect(new Set(moved.map(({ revision }) => revision)).size).toBe(1)
    expect(moved.every(({ reason }) => reason === 'New home T3.1')).toBe(true)

    expect(granted(await undoBulkEdit({ bulkEditId }))).toEqual({ takenBack: 2, left: [] })
    expect(await homesOf(second)).toEqual([{ homePlaceId: ids.old, currentPlaceId: ids.bag }])
    expect(await prisma.movement.count({ where: { batchId: { in: [atHome, out] }, kind: 'undo' } })).toBe(2)
  })

  it('passes all on to another owner but what is promised', async () => {
    const free = await receive(third)
    const promised = granted(
      await receiveThread({
        threadId: third,
        ownerId: ids.shop,
        lot: 'A4',
        wholePutUps: 1,
        partStrandTenths: 0,
        partCertainty: 'none',
        homePlaceId: ids.old,
      }),
    ).batchId
    granted(await promiseStock({ batchId: promised, projectId: ids.project, strandTenths: 1_000 }))
    const request = {
      threadIds: [third],
      ownerIds: [ids.shop],
      change: { kind: 'owner', toOwnerId: ids.hanne },
      what: 'Passed to Hanne Drewitt',
    } as const
    const { changed, refused } = granted(await applyBulkEdit(request))
    expect([changed, refused]).toEqual([1, 1])
    const { prisma } = open()
    expect(await prisma.batch.findUniqueOrThrow({ where: { id: free } })).toMatchObject({ ownerId: ids.hanne })
    expect(await prisma.batch.findUniqueOrThrow({ where: { id: promised } })).toMatchObject({ ownerId: ids.shop })
  })

  it('does nothing when what was looked at is not what is there any more', async () => {
    const batchId = await receive(second)
    const request = { threadIds: [second], ownerIds: [ids.shop], change: { kind: 'lot', lot: 'B2' }, what: 'Lot B2' } as const
    const { fingerprint } = await previewBulkEdit(request)
    granted(await correctBatch({ batchId, wholePutUps: 5, partStrandTenths: 0, partCertainty: 'none', reason: 'counted again' }))
    expect(await applyBulkEdit({ ...request, fingerprint })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await open().prisma.batch.count({ where: { lot: 'B2' } })).toBe(0)
  })

  it('refuses a place or an owner that is not there, and a change that changes nothing', async () => {
    const asked = { threadIds: [first], ownerIds: [ids.shop], what: 'x' }
    const refusalOf = async (change: Parameters<typeof applyBulkEdit>[0]['change']) => {
      const result = await applyBulkEdit({ ...asked, change })
      return result.ok ? null : result.error.kind
    }
    expect(await refusalOf({ kind: 'home', toPlaceId: 'nowhere' })).toBe('no-such-place')
    expect(await refusalOf({ kind: 'owner', toOwnerId: 'nobody' })).toBe('no-such-owner')
    expect(await refusalOf({ kind: 'leaving', isLeaving: false })).toBe('nothing-changes')
    expect((await listBulkEdits(50)).map(({ what }) => what)).toEqual(['Passed to Hanne Drewitt', 'New home T3.1', 'Keep 2'])
  })
})
