import { beforeAll, expect, it } from 'vitest'
import {
  foundMissingOperation,
  getMissing,
  giveUpMissingOperation,
  listMissingOperation,
  reportMissingOperation,
} from '#api/missing'
import { getUnpackSheet, unpackBagOperation } from '#api/unpack'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { takeThread } from '#lib/db/stock/take-thread'
import { POST as found } from '../../app/api/v1/missing/[missingId]/found/route'
import { POST as giveUp } from '../../app/api/v1/missing/[missingId]/give-up/route'
import { GET as get } from '../../app/api/v1/missing/[missingId]/route'
import { GET as list, POST as report } from '../../app/api/v1/missing/route'
import { GET as sheet, POST as unpack } from '../../app/api/v1/places/[placeId]/unpack/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addLarkholm, aPlace, goods, skein, theShop } from './things'

describeOnEachEngine('unpacking and missing things over the API', ({ open }) => {
  const ids = { shop: newId(), line: newId(), drawer: newId(), bag: newId(), thread: newId() }
  let batchId = ''
  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T2.1-14', 'drawer'), aPlace(ids.bag, 'K-07', 'bag')] })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: ids.line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.create({ data: { id: ids.thread, lineId: ids.line, code: '0311' } })
    const received = await receiveThread(
      goods({ threadId: ids.thread, ownerId: ids.shop, wholePutUps: 4, homePlaceId: ids.drawer }),
    )
    const take = { wholePutUps: 3, takesPart: false, toPlaceId: ids.bag }
    batchId = granted(await takeThread({ batchId: granted(received).batchId, ...take })).batchId
  })

  it('unpacks a bag, asks for what was not there and settles it', async () => {
    const parts = { placeId: ids.bag }
    const seen = await answer(getUnpackSheet, sheet, { parts })
    expect(seen.threads).toMatchObject([{ batchId, wholePutUps: 3, home: { label: 'T2.1-14' } }])
    const left = { kind: 'left', how: 'guess', putUpHundredths: 80 }
    const threads = [{ batchId, version: seen.threads[0]?.version, outcome: left, notThere: 1 }]
    expect(await problem(unpack, { parts, body: { threads: [{ ...threads[0], notThere: 4 }] } })).toMatchObject({ status: 409 })
    const done = await answer(unpackBagOperation, unpack, { parts, body: { threads, who: 'Nell Oxtoby' } })
    // 3 = 1 part back + 1 used up + 1 missing.
    expect(done.check).toEqual({ pulled: 3, back: 1, usedUp: 1, missing: 1, stays: 0 })
    expect(done.back).toMatchObject([{ place: { label: 'T2.1-14' }, wholePutUps: 0, partStrandTenths: 0.8 * skein }])
    expect((await answer(getUnpackSheet, sheet, { parts })).onLists).toMatchObject([{ walkId: done.walkId, things: 1 }])

    const open = await answer(listMissingOperation, list)
    expect(open).toMatchObject({
      total: 1,
      questions: [{ missingId: done.missingIds[0], askedBy: 'Nell Oxtoby', wholePutUps: 1 }],
    })
    const question = { missingId: done.missingIds[0] as string }
    expect(await answer(getMissing, get, { parts: question })).toMatchObject({ lastSeen: { label: 'K-07' }, status: 'open' })
    const body = { where: 'home', who: 'Joss Tarrow' }
    const settled = await answer(foundMissingOperation, found, { parts: question, body })
    expect(settled).toMatchObject({ status: 'found', settledBy: 'Joss Tarrow' })
    expect(await problem(found, { parts: question, body })).toMatchObject({ status: 409 })
    expect(await problem(get, { parts: { missingId: newId() } })).toMatchObject({ status: 404 })
  })

  it('reports what is not in its drawer, and writes it off', async () => {
    const { prisma } = open()
    const home = await prisma.batch.findFirstOrThrow({
      where: { currentPlaceId: ids.drawer, goneAt: null, wholePutUps: { gt: 0 } },
    })
    const body = { noun: 'thread', id: home.id, wholePutUps: 1, who: 'Joss Tarrow' }
    const asked = await answer(reportMissingOperation, report, { body })
    expect(asked).toMatchObject({ status: 'open', current: { label: 'Not found' }, home: { label: 'T2.1-14' } })
    const parts = { missingId: asked.missingId }
    expect(await answer(giveUpMissingOperation, giveUp, { parts, body: { reason: 'looked everywhere' } })).toMatchObject({
      ...{ status: 'given up', note: 'looked everywhere' },
    })
    expect((await answer(listMissingOperation, list, { path: 'missing?status=settled' })).total).toBe(2)
    const held = await prisma.batch.aggregate({ where: { threadId: ids.thread, goneAt: null }, _sum: { wholePutUps: true } })
    // Of 4 skeins one was used up, one begun, one written off.
    expect(held._sum.wholePutUps).toBe(1)
  })
})
