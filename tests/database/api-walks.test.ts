import { beforeAll, expect, it } from 'vitest'
import {
  bringWalkUpToDate,
  carryOutWalk,
  closeWalkOperation,
  getWalk,
  getWalkNews,
  getWhereMayBe,
  listWalksOperation,
  reportLineMissingOperation,
  startWalkOperation,
  takeInsteadOperation,
  tickWalkOperation,
} from '#api/walks'
import { newId } from '#lib/db/new-id'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { POST as carry } from '../../app/api/v1/walks/[walkId]/carry-out/route'
import { POST as close } from '../../app/api/v1/walks/[walkId]/close/route'
import { POST as instead } from '../../app/api/v1/walks/[walkId]/instead/route'
import { POST as missing } from '../../app/api/v1/walks/[walkId]/missing/route'
import { GET as get } from '../../app/api/v1/walks/[walkId]/route'
import { POST as tick, GET as ticks } from '../../app/api/v1/walks/[walkId]/ticks/route'
import { POST as upToDate } from '../../app/api/v1/walks/[walkId]/up-to-date/route'
import { GET as where } from '../../app/api/v1/walks/[walkId]/where/route'
import { GET as list, POST as start } from '../../app/api/v1/walks/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, addLarkholm, aPlace, aStart, goods, skein, theShop } from './things'

describeOnEachEngine('walks over the API', ({ open }) => {
  const ids = { shop: newId(), drawer: newId(), other: newId(), chart: newId(), design: newId(), list: newId() }
  const thread = { red: newId(), blue: newId() }
  let projectId = ''
  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    await prisma.place.create({ data: aPlace(ids.other, 'T10.1', 'drawer') })
    const makerId = await addLarkholm(open())
    const lineId = newId()
    await prisma.threadLine.create({
      data: { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.createMany({
      data: [
        { id: thread.red, lineId, code: '0311' },
        { id: thread.blue, lineId, code: '0742' },
      ],
    })
    const ownerId = ids.shop
    await receiveThread(goods({ threadId: thread.red, ownerId, wholePutUps: 3, homePlaceId: ids.drawer, lot: '18' }))
    await receiveThread(goods({ threadId: thread.blue, ownerId, wholePutUps: 2, homePlaceId: ids.other }))
    await addCharted(open(), { ownerId, title: 'Little Barge', chartId: ids.chart, designId: ids.design })
    await prisma.chart.update({ where: { id: ids.chart }, data: { kind: 'file' } })
    const keyed = Object.values(thread).map((threadId) => ({
      ...{ threadId, strands: 2, statedHundredths: 100, statedPutUpTenths: skein / 6 },
    }))
    await addKey(open(), { id: ids.list, designId: ids.design, name: 'cotton', keyed })
    projectId = granted(await startProject(aStart({ designId: ids.design, threadListId: ids.list, ownerId }))).projectId
  })

  it('is begun, ticked twice alike, asked after, carried out and ended', async () => {
    const by = 'Ines Coldwell'
    const walk = await answer(startWalkOperation, start, { body: { projectIds: [projectId], by } })
    const parts = { walkId: walk.walkId }
    const [red, blue] = walk.lines
    expect(walk.lines.map(({ name, place }) => [name, place?.label])).toEqual([
      ['Larkholm 0311', 'T2.1'],
      ['Larkholm 0742', 'T10.1'],
    ])
    const one = { lineId: red?.lineId, status: 'done', tickedAt: new Date().toISOString(), by }
    const body = { ticks: [one], since: walk.revision, sentAt: new Date().toISOString() }
    const ticked = await answer(tickWalkOperation, tick, { parts, body })
    expect(ticked).toMatchObject({
      written: 1,
      unknownLineIds: [],
      lines: [{ lineId: red?.lineId, status: 'done', tickedBy: by }],
    })
    // Sent again because the answer was not heard: nothing changes.
    expect((await answer(tickWalkOperation, tick, { parts, body })).written).toBe(0)
    expect(await answer(getWalkNews, ticks, { parts, path: `walks/x/ticks?since=${ticked.revision}` })).toMatchObject({
      lines: [],
    })

    const lot22 = granted(
      await receiveThread(
        goods({ threadId: thread.blue, ownerId: ids.shop, wholePutUps: 1, homePlaceId: ids.drawer, lot: '22' }),
      ),
    ).batchId
    const asked = { parts, path: `walks/x/where?lineId=${blue?.lineId}` }
    expect(await answer(getWhereMayBe, where, asked)).toMatchObject({ others: [{ batchId: lot22, free: '8 m', lot: '22' }] })
    const swapped = await answer(takeInsteadOperation, instead, { parts, body: { lineIds: [blue?.lineId], batchId: lot22, by } })
    expect(swapped.progress).toEqual({ things: 2, done: 2, notThere: 0, waiting: 2 })
    expect(await problem(carry, { parts, body: {} })).toMatchObject({
      status: 409,
      detail: 'Say which bag Little Barge goes into.',
    })
    const carried = await answer(carryOutWalk, carry, { parts, body: { bags: [{ projectId, label: 'K-21' }], by } })
    expect(carried).toEqual({ carried: 2, left: [], kittedProjectIds: [projectId], isDone: true })
    expect(await answer(getWalk, get, { parts })).toMatchObject({ status: 'done', projects: [{ bag: { label: 'K-21' } }] })
    expect(await problem(tick, { parts, body })).toMatchObject({ status: 409 })
    expect(await problem(get, { parts: { walkId: 'none' } })).toMatchObject({ status: 404 })
  })

  it('reports what is missing, is brought up to date and dropped', async () => {
    await receiveThread(goods({ threadId: thread.red, ownerId: ids.shop, wholePutUps: 1, homePlaceId: ids.drawer, lot: '19' }))
    const other = granted(
      await startProject(aStart({ designId: ids.design, threadListId: ids.list, ownerId: ids.shop })),
    ).projectId
    const walk = await answer(startWalkOperation, start, { body: { projectIds: [other] } })
    expect(await problem(start, { body: { projectIds: [other] } })).toMatchObject({ status: 409 })
    const parts = { walkId: walk.walkId }
    const lineIds = [walk.lines[0]?.lineId]
    const reported = await answer(reportLineMissingOperation, missing, { parts, body: { lineIds } })
    expect(reported.lines.find(({ lineId }) => lineId === lineIds[0])).toMatchObject({
      status: 'not there',
      note: 'Reported missing',
    })
    expect((await answer(bringWalkUpToDate, upToDate, { parts })).walkId).toBe(walk.walkId)
    const closed = await answer(closeWalkOperation, close, { parts, body: { status: 'dropped', by: 'Ines Coldwell' } })
    expect(closed).toMatchObject({ status: 'dropped', closedBy: 'Ines Coldwell' })
    expect((await answer(listWalksOperation, list)).walks.map(({ status }) => status)).toEqual(['dropped', 'done'])
  })
})
