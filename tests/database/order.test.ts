import { beforeAll, beforeEach, expect, it } from 'vitest'
import { getAnswers } from '#lib/db/answers/get-answers'
import { newId } from '#lib/db/new-id'
import { closeOrder } from '#lib/db/order/close-order'
import { editOrder } from '#lib/db/order/edit-order'
import { orderThreads } from '#lib/db/order/order-threads'
import { findOrder, listOrders, readToCome } from '#lib/db/order/queries'
import { readBuyList } from '#lib/db/order/read-buy-list'
import { readWants } from '#lib/db/order/read-wants'
import { receiveOrder } from '#lib/db/order/receive-order'
import { readLeaving } from '#lib/db/reorder/leaving-threads'
import { readMissing } from '#lib/db/reorder/missing-threads'
import { readReorderCheck } from '#lib/db/reorder/reorder-check'
import { findRule, removeRule, saveRule } from '#lib/db/reorder/rules'
import { readRunOuts } from '#lib/db/reorder/run-outs'
import { readClasses, readWeeklySales } from '#lib/db/reorder/use-figures'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import type { ReorderRule } from '#lib/stock/reorder'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, addLarkholm, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

const fiveYards = 5 * 9_144 * 6

describeOnEachEngine('buying thread', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), solid: newId(), dyed: newId(), drawer: newId(), chart: newId() }
  let grey = ''
  let blue = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.createMany({
      data: [
        { id: ids.solid, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein, priceMinor: 120 },
        {
          ...{ id: ids.dyed, makerId, name: 'vat', nameKey: 'vat', strands: 6, putUpStrandTenths: fiveYards },
          ...{ dyeing: 'overdyed', lotsMatter: true },
        },
      ],
    })
    await prisma.chart.create({
      data: { id: ids.chart, title: 'Rook Hill in Snow', titleKey: 'rook hill in snow', ownerId: ids.shop },
    })
  })

  beforeEach(async () => {
    grey = newId()
    blue = newId()
    await open().prisma.thread.createMany({
      data: [
        { id: grey, lineId: ids.solid, code: `0311 ${grey}` },
        { id: blue, lineId: ids.dyed, code: `Tarn Blue ${blue}` },
      ],
    })
  })

  const order = async (change: Partial<Parameters<typeof orderThreads>[0]> = {}) =>
    granted(
      await orderThreads({
        ...{ ownerId: ids.shop, supplier: 'Larkholm', orderedOn: '2026-09-01', expectedOn: '2026-09-22' },
        ...{ items: [{ threadId: grey, putUps: 36 }], ...change },
      }),
    ).orderIds
  const receive = (orderId: string, change: Partial<Parameters<typeof receiveOrder>[0]> = {}) =>
    receiveOrder({ orderId, putUps: 12, lot: null, homePlaceId: ids.drawer, closes: false, ...change })
  const hold = async (threadId: string, wholePutUps: number, change: Partial<Parameters<typeof receiveThread>[0]> = {}) =>
    granted(await receiveThread(goods({ threadId, ownerId: ids.shop, wholePutUps, homePlaceId: ids.drawer, ...change }))).batchId
  const batchesOf = (threadId: string) => open().prisma.batch.findMany({ where: { threadId }, orderBy: { id: 'asc' } })

  /** A design with one list that states so many put-ups of each thread. */
  async function design(title: string, stated: Record<string, number>): Promise<{ designId: string; listId: string }> {
    const { prisma } = open()
    const [designId, listId] = [newId(), newId()]
    await prisma.design.create({ data: { id: designId, chartId: ids.chart, title: `${title} ${designId}`, titleKey: designId } })
    const keyed = Object.entries(stated).map(([threadId, statedHundredths]) => ({ threadId, strands: 2, statedHundredths }))
    await addKey(open(), { id: listId, designId, name: 'As charted', keyed })
    // Written past the gate: the answers are to be read anew.
    ;(globalThis as { larderAnswers?: unknown }).larderAnswers = undefined
    return { designId, listId }
  }

  it('puts an order down once however often it is sent', async () => {
    const items = [{ orderId: newId(), threadId: grey, putUps: 3 }]
    const first = await order({ items })
    expect(await order({ items })).toEqual(first)
    expect(await open().prisma.threadOrder.count({ where: { threadId: grey } })).toBe(1)
    expect(await findOrder(first[0] as string)).toMatchObject({ putUps: 3, putUpStrandTenths: skein, closedAt: null, version: 0 })
  })

  it('refuses an order of nothing, for nobody, of a thread that is not there, or expected before it was ordered', async () => {
    const asked = {
      ownerId: ids.shop,
      supplier: null,
      orderedOn: '2026-09-01',
      expectedOn: null,
      items: [{ threadId: grey, putUps: 1 }],
    }
    const kind = async (change: object) => {
      const result = await orderThreads({ ...asked, ...change })
      return result.ok ? 'done' : result.error.kind
    }
    expect(await kind({ items: [] })).toBe('nothing-ordered')
    expect(await kind({ ownerId: newId() })).toBe('no-such-owner')
    expect(await kind({ items: [{ threadId: newId(), putUps: 1 }] })).toBe('no-such-thread')
    expect(await kind({ expectedOn: '2026-08-31' })).toBe('expected-before-ordered')
    expect(await open().prisma.threadOrder.count({ where: { threadId: grey } })).toBe(0)
  })

  it('takes an order in bit by bit, into stock and off what is to come, and closes it with the last', async () => {
    const [orderId] = (await order()) as [string]
    expect(granted(await receive(orderId, { version: 0, lot: '18' })).isClosed).toBe(false)
    expect((await readToCome([ids.shop])).get(grey)).toMatchObject([{ putUps: 24 }])
    expect(granted(await receive(orderId, { version: 1, putUps: 24, lot: '18' })).isClosed).toBe(true)
    expect((await readToCome([ids.shop])).get(grey)).toBeUndefined()
    expect(await batchesOf(grey)).toMatchObject([{ lot: '18', wholePutUps: 36, homePlaceId: ids.drawer, ownerId: ids.shop }])
    expect(await open().prisma.movement.count({ where: { batch: { threadId: grey }, kind: 'receive' } })).toBe(2)
    expect(await receive(orderId)).toMatchObject({ ok: false, error: { kind: 'order-closed' } })
  })

  it('takes a delivery in once when it is sent twice, also at the same moment', async () => {
    const [orderId] = (await order()) as [string]
    const answers = await Promise.all([receive(orderId, { version: 0 }), receive(orderId, { version: 0 })])
    expect(answers.map(({ ok }) => ok).sort()).toEqual([false, true])
    expect(await batchesOf(grey)).toMatchObject([{ wholePutUps: 12 }])
    expect(await findOrder(orderId)).toMatchObject({ receivedPutUps: 12, version: 1 })
  })

  it('leaves the order as it was when the stock is refused', async () => {
    const [orderId] = (await order()) as [string]
    expect(await receive(orderId, { homePlaceId: newId() })).toMatchObject({ ok: false, error: { kind: 'no-such-place' } })
    expect(await findOrder(orderId)).toMatchObject({ receivedPutUps: 0, version: 0, closedAt: null })
    expect(await batchesOf(grey)).toEqual([])
  })

  it('gives up what does not come, and waits for it again', async () => {
    const [orderId] = (await order()) as [string]
    granted(await receive(orderId, { closes: true }))
    expect((await readToCome([ids.shop])).get(grey)).toBeUndefined()
    granted(await closeOrder({ orderId, version: 1, isClosed: false }))
    expect((await readToCome([ids.shop])).get(grey)).toMatchObject([{ putUps: 24 }])
    granted(await closeOrder({ orderId, version: 2, isClosed: true }))
    expect(await closeOrder({ orderId, version: 2, isClosed: true })).toMatchObject({ ok: false })
    expect(granted(await closeOrder({ orderId, isClosed: true }))).toBeNull()
  })

  it('changes an order only as it was seen, and never to less than has come', async () => {
    const [orderId] = (await order()) as [string]
    const facts = { lot: '22', supplier: null, orderedOn: '2026-09-02', expectedOn: null, note: 'by post' }
    granted(await editOrder({ orderId, version: 0, putUps: 24, ...facts }))
    expect(await editOrder({ orderId, version: 0, putUps: 20, ...facts })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await receive(orderId))
    expect(await editOrder({ orderId, version: 2, putUps: 11, ...facts })).toMatchObject({
      error: { kind: 'fewer-than-came', receivedPutUps: 12 },
    })
    granted(await editOrder({ orderId, version: 2, putUps: 12, ...facts }))
    expect((await findOrder(orderId))?.closedAt).not.toBeNull()
  })

  it('lists open orders by maker and code, those of these owners only', async () => {
    await order({
      items: [
        { threadId: blue, putUps: 2 },
        { threadId: grey, putUps: 1 },
      ],
    })
    await order({ ownerId: ids.hanne })
    const all = await listOrders({ ownerIds: [ids.shop], isOpen: true }, { offset: 0, limit: 1_000 })
    const mine = all.rows.filter(({ thread }) => [grey, blue].includes(thread.id))
    expect(mine.map(({ thread, putUps }) => [thread.id, putUps])).toEqual([
      [grey, 1],
      [blue, 2],
    ])
    expect(all.total).toBe(all.rows.length)
    expect((await listOrders({ ownerIds: [ids.hanne], isOpen: true, threadId: grey }, { offset: 0, limit: 10 })).total).toBe(1)
  })

  it('keeps one rule an owner, changed only as it was seen', async () => {
    const rule: ReorderRule = { kind: 'minimum', minimumPutUps: 3, packPutUps: 1 }
    const point: ReorderRule = {
      ...{ kind: 'point', demandHundredths: 600, spreadHundredths: 250 },
      ...{ leadWeeks: 3, coverWeeks: 4, packPutUps: 12 },
    }
    const mine = { threadId: grey, ownerId: ids.shop }
    granted(await saveRule({ ...mine, version: null, rule }))
    expect(await saveRule({ ...mine, version: null, rule })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await saveRule({ ...mine, version: 0, rule: point }))
    expect(await findRule(grey, ids.shop)).toEqual({ rule: point, version: 1 })
    expect(await findRule(grey, ids.hanne)).toBeNull()
    expect(await removeRule({ ...mine, version: 0 })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await removeRule({ ...mine, version: 1 }))
    expect(await findRule(grey, ids.shop)).toBeNull()
  })

  it('holds stock less promises, and what is on order, against the rule of each owner', async () => {
    const { designId } = await design('kits', { [grey]: 1_500 })
    const projectId = newId()
    await open().prisma.project.create({ data: { id: projectId, designId, ownerId: ids.shop } })
    const batchId = await hold(grey, 40)
    granted(await promiseStock({ batchId, projectId, strandTenths: 15 * skein }))
    const rule: ReorderRule = {
      ...{ kind: 'point', demandHundredths: 600, spreadHundredths: 250 },
      ...{ leadWeeks: 3, coverWeeks: 4, packPutUps: 12 },
    }
    granted(await saveRule({ threadId: grey, ownerId: ids.shop, version: null, rule }))
    const check = async () =>
      (await readReorderCheck({ ownerIds: [ids.shop, ids.hanne], threadId: grey, now: new Date() }))[0]?.check
    expect(await check()).toMatchObject({ freePutUps: 25, thresholdPutUps: 26, isDue: true, orderPutUps: 36 })
    await order()
    expect(await check()).toMatchObject({ onOrderPutUps: 36, positionPutUps: 61, isDue: false })
  })

  it("falls back to the thread's minimum for whoever holds it, and to two of hand-dyed thread in a shop", async () => {
    await open().prisma.thread.update({ where: { id: grey }, data: { minimumPutUps: 4 } })
    await hold(grey, 1, { ownerId: ids.hanne })
    await hold(blue, 1)
    await hold(blue, 1, { ownerId: ids.hanne })
    const both = { ownerIds: [ids.shop, ids.hanne], now: new Date() }
    const ofGrey = await readReorderCheck({ ...both, threadId: grey })
    expect(ofGrey.map(({ ownerId, check }) => [ownerId, check.source, check.orderPutUps])).toEqual([[ids.hanne, 'thread', 3]])
    const ofBlue = await readReorderCheck({ ...both, threadId: blue })
    expect(ofBlue.map(({ ownerId, check }) => [ownerId, check.source, check.orderPutUps])).toEqual([[ids.shop, 'lots', 1]])
    expect(await readReorderCheck({ ownerIds: [ids.shop], threadId: grey, now: new Date() })).toMatchObject([
      { ownerId: ids.shop, check: { source: 'thread', orderPutUps: 4 } },
    ])
  })

  it('reckons weekly sales and classes from the journal', async () => {
    const batchId = await hold(grey, 20)
    const blueId = await hold(blue, 5)
    granted(await recordUse({ batchId, strandTenths: 4 * skein, reason: 'sold' }))
    granted(await recordUse({ batchId: blueId, strandTenths: fiveYards }))
    const weekMs = 7 * 24 * 60 * 60 * 1_000
    const asked = { threadId: grey, ownerId: ids.shop, putUpStrandTenths: skein }
    expect(await readWeeklySales({ ...asked, now: new Date() })).toBeNull()
    const came = await open().prisma.movement.findFirstOrThrow({ where: { batchId }, orderBy: { at: 'asc' } })
    // Seen four weeks after it came in: 4 in the first of four weeks, mean 1, squares 9 + 1 + 1 + 1 over 3, root 2.
    expect(await readWeeklySales({ ...asked, now: new Date(came.at.getTime() + 4 * weekMs) })).toEqual({
      weeks: 4,
      soldPutUps: 4,
      demandHundredths: 100,
      spreadHundredths: 200,
    })
    const classes = await readClasses({ ownerIds: [ids.shop], now: new Date() })
    expect(classes.get(grey)).toMatchObject({ by: 'value' })
    expect(classes.get(blue)).toMatchObject({ by: 'length' })
    expect((await readClasses({ ownerIds: [ids.hanne], now: new Date() })).get(grey)).toBeUndefined()
  })

  it('says what ran out between two days', async () => {
    const batchId = await hold(grey, 1)
    await hold(blue, 2)
    granted(await recordUse({ batchId, strandTenths: skein }))
    const dayMs = 24 * 60 * 60 * 1_000
    const period = { since: new Date(Date.now() - dayMs), before: new Date(Date.now() + dayMs) }
    const ran = (await readRunOuts({ ownerIds: [ids.shop], ...period })).map(({ thread }) => thread.id)
    expect(ran).toContain(grey)
    expect(ran).not.toContain(blue)
    expect((await readRunOuts({ ownerIds: [ids.hanne], ...period })).map(({ thread }) => thread.id)).not.toContain(grey)
    const earlier = { since: new Date(Date.now() - 2 * dayMs), before: new Date(Date.now() - dayMs) }
    expect(await readRunOuts({ ownerIds: [ids.shop], ...earlier })).toEqual([])
  })

  it('makes one list of designs and projects, summed before rounding, less what is free and on order', async () => {
    const rooks = await design('rooks', { [grey]: 140, [blue]: 200 })
    const geese = await design('geese', { [grey]: 140 })
    const projectId = newId()
    await open().prisma.project.create({
      data: { id: projectId, designId: geese.designId, threadListId: geese.listId, ownerId: ids.shop, quantity: 2 },
    })
    await hold(grey, 1)
    await order({ items: [{ threadId: grey, putUps: 1 }] })
    const answers = await getAnswers()
    const wanted = await readWants(answers, {
      designIds: [rooks.designId, newId()],
      listIds: [],
      projectIds: [projectId],
      ownerIds: [ids.shop],
    })
    expect(wanted.map(({ project, listId }) => [project?.quantity ?? null, listId])).toEqual([
      [null, rooks.listId],
      [2, geese.listId],
    ])
    const list = await readBuyList(
      answers,
      wanted.map(({ want }) => want),
      [ids.shop],
    )
    // 1.4 and twice 1.4 are 4.2; one is free and one on order: 2.2, so 3.
    expect(list.map(({ thread, line }) => [thread.id, line.standing, line.putUps])).toEqual([
      [grey, 'buy', 3],
      [blue, 'buy', 2],
    ])
    expect(list[1]?.line.sameLot).toMatchObject({ lot: null, newLotPutUps: 2 })
  })

  it('says which of a line are not held, and which that are leaving are still wanted', async () => {
    const { designId, listId } = await design('larch', { [grey]: 200 })
    const projectId = newId()
    await open().prisma.project.create({
      data: { id: projectId, designId, threadListId: listId, ownerId: ids.shop, status: 'wanted' },
    })
    await open().prisma.thread.update({ where: { id: grey }, data: { isLeaving: true } })
    const answers = await getAnswers()
    const { missing } = await readMissing(answers, { lineId: ids.solid, ownerIds: [ids.shop] })
    expect(missing.find(({ thread }) => thread.id === grey)).toMatchObject({ designCount: 1, onOrderPutUps: 0 })
    const { rows } = await readLeaving(answers, [ids.shop], { offset: 0, limit: 100 })
    const leaving = rows.find(({ thread }) => thread.id === grey)
    expect(leaving?.uses).toMatchObject([{ needStrandTenths: 2 * skein, wanted: { project: { id: projectId } } }])
    expect(leaving?.forProjects?.line).toMatchObject({ standing: 'buy', putUps: 2 })
    await hold(grey, 5)
    const later = await readMissing(await getAnswers(), { lineId: ids.solid, ownerIds: [ids.shop] })
    expect(later.missing.some(({ thread }) => thread.id === grey)).toBe(false)
  })
})
