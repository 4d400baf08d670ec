import { beforeAll, expect, it } from 'vitest'
import {
  addBuyLinesOperation,
  changeBuyListOperation,
  closeBuyListOperation,
  getBuyListKept,
  getBuyTicks,
  keepBuyListOperation,
  listBuyListsOperation,
  nameUnsortedOperation,
  removeBuyLineOperation,
  tickBuyListOperation,
} from '#api/buy-lists'
import { getBuyList } from '#api/buying'
import { addOfferOperation, changeOfferOperation, listOffersOperation, removeOfferOperation } from '#api/offers'
import { newId } from '#lib/db/new-id'
import { GET as buyList } from '../../app/api/v1/buy/list/route'
import { POST as close } from '../../app/api/v1/buy/lists/[listId]/close/route'
import { POST as removeLine } from '../../app/api/v1/buy/lists/[listId]/lines/[lineId]/remove/route'
import { POST as addLines } from '../../app/api/v1/buy/lists/[listId]/lines/route'
import { POST as change, GET as getList } from '../../app/api/v1/buy/lists/[listId]/route'
import { GET as news, POST as tick } from '../../app/api/v1/buy/lists/[listId]/ticks/route'
import { POST as keep, GET as lists } from '../../app/api/v1/buy/lists/route'
import { POST as nameUnsorted } from '../../app/api/v1/buy/unsorted-place/route'
import { POST as addOffer, GET as offers } from '../../app/api/v1/lines/[lineId]/offers/route'
import { POST as removeOffer } from '../../app/api/v1/offers/[offerId]/remove/route'
import { POST as changeOffer } from '../../app/api/v1/offers/[offerId]/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addCharted, addKey, addLarkholm, skein, theShop } from './things'

describeOnEachEngine('lists to shop by, by the API', ({ open }) => {
  const ids = { shop: newId(), line: newId(), grey: newId(), chart: newId(), design: newId() }
  let listId = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: {
        ...{ id: ids.line, makerId, name: 'Stranded cotton', nameKey: 'stranded cotton', strands: 6 },
        ...{ putUpStrandTenths: skein, priceMinor: 150 },
      },
    })
    await prisma.thread.create({ data: { id: ids.grey, lineId: ids.line, code: '0017' } })
    await addCharted(open(), { ownerId: ids.shop, title: 'Nine Wrens', chartId: ids.chart, designId: ids.design })
    const keyed = [{ threadId: ids.grey, strands: 2, statedHundredths: 1_300 }]
    await addKey(open(), { id: newId(), designId: ids.design, name: 'Cotton', keyed })
  })

  it('keeps, changes and removes a way a line is sold', async () => {
    const path = { lineId: ids.line }
    const body = { supplier: 'Marl Street', putUpStrandTenths: skein, packPutUps: 12, priceMinor: 1_600 }
    const { offer } = await answer(addOfferOperation, addOffer, { parts: path, body })
    expect((await problem(addOffer, { parts: path, body })).detail).toContain(offer.offerId)
    const changed = { ...body, priceMinor: 1_500, version: 0 }
    const parts = { offerId: offer.offerId }
    await answer(changeOfferOperation, changeOffer, { parts, body: changed })
    expect((await problem(changeOffer, { parts, body: changed })).status).toBe(409)
    expect((await problem(changeOffer, { parts: { offerId: 'x' }, body })).status).toBe(404)
    const sold = await answer(listOffersOperation, offers, { parts: path })
    expect(sold).toMatchObject({ priceMinor: 150, offers: [{ packPutUps: 12, priceMinor: 1_500, version: 1 }] })
    expect((await problem(offers, { parts: { lineId: 'x' } })).status).toBe(404)
    const other = await answer(addOfferOperation, addOffer, {
      parts: path,
      body: { ...body, packPutUps: 3, threadId: ids.grey },
    })
    await answer(removeOfferOperation, removeOffer, { parts: { offerId: other.offer.offerId }, body: {} })
    expect((await problem(removeOffer, { parts: { offerId: other.offer.offerId }, body: {} })).status).toBe(404)
  })

  it('reckons the cheapest mix and keeps it as a list, once', async () => {
    // 13 skeins: at 1.50 they are 19.50, a pack of 12 at 15.00 and one are 16.50.
    const asked = { path: `/buy/list?design=${ids.design}` }
    const [line] = (await answer(getBuyList, buyList, asked)).lines
    expect(line?.mix).toMatchObject({ putUps: 13, priceMinor: 1_650, by: 'price' })
    const body = { listId: newId(), title: 'Saturday', ownerId: ids.shop, designs: [ids.design], lines: [{ text: 'needles 26' }] }
    const kept = await answer(keepBuyListOperation, keep, { body })
    await answer(keepBuyListOperation, keep, { body })
    listId = kept.listId
    expect(
      kept.lines.map(({ thread, text, putUps, packPutUps, supplier }) => [thread?.code ?? text, putUps, packPutUps, supplier]),
    ).toEqual([
      ['0017', 1, 1, null],
      ['0017', 12, 12, 'Marl Street'],
      ['needles 26', 1, 1, null],
    ])
    expect(kept).toMatchObject({
      sums: { expectedMinor: 1_650, unpriced: 1 },
      wantedFor: [{ title: 'Nine Wrens', listName: 'Cotton' }],
    })
    const after = (await answer(getBuyList, buyList, asked)).lines[0]
    expect(after).toMatchObject({ putUps: 0, standing: 'covered', listed: [{ title: 'Saturday' }, { title: 'Saturday' }] })
    expect((await answer(listBuyListsOperation, lists, { path: '/buy/lists' })).lists).toMatchObject([{ listId }])
    expect((await problem(keep, { body: { title: 'Saturday', ownerId: 'x' } })).status).toBe(409)
    expect((await problem(keep, { body: { title: 'a', ownerId: ids.shop, lines: [{ putUps: 1 }] } })).status).toBe(422)
  })

  it('ticks into stock, says what is new, and takes lines on and off', async () => {
    const parts = { listId }
    await answer(nameUnsortedOperation, nameUnsorted, { body: { label: 'Bag New thread' } })
    const before = await answer(getBuyListKept, getList, { parts })
    const lineId = before.lines[1]?.lineId as string
    const ticks = [{ lineId, status: 'bought', paidMinor: 1_500, tickedAt: '2026-09-05T10:03:00.000Z', by: 'Hanne Drewitt' }]
    const ticked = await answer(tickBuyListOperation, tick, { parts, body: { ticks, since: before.revision } })
    expect(ticked).toMatchObject({ written: 1, held: [], lines: [{ lineId, isInStock: true, place: 'Bag New thread' }] })
    expect(await answer(tickBuyListOperation, tick, { parts, body: { ticks } })).toMatchObject({ written: 0 })
    expect((await open().prisma.batch.findMany({ where: { threadId: ids.grey } })).map(({ wholePutUps }) => wholePutUps)).toEqual(
      [12],
    )
    const told = await answer(getBuyTicks, news, { parts, path: `/buy/lists/${listId}/ticks?since=${before.revision}` })
    expect(told.lines).toMatchObject([{ lineId, status: 'bought', paidMinor: 1_500 }])
    const gone = [{ lineId, status: 'instead', insteadThreadId: 'x', tickedAt: '2026-09-05T10:04:00.000Z' }]
    expect((await answer(tickBuyListOperation, tick, { parts, body: { ticks: gone } })).held[0]?.why).toContain('removed')
    expect((await problem(tick, { parts, body: { ticks: [{ ...gone[0], insteadThreadId: null }] } })).status).toBe(422)

    const added = await answer(addBuyLinesOperation, addLines, { parts, body: { lines: [{ threadId: ids.grey, putUps: 2 }] } })
    expect(added.lines).toHaveLength(4)
    const open3 = added.lines.find(({ putUps }) => putUps === 2)?.lineId as string
    await answer(removeBuyLineOperation, removeLine, { method: 'POST', parts: { listId, lineId: open3 } })
    expect((await problem(removeLine, { method: 'POST', parts: { listId, lineId: open3 } })).status).toBe(404)
    expect((await problem(removeLine, { method: 'POST', parts: { listId, lineId } })).status).toBe(409)
  })

  it('is called something else, ended and taken up again', async () => {
    const parts = { listId }
    const { version } = await answer(getBuyListKept, getList, { parts })
    const renamed = await answer(changeBuyListOperation, change, { parts, body: { title: 'Sunday', version } })
    expect(renamed.title).toBe('Sunday')
    expect((await problem(change, { parts, body: { title: 'Monday', version } })).status).toBe(409)
    expect((await answer(closeBuyListOperation, close, { parts, body: { status: 'done' } })).status).toBe('done')
    expect((await answer(listBuyListsOperation, lists, { path: '/buy/lists?closed=true' })).lists).toMatchObject([{ listId }])
    expect((await answer(closeBuyListOperation, close, { parts, body: { status: 'open' } })).status).toBe('open')
    for (const [handler, body] of [
      [change, { title: 'a' }],
      [close, { status: 'done' }],
      [addLines, { lines: [{ text: 'a' }] }],
      [tick, { ticks: [{ lineId: 'x', status: 'open', tickedAt: '2026-09-05T10:03:00.000Z' }] }],
    ] as const)
      expect((await problem(handler, { parts: { listId: 'x' }, body })).status).toBe(404)
    expect((await problem(getList, { parts: { listId: 'x' } })).status).toBe(404)
    expect((await problem(news, { parts: { listId: 'x' }, path: '/buy/lists/x/ticks' })).status).toBe(404)
    await answer(nameUnsortedOperation, nameUnsorted, { body: { label: null } })
  })
})
