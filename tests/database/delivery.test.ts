import { beforeAll, expect, it } from 'vitest'
import { type DeliveryEntry, enterDelivery } from '#lib/db/delivery/enter-delivery'
import { lookUpForDelivery } from '#lib/db/delivery/look-up'
import { undoDelivery } from '#lib/db/delivery/undo-delivery'
import { newId } from '#lib/db/new-id'
import { recordUse } from '#lib/db/stock/record-use'
import { addThread, type LineFacts } from '#lib/db/thread/add-thread'
import { forgetBarcode, listBarcodes, rememberBarcode } from '#lib/db/thread/barcodes'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aThread, hanneDrewitt, skein, stranded, theShop } from './things'

describeOnEachEngine('a delivery', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), drawer: newId(), straw: '', hand: '', other: '' }

  const add = async (code: string, name: string, facts: LineFacts) =>
    granted(await addThread({ ...aThread(code, { name }), line: facts })).threadId
  const entry = (over: Partial<DeliveryEntry> = {}): DeliveryEntry => ({
    entryId: newId(),
    threadId: ids.straw,
    ownerId: ids.shop,
    wholePutUps: 2,
    lot: null,
    putUpWord: null,
    putUpStrandTenths: null,
    homePlaceId: ids.drawer,
    homePlaceLabel: null,
    orderId: null,
    ...over,
  })
  const held = async (threadId: string) =>
    open().prisma.batch.findMany({
      where: { threadId, goneAt: null },
      select: { wholePutUps: true, lot: true, putUpWord: true },
      orderBy: { id: 'asc' },
    })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    ids.straw = await add('0017', 'Straw', stranded())
    ids.other = await add('0017', 'Quarry', stranded({ makerName: 'Brindlequay', name: 'silk' }))
    ids.hand = await add('Tarn Moss', 'Tarn Moss', stranded({ makerName: 'Oddny Loft', name: 'hand-dyed', lotsMatter: true }))
  })

  it('receives an entry at its home once, however often it is sent', async () => {
    const sent = entry()
    const first = granted(await enterDelivery(sent))
    expect(first).toMatchObject({ isRepeat: false, home: { label: 'T2.1' } })
    const again = granted(await enterDelivery(sent))
    expect(again).toEqual({ ...first, isRepeat: true })
    // Two tabs sending one entry at once: one of them is the repeat.
    const twice = entry({ wholePutUps: 1 })
    const both = await Promise.all([enterDelivery(twice), enterDelivery(twice)])
    expect(both.map((result) => granted(result).isRepeat).sort()).toEqual([false, true])
    expect(await held(ids.straw)).toEqual([{ wholePutUps: 3, lot: null, putUpWord: null }])
    expect(await open().prisma.movement.findUnique({ where: { id: sent.entryId } })).toMatchObject({
      kind: 'receive',
      wholeDelta: 2,
      toPlaceId: ids.drawer,
    })
  })

  it('keeps lots and kinds of put-up apart', async () => {
    granted(await enterDelivery(entry({ threadId: ids.hand, lot: 'A4' })))
    granted(await enterDelivery(entry({ threadId: ids.hand, lot: 'A4', wholePutUps: 1 })))
    granted(await enterDelivery(entry({ threadId: ids.hand, lot: 'B1', wholePutUps: 1 })))
    granted(await enterDelivery(entry({ threadId: ids.hand, lot: 'B1', putUpWord: 'Hank', wholePutUps: 1 })))
    expect(await held(ids.hand)).toEqual([
      { wholePutUps: 3, lot: 'A4', putUpWord: null },
      { wholePutUps: 1, lot: 'B1', putUpWord: null },
      { wholePutUps: 1, lot: 'B1', putUpWord: 'hank' },
    ])
  })

  it('puts down that so much of an order has come, and opens it again when the entry is taken back', async () => {
    const { prisma } = open()
    const orderId = newId()
    await prisma.threadOrder.create({
      data: {
        id: orderId,
        threadId: ids.straw,
        ownerId: ids.shop,
        putUpStrandTenths: skein,
        putUps: 3,
        orderedOn: '2026-09-01',
      },
    })
    const orderNow = () =>
      prisma.threadOrder.findUniqueOrThrow({ where: { id: orderId }, select: { receivedPutUps: true, closedAt: true } })
    granted(await enterDelivery(entry({ orderId })))
    expect(await orderNow()).toEqual({ receivedPutUps: 2, closedAt: null })
    const rest = entry({ orderId, wholePutUps: 1 })
    granted(await enterDelivery(rest))
    expect(await orderNow()).toEqual({ receivedPutUps: 3, closedAt: expect.any(Date) })
    expect(await enterDelivery(entry({ orderId }))).toMatchObject({ error: { kind: 'no-such-order' } })
    const before = (await held(ids.straw))[0]?.wholePutUps as number
    granted(await undoDelivery({ entryId: rest.entryId, orderId }))
    expect(await orderNow()).toEqual({ receivedPutUps: 2, closedAt: null })
    expect(granted(await undoDelivery({ entryId: rest.entryId, orderId })).isRepeat).toBe(true)
    expect((await held(ids.straw))[0]?.wholePutUps).toBe(before - 1)
  })

  it('takes a batch away with the only entry it came by, and leaves alone what was used since', async () => {
    const alone = entry({ threadId: ids.other, lot: 'Q1' })
    const { batchId } = granted(await enterDelivery(alone))
    granted(await undoDelivery({ entryId: alone.entryId }))
    expect(await held(ids.other)).toEqual([])
    const { prisma } = open()
    const sum = await prisma.movement.aggregate({ where: { batchId }, _sum: { wholeDelta: true } })
    expect(sum._sum.wholeDelta).toBe(0)

    const used = entry({ threadId: ids.other, lot: 'Q2', wholePutUps: 1 })
    const second = granted(await enterDelivery(used))
    granted(await recordUse({ batchId: second.batchId, strandTenths: 60_000 }))
    expect(await undoDelivery({ entryId: used.entryId })).toMatchObject({ error: { kind: 'used-since', wholePutUps: 0 } })
    expect(await undoDelivery({ entryId: newId() })).toMatchObject({ error: { kind: 'no-such-entry' } })
  })

  it('refuses what is not there and an id that was used for something else', async () => {
    const sent = entry()
    granted(await enterDelivery(sent))
    expect(await enterDelivery({ ...sent, threadId: ids.hand })).toMatchObject({ error: { kind: 'entry-id-taken' } })
    expect(await enterDelivery(entry({ threadId: 'x' }))).toMatchObject({ error: { kind: 'no-such-thread' } })
    expect(await enterDelivery(entry({ ownerId: 'x' }))).toMatchObject({ error: { kind: 'no-such-owner' } })
    expect(await enterDelivery(entry({ homePlaceId: 'x' }))).toMatchObject({ error: { kind: 'no-such-place' } })
    expect(await enterDelivery(entry({ wholePutUps: 0 }))).toMatchObject({ error: { kind: 'nothing-received' } })
  })

  it('knows a thread by its bars once it was told, until they are forgotten', async () => {
    const bars = '2012345678903'
    expect(await lookUpForDelivery({ text: bars, lineId: null, ownerId: ids.shop })).toMatchObject({
      how: 'none',
      isBarcode: true,
    })
    granted(await rememberBarcode({ code: ` ${bars}`, threadId: ids.straw }))
    granted(await rememberBarcode({ code: bars, threadId: ids.straw }))
    expect(await listBarcodes(ids.straw)).toMatchObject([{ code: '02012345678903' }])
    expect(await rememberBarcode({ code: bars, threadId: ids.hand })).toMatchObject({
      error: { kind: 'barcode-taken', threadId: ids.straw },
    })
    const found = await lookUpForDelivery({ text: bars, lineId: null, ownerId: ids.shop })
    expect(found).toMatchObject({ how: 'barcode', threads: [{ code: '0017', homes: [{ label: 'T2.1' }] }] })
    granted(await forgetBarcode({ code: bars }))
    expect(await forgetBarcode({ code: bars })).toMatchObject({ error: { kind: 'no-such-barcode' } })
    expect(await listBarcodes(ids.straw)).toEqual([])
  })

  it('finds by code in the line one is at, then in any, then by name', async () => {
    const look = (text: string, lineId: string | null = null) => lookUpForDelivery({ text, lineId, ownerId: ids.shop })
    expect((await look('0017')).threads.map(({ name }) => name)).toEqual(['Straw', 'Quarry'])
    const { line: silk } = (await look('Brindlequay silk 0017')).threads[0] as { line: { id: string } }
    expect((await look('0017', silk.id)).threads.map(({ name }) => name)).toEqual(['Quarry'])
    expect(await look('tarn')).toMatchObject({
      how: 'name',
      threads: [
        {
          name: 'Tarn Moss',
          lots: ['A4', 'B1'],
          heldPutUps: 5,
          putUps: [
            { word: null, strandTenths: skein },
            { word: 'hank', strandTenths: skein },
          ],
        },
      ],
    })
    expect((await lookUpForDelivery({ text: '0017', lineId: silk.id, ownerId: ids.hanne })).threads).toMatchObject([
      { homes: [] },
    ])
  })
})
