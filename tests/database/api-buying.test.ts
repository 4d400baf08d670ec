import { beforeAll, expect, it } from 'vitest'
import { getBuyList, listLeaving, listMissing, listRunOuts } from '#api/buying'
import { addOrders, closeOrderOperation, listOrdersOperation, receiveOrderOperation } from '#api/orders'
import { getReorderRule, listReorderCheck, setReorderRule } from '#api/reorder'
import { newId } from '#lib/db/new-id'
import { ask } from '#tests/unit/api/ask'
import { GET as leaving } from '../../app/api/v1/buy/leaving/route'
import { GET as buyList } from '../../app/api/v1/buy/list/route'
import { GET as missing } from '../../app/api/v1/buy/missing/route'
import { GET as runOuts } from '../../app/api/v1/buy/ran-out/route'
import { GET as reorder } from '../../app/api/v1/buy/reorder/route'
import { POST as close } from '../../app/api/v1/orders/[orderId]/close/route'
import { POST as receive } from '../../app/api/v1/orders/[orderId]/receive/route'
import { POST as add, GET as orders } from '../../app/api/v1/orders/route'
import { GET as rule, POST as setRule } from '../../app/api/v1/threads/[threadId]/reorder/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addCharted, addKey, addLarkholm, skein, theShop } from './things'

describeOnEachEngine('buying by the API', ({ open }) => {
  const ids = { shop: newId(), line: newId(), grey: newId(), green: newId(), chart: newId(), design: newId(), list: newId() }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: ids.line, makerId, name: 'Stranded cotton', nameKey: 'stranded cotton', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.createMany({
      data: [
        { id: ids.grey, lineId: ids.line, code: '0017', minimumPutUps: 4 },
        { id: ids.green, lineId: ids.line, code: '17', isLeaving: true },
      ],
    })
    await addCharted(open(), { ownerId: ids.shop, title: 'Rook Hill in Snow', chartId: ids.chart, designId: ids.design })
    const keyed = [ids.grey, ids.green].map((threadId) => ({ threadId, strands: 2, statedHundredths: 150 }))
    await addKey(open(), { id: ids.list, designId: ids.design, name: 'Cotton', keyed })
  })

  it('goes from what is to be bought to what has come', async () => {
    const query = { path: `/buy/list?design=${ids.design}` }
    const list = await answer(getBuyList, buyList, query)
    expect(list.lines.map(({ thread, standing, putUps }) => [thread.code, standing, putUps])).toEqual([
      ['0017', 'buy', 2],
      ['17', 'buy', 2],
    ])
    const { checks } = await answer(listReorderCheck, reorder, { path: '/buy/reorder?due=true' })
    expect(checks).toMatchObject([{ source: 'thread', orderPutUps: 4 }])

    const added = await answer(addOrders, add, {
      body: { ownerId: ids.shop, orderedOn: '2026-09-01', items: [{ threadId: ids.grey, putUps: 6 }] },
    })
    const [orderId] = added.orderIds as [string]
    expect(await answer(listOrdersOperation, orders)).toMatchObject({ total: 1, orders: [{ orderId, putUps: 6, version: 0 }] })
    expect((await answer(getBuyList, buyList, query)).lines.find(({ thread }) => thread.code === '0017')?.standing).toBe(
      'covered',
    )

    const parts = { orderId }
    const receipt = { version: 0, putUps: 4, lot: '18', homePlaceId: null }
    expect(await answer(receiveOrderOperation, receive, { parts, body: receipt })).toMatchObject({ isClosed: false })
    const again = await problem(receive, { parts, body: receipt })
    expect(again.status).toBe(409)
    const closed = await answer(closeOrderOperation, close, { parts, body: { version: 1 } })
    expect(closed.order).toMatchObject({ receivedPutUps: 4, version: 2 })
    expect(closed.order.closedAt).not.toBeNull()
    expect((await ask(receive, { parts: { orderId: newId() }, body: receipt })).status).toBe(404)
  })

  it('sets a rule as it was seen and takes it away', async () => {
    const parts = { threadId: ids.grey }
    const point = { kind: 'point', demandHundredths: 600, spreadHundredths: 250, leadWeeks: 3, packPutUps: 12 }
    const body = { ownerId: ids.shop, version: null, rule: point }
    await answer(setReorderRule, setRule, { parts, body })
    expect((await ask(setRule, { parts, body })).status).toBe(409)
    const kept = await answer(getReorderRule, rule, { parts })
    expect(kept).toMatchObject({ own: { version: 0 }, check: { thresholdPutUps: 26, source: 'owner' }, sales: null })
    await answer(setReorderRule, setRule, { parts, body: { ownerId: ids.shop, version: 0, rule: null } })
    expect((await answer(getReorderRule, rule, { parts })).own).toBeNull()
  })

  it('says what is missing, what is leaving and what ran out', async () => {
    const range = await answer(listMissing, missing, { path: `/buy/missing?line=${ids.line}` })
    expect(range.missing.map(({ thread, designCount }) => [thread.code, designCount])).toContainEqual(['17', 1])
    const { threads } = await answer(listLeaving, leaving)
    expect(threads).toMatchObject([{ thread: { code: '17' }, designCount: 1, shortPutUpsForAll: 2, shortPutUpsForProjects: 0 }])
    const ran = await answer(listRunOuts, runOuts, { path: '/buy/ran-out?since=2026-01-01&before=2026-02-01' })
    expect(ran.threads).toEqual([])
  })
})
