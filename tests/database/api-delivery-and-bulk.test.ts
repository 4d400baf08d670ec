import { randomUUID } from 'node:crypto'
import { beforeAll, expect, it } from 'vitest'
import { applyBulkEditOperation, listBulkEditsOperation, previewBulkEditOperation, undoBulkEditOperation } from '#api/bulk-edits'
import {
  enterDeliveryOperation,
  forgetBarcodeOperation,
  lookUpForDeliveryOperation,
  rememberBarcodeOperation,
  undoDeliveryOperation,
} from '#api/deliveries'
import { getPlaceAround } from '#api/place-around'
import { getThreadAbout } from '#api/thread-about'
import { newId } from '#lib/db/new-id'
import { addThread } from '#lib/db/thread/add-thread'
import { POST as forget } from '../../app/api/v1/barcodes/forget/route'
import { POST as remember } from '../../app/api/v1/barcodes/route'
import { POST as undoEdit } from '../../app/api/v1/bulk-edits/[bulkEditId]/undo/route'
import { POST as preview } from '../../app/api/v1/bulk-edits/preview/route'
import { POST as applyEdit, GET as edits } from '../../app/api/v1/bulk-edits/route'
import { POST as undoEntry } from '../../app/api/v1/deliveries/[entryId]/undo/route'
import { GET as lookUp } from '../../app/api/v1/deliveries/look-up/route'
import { POST as enter } from '../../app/api/v1/deliveries/route'
import { GET as around } from '../../app/api/v1/places/[placeId]/around/route'
import { GET as about } from '../../app/api/v1/threads/[threadId]/about/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aThread, stranded, theShop } from './things'

describeOnEachEngine('the API on deliveries and changes of many threads', ({ open }) => {
  const ids = { shop: newId(), drawer: newId(), other: newId(), thread: '' }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T2.1', 'drawer'), aPlace(ids.other, 'T3.1', 'drawer')] })
    ids.thread = granted(await addThread({ ...aThread('0017', { name: 'Straw' }), line: stranded() })).threadId
  })

  it('looks a text up, receives what was found once, and takes it back', async () => {
    const path = (text: string) => `deliveries/look-up?text=${text}&owner=${ids.shop}`
    const found = await answer(lookUpForDeliveryOperation, lookUp, { path: path('0017') })
    expect(found).toMatchObject({ how: 'code', threads: [{ thread: { threadId: ids.thread }, heldPutUps: 0 }] })
    const body = { entryId: randomUUID(), threadId: ids.thread, ownerId: ids.shop, wholePutUps: 3, homePlaceLabel: 't2.1' }
    expect(await answer(enterDeliveryOperation, enter, { body })).toMatchObject({ isRepeat: false, home: { label: 'T2.1' } })
    expect(await answer(enterDeliveryOperation, enter, { body })).toMatchObject({ isRepeat: true })
    expect((await answer(lookUpForDeliveryOperation, lookUp, { path: path('0017') })).threads).toMatchObject([
      { heldPutUps: 3, homes: [{ placeId: ids.drawer }] },
    ])
    const again = { body: { ...body, entryId: randomUUID(), wholePutUps: 1 } }
    await answer(enterDeliveryOperation, enter, again)
    const parts = { entryId: again.body.entryId }
    expect(await answer(undoDeliveryOperation, undoEntry, { parts, body: {} })).toMatchObject({ isRepeat: false })
    expect(await problem(undoEntry, { parts: { entryId: randomUUID() }, body: {} })).toMatchObject({ status: 404 })
    expect(await problem(enter, { body: { ...body, entryId: 'e1' } })).toMatchObject({ status: 422 })
    expect(await problem(enter, { body: { ...body, entryId: randomUUID(), threadId: 'x' } })).toMatchObject({ status: 422 })
  })

  it('remembers a barcode and forgets it', async () => {
    const code = '2012345678903'
    expect(await answer(rememberBarcodeOperation, remember, { body: { code, threadId: ids.thread } })).toEqual({
      code: '02012345678903',
    })
    const told = await answer(getThreadAbout, about, { parts: { threadId: ids.thread } })
    expect(told.barcodes).toEqual(['02012345678903'])
    expect(await answer(forgetBarcodeOperation, forget, { body: { code } })).toEqual({ threadId: ids.thread })
    expect(await problem(forget, { body: { code } })).toMatchObject({ status: 404 })
  })

  it('previews a change of many, does what was seen, refuses what was not, and takes it back', async () => {
    const request = {
      threadIds: [ids.thread],
      ownerIds: [ids.shop],
      change: { kind: 'home' as const, toPlaceId: ids.other },
    }
    const seen = await answer(previewBulkEditOperation, preview, { body: request })
    expect(seen.lines).toMatchObject([{ outcome: 'changes', before: { homePlaceId: ids.drawer } }])
    const body = { ...request, what: 'New home T3.1', fingerprint: seen.fingerprint }
    const { bulkEditId } = await answer(applyBulkEditOperation, applyEdit, { body })
    expect(await problem(applyEdit, { body })).toMatchObject({ status: 409 })
    const told = await answer(getThreadAbout, about, { parts: { threadId: ids.thread } })
    expect(told).toMatchObject({
      owners: [{ name: 'The Oxmarsh Needle Room', wholePutUps: 3 }],
      formerHomes: [{ place: { label: 'T2.1' } }],
      whereabouts: [{ current: { label: 'T3.1' }, isOut: false, outSince: null }],
    })
    expect(await answer(getPlaceAround, around, { parts: { placeId: ids.drawer } })).toMatchObject({
      overflow: [],
      livedHere: [{ thread: { code: '0017' }, home: { label: 'T3.1' } }],
      guests: [],
    })
    expect(await problem(around, { parts: { placeId: 'nowhere' } })).toMatchObject({ status: 404 })
    const parts = { bulkEditId }
    expect(await answer(undoBulkEditOperation, undoEdit, { parts, body: {} })).toEqual({ takenBack: 1, left: [] })
    expect(await problem(undoEdit, { parts, body: {} })).toMatchObject({ status: 409 })
    expect(await answer(listBulkEditsOperation, edits)).toMatchObject({ bulkEdits: [{ bulkEditId, isUndone: true }] })
    expect(await problem(about, { parts: { threadId: 'nothing' } })).toMatchObject({ status: 404 })
  })
})
