import { beforeAll, beforeEach, expect, it } from 'vitest'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addBuyLines } from '#lib/db/buying/add-lines'
import { changeBuyList } from '#lib/db/buying/change-list'
import { closeBuyList, reopenBuyList } from '#lib/db/buying/close-list'
import { keepBuyList } from '#lib/db/buying/keep-list'
import { nameUnsorted } from '#lib/db/buying/name-unsorted'
import type { NewLine } from '#lib/db/buying/new-lines'
import { findBuyList, listBuyLists, readBuyListNews, readListed } from '#lib/db/buying/queries'
import { removeBuyLine } from '#lib/db/buying/remove-line'
import { type BuyTick, tickBuyLines } from '#lib/db/buying/tick-lines'
import { newId } from '#lib/db/new-id'
import { listOffers, readOffers } from '#lib/db/offer/queries'
import { removeOffer } from '#lib/db/offer/remove-offer'
import { type OfferFacts, saveOffer } from '#lib/db/offer/save-offer'
import { orderThreads } from '#lib/db/order/order-threads'
import { listOrders } from '#lib/db/order/queries'
import { readBuyList } from '#lib/db/order/read-buy-list'
import { readWants } from '#lib/db/order/read-wants'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, addLarkholm, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

const metre = 60_000

describeOnEachEngine('shopping by a list', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), line: newId(), dyed: newId(), drawer: newId(), overflow: newId(), chart: newId() }
  let grey = ''
  let red = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [aPlace(ids.drawer, 'T2.1-14', 'compartment'), aPlace(ids.overflow, 'Overflow 1', 'box')],
    })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.createMany({
      data: [
        { id: ids.line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein, priceMinor: 150 },
        {
          ...{
            id: ids.dyed,
            makerId,
            name: 'vat',
            nameKey: 'vat',
            strands: 6,
            putUpStrandTenths: 5 * 9_144 * 6,
            priceMinor: 300,
          },
          ...{ dyeing: 'overdyed', lotsMatter: true, putUpWord: 'hank' },
        },
      ],
    })
    await prisma.chart.create({
      data: { id: ids.chart, title: 'Rook Hill in Snow', titleKey: 'rook hill in snow', ownerId: ids.hanne },
    })
  })

  beforeEach(async () => {
    grey = newId()
    red = newId()
    await open().prisma.thread.createMany({
      data: [
        { id: grey, lineId: ids.line, code: `0311 ${grey}` },
        { id: red, lineId: ids.line, code: `0742 ${red}` },
      ],
    })
  })

  const aLine = (threadId: string, putUps: number, change: Partial<NewLine> = {}): NewLine => ({
    thread: { threadId, putUpWord: null, putUpStrandTenths: null, packPutUps: 1, isOneLot: false, matchLot: null },
    ...{ text: null, putUps, supplier: null, priceMinor: 150, note: null, ...change },
  })
  const words = (text: string, putUps = 1): NewLine => ({ ...aLine('', putUps), thread: null, text, priceMinor: null })
  const keep = async (lines: NewLine[], ownerId = ids.hanne) =>
    granted(await keepBuyList({ title: 'Saturday', ownerId, wantedFor: [], lines, who: 'Hanne Drewitt' })).listId
  const linesOf = async (listId: string) => (await findBuyList(listId))?.lines ?? []
  const lineFor = async (listId: string, threadId: string) =>
    (await linesOf(listId)).find(({ thread }) => thread?.id === threadId)?.id as string
  const start = Date.parse('2026-09-05T10:00:00.000Z')
  const aTick = (lineId: string, minute: number, change: Partial<BuyTick> = {}): BuyTick => ({
    ...{ lineId, status: 'bought', boughtPutUps: null, lot: null, paidMinor: null, insteadThreadId: null },
    ...{ tickedAt: new Date(start + minute * 60_000), by: 'Hanne Drewitt', ...change },
  })
  const tick = async (listId: string, ...ticks: BuyTick[]) => granted(await tickBuyLines({ listId, ticks }))
  /** What is held of a thread; the batches must say what the journal sums to. */
  async function held(threadId: string, ownerId = ids.hanne) {
    const rows = await open().prisma.batch.findMany({
      where: { threadId, ownerId },
      include: { movements: true, homePlace: true },
      orderBy: { id: 'asc' },
    })
    for (const row of rows) expect(row.wholePutUps).toBe(row.movements.reduce((sum, { wholeDelta }) => sum + wholeDelta, 0))
    return rows.filter(({ goneAt }) => goneAt === null).map((row) => [row.wholePutUps, row.lot, row.homePlace?.label ?? null])
  }
  const hold = async (threadId: string, wholePutUps: number, homePlaceId = ids.drawer) =>
    granted(await receiveThread(goods({ threadId, ownerId: ids.hanne, wholePutUps, homePlaceId }))).batchId

  it('keeps a list as it was reckoned, once', async () => {
    const listId = newId()
    const list = {
      ...{ listId, title: ' Saturday ', ownerId: ids.hanne, wantedFor: [], note: null },
      lines: [aLine(red, 2), words('needles 26'), aLine(grey, 3, { supplier: 'Marl Street' })],
    }
    granted(await keepBuyList(list))
    granted(await keepBuyList(list))
    const found = await findBuyList(listId)
    expect(found?.list).toMatchObject({ title: 'Saturday', status: 'open', ownerName: 'Hanne Drewitt' })
    // Threads by code, words after them.
    expect(
      found?.lines.map(({ thread, text, putUps, putUpStrandTenths }) => [thread?.id ?? text, putUps, putUpStrandTenths]),
    ).toEqual([
      [grey, 3, skein],
      [red, 2, skein],
      ['needles 26', 1, 0],
    ])
    expect(found?.sums).toEqual({ expectedMinor: 750, unpriced: 1, paidMinor: 0, unpaid: 0 })
    const { lists } = await listBuyLists({ ownerIds: [ids.hanne], isOpen: true }, { offset: 0, limit: 100 })
    expect(lists.find(({ id }) => id === listId)?.progress).toEqual({ lines: 3, bought: 0, notThere: 0 })
  })

  it('refuses what is not on record', async () => {
    const list = { title: 'Saturday', ownerId: ids.hanne, wantedFor: [], lines: [] }
    expect(await keepBuyList({ ...list, ownerId: 'x' })).toMatchObject({ error: { kind: 'no-such-owner' } })
    expect(await keepBuyList({ ...list, lines: [aLine('x', 1)] })).toMatchObject({ error: { kind: 'no-such-thread' } })
    const of = { designId: 'x', projectId: null, listName: null }
    expect(await keepBuyList({ ...list, wantedFor: [of] })).toMatchObject({ error: { kind: 'no-such-design' } })
    expect(await addBuyLines({ listId: 'x', lines: [] })).toMatchObject({ error: { kind: 'no-such-list' } })
    expect(await tickBuyLines({ listId: 'x', ticks: [] })).toMatchObject({ error: { kind: 'no-such-list' } })
    expect(await removeBuyLine({ listId: 'x', lineId: 'x' })).toMatchObject({ error: { kind: 'no-such-list' } })
    expect(await changeBuyList({ listId: 'x', title: 'a', note: null })).toMatchObject({ error: { kind: 'no-such-list' } })
    expect(await closeBuyList({ listId: 'x', status: 'done' })).toMatchObject({ error: { kind: 'no-such-list' } })
    expect(await reopenBuyList({ listId: 'x' })).toMatchObject({ error: { kind: 'no-such-list' } })
    const listId = await keep([])
    expect(await removeBuyLine({ listId, lineId: 'x' })).toMatchObject({ error: { kind: 'no-such-line' } })
    expect(await tick(listId, aTick('x', 1))).toEqual({ written: 0, unknownLineIds: ['x'], held: [] })
  })

  it('receives what is ticked where the thread lives, once, and takes it back when it is unticked', async () => {
    await hold(grey, 1)
    await hold(grey, 4, ids.overflow)
    const listId = await keep([aLine(grey, 3)])
    const lineId = await lineFor(listId, grey)
    expect((await linesOf(listId))[0]?.home?.label).toBe('Overflow 1')
    const bought = aTick(lineId, 1, { paidMinor: 420 })
    expect(await tick(listId, bought)).toEqual({ written: 1, unknownLineIds: [], held: [] })
    // Sent again, and from another phone that ticked it earlier but sent it later.
    expect(await tick(listId, bought, aTick(lineId, 0, { by: 'Ines Coldwell', boughtPutUps: 1 }))).toMatchObject({ written: 0 })
    expect(await held(grey)).toEqual([
      [1, null, 'T2.1-14'],
      [7, null, 'Overflow 1'],
    ])
    const [line] = await linesOf(listId)
    expect(line).toMatchObject({ status: 'bought', isCarried: true, paidMinor: 420, tickedBy: 'Hanne Drewitt' })
    const journal = await open().prisma.movement.findMany({ where: { batch: { threadId: grey } }, orderBy: { id: 'asc' } })
    expect(journal.at(-1)).toMatchObject({ kind: 'receive', wholeDelta: 3, who: 'Hanne Drewitt', reason: 'by the list Saturday' })

    await tick(listId, aTick(lineId, 2, { status: 'open' }))
    expect(await held(grey)).toEqual([
      [1, null, 'T2.1-14'],
      [4, null, 'Overflow 1'],
    ])
    expect((await linesOf(listId))[0]).toMatchObject({ status: 'open', isCarried: false, paidMinor: null })
    await tick(listId, aTick(lineId, 3, { boughtPutUps: 2 }))
    expect((await held(grey))[1]).toEqual([6, null, 'Overflow 1'])
  })

  it('receives once when two phones tick at the same time', async () => {
    await hold(grey, 1)
    const listId = await keep([aLine(grey, 3)])
    const lineId = await lineFor(listId, grey)
    await Promise.all(
      ['Hanne Drewitt', 'Ines Coldwell', 'Nell Oxtoby'].map((by, turn) => tick(listId, aTick(lineId, turn, { by }))),
    )
    expect(await held(grey)).toEqual([[4, null, 'T2.1-14']])
    expect((await linesOf(listId))[0]?.tickedBy).toBe('Nell Oxtoby')
  })

  it('of what has no home asks once where it goes, or puts it where the tick says', async () => {
    const listId = await keep([aLine(grey, 1), aLine(red, 1)])
    expect((await linesOf(listId))[0]?.home).toBeNull()
    await tick(listId, aTick(await lineFor(listId, grey), 1))
    expect(await held(grey)).toEqual([[1, null, null]])
    granted(await nameUnsorted('Bag New thread'))
    expect((await findBuyList(listId))?.unsorted?.label).toBe('Bag New thread')
    await tick(listId, aTick(await lineFor(listId, red), 1))
    expect(await held(red)).toEqual([[1, null, 'Bag New thread']])
    await tick(listId, aTick(await lineFor(listId, grey), 2, { place: 'T2.1-14', lot: '18' }))
    expect(await held(grey)).toEqual([[1, '18', 'T2.1-14']])
    granted(await nameUnsorted(null))
    expect((await findBuyList(listId))?.unsorted).toBeNull()
  })

  it('takes another thread instead, and says where it went', async () => {
    await hold(red, 1)
    const listId = await keep([aLine(grey, 2)])
    const lineId = await lineFor(listId, grey)
    await tick(listId, aTick(lineId, 1, { status: 'instead', insteadThreadId: red, boughtPutUps: 3 }))
    expect([await held(grey), await held(red)]).toEqual([[], [[4, null, 'T2.1-14']]])
    const [line] = await linesOf(listId)
    expect([line?.instead?.id, line?.home?.label]).toEqual([red, 'T2.1-14'])
    const gone = newId()
    expect(await tick(listId, aTick(lineId, 2, { status: 'instead', insteadThreadId: gone }))).toMatchObject({
      held: [{ lineId, why: 'no-such-thread' }],
    })
    expect(await held(red)).toEqual([[4, null, 'T2.1-14']])
    await tick(listId, aTick(lineId, 3, { status: 'not there' }))
    expect(await held(red)).toEqual([[1, null, 'T2.1-14']])
  })

  it('keeps a line as it was when what was bought is used already', async () => {
    const listId = await keep([aLine(grey, 2)])
    const lineId = await lineFor(listId, grey)
    await tick(listId, aTick(lineId, 1, { place: 'T2.1-14' }))
    const batch = await open().prisma.batch.findFirstOrThrow({ where: { threadId: grey } })
    granted(await recordUse({ batchId: batch.id, version: batch.version, strandTenths: metre, projectId: null }))
    const undone = await tick(listId, aTick(lineId, 2, { status: 'open' }))
    expect(undone).toEqual({ written: 0, unknownLineIds: [], held: [{ lineId, why: 'used-since' }] })
    expect((await linesOf(listId))[0]).toMatchObject({ status: 'bought', isCarried: true })
  })

  it('remembers what was paid as how the line is sold there', async () => {
    const packed = { threadId: grey, putUpWord: null, putUpStrandTenths: null, packPutUps: 6, isOneLot: false, matchLot: null }
    const listId = await keep([aLine(grey, 12, { supplier: 'Upper Quennow', thread: packed })])
    const lineId = await lineFor(listId, grey)
    const prices = async () =>
      (await listOffers(ids.line))
        .filter(({ supplier }) => supplier === 'Upper Quennow')
        .map(({ packPutUps, priceMinor }) => [packPutUps, priceMinor])
    // Two packs for 17.00 are 8.50 each; later 16.00.
    await tick(listId, aTick(lineId, 1, { paidMinor: 1_700, remembersPrice: true, place: 'T2.1-14' }))
    expect(await prices()).toEqual([[6, 850]])
    await tick(listId, aTick(lineId, 2, { paidMinor: 1_600, remembersPrice: true }))
    expect(await prices()).toEqual([[6, 800]])
    await tick(listId, aTick(lineId, 3, { paidMinor: 1_500 }))
    expect(await prices()).toEqual([[6, 800]])
    expect(await held(grey)).toEqual([[12, null, 'T2.1-14']])
    for (const { offerId } of await listOffers(ids.line)) granted(await removeOffer({ offerId }))
  })

  it('takes plain words off the list without any stock', async () => {
    const listId = await keep([words('needles 26', 2)])
    const [line] = await linesOf(listId)
    const before = await open().prisma.movement.count()
    await tick(listId, aTick(line?.id as string, 1, { paidMinor: 240 }))
    expect(await open().prisma.movement.count()).toBe(before)
    expect((await linesOf(listId))[0]).toMatchObject({ status: 'bought', isCarried: false, paidMinor: 240 })
  })

  it('tells another phone what is new, and that the list itself changed', async () => {
    const listId = await keep([aLine(grey, 1)])
    const found = await findBuyList(listId)
    const lineId = await lineFor(listId, grey)
    await tick(listId, aTick(lineId, 1, { place: 'T2.1-14' }))
    const news = await readBuyListNews(listId, found?.revision ?? 0)
    expect(news).toMatchObject({ version: 0, lines: [{ id: lineId, status: 'bought', isCarried: true, place: 'T2.1-14' }] })
    expect((await readBuyListNews(listId, news?.revision ?? 0))?.lines).toEqual([])
    granted(await addBuyLines({ listId, lines: [words('cloth 28 count, 18 × 27')] }))
    expect(await readBuyListNews(listId, 0)).toMatchObject({ version: 1 })
    expect(await readBuyListNews('x', 0)).toBeNull()
  })

  it('passes over what stands open on the list already, where each is wanted once', async () => {
    const listId = await keep([aLine(grey, 1)])
    const more = { listId, lines: [aLine(grey, 2), aLine(red, 2)], isOnceEach: true }
    expect(granted(await addBuyLines(more)).lineIds).toHaveLength(1)
    const wanted = async () => (await linesOf(listId)).map(({ thread, putUps }) => [thread?.id, putUps])
    expect(await wanted()).toEqual([
      [grey, 1],
      [red, 2],
    ])
    // Bought, it is no longer to come: wanted again, it is another line.
    await tick(listId, aTick(await lineFor(listId, grey), 1))
    expect(granted(await addBuyLines(more)).lineIds).toHaveLength(1)
    expect(await linesOf(listId)).toHaveLength(3)
  })

  it('adds a line once, takes it off unless it is bought, and changes what the list is called', async () => {
    const listId = await keep([aLine(grey, 1)])
    const lineId = newId()
    granted(await addBuyLines({ listId, lines: [{ ...words('hoop'), lineId }] }))
    granted(await addBuyLines({ listId, lines: [{ ...words('hoop'), lineId }] }))
    expect(await linesOf(listId)).toHaveLength(2)
    granted(await removeBuyLine({ listId, lineId }))
    const greyLine = await lineFor(listId, grey)
    await tick(listId, aTick(greyLine, 1))
    expect(await removeBuyLine({ listId, lineId: greyLine })).toMatchObject({ error: { kind: 'line-bought' } })
    const { version } = (await findBuyList(listId))?.list ?? { version: -1 }
    granted(await changeBuyList({ listId, version, title: 'Sunday', note: 'closes at four' }))
    expect(await changeBuyList({ listId, version, title: 'Monday', note: null })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    expect((await findBuyList(listId))?.list).toMatchObject({ title: 'Sunday', note: 'closes at four' })
  })

  it('a tick of a list that was ended meanwhile counts, of one that was dropped it does not', async () => {
    const listId = await keep([aLine(grey, 1), aLine(red, 1)])
    const [greyLine, redLine] = [await lineFor(listId, grey), await lineFor(listId, red)]
    granted(await closeBuyList({ listId, status: 'done', who: 'Ines Coldwell' }))
    expect(await addBuyLines({ listId, lines: [words('hoop')] })).toMatchObject({ error: { kind: 'list-closed' } })
    await tick(listId, aTick(greyLine, 1, { place: 'T2.1-14' }))
    expect(await held(grey)).toEqual([[1, null, 'T2.1-14']])
    granted(await reopenBuyList({ listId }))
    granted(await closeBuyList({ listId, status: 'dropped' }))
    expect(await tickBuyLines({ listId, ticks: [aTick(redLine, 1)] })).toMatchObject({ error: { kind: 'list-closed' } })
    expect(await held(red)).toEqual([])
  })

  it('an order of the same thread stays open: that was bought elsewhere', async () => {
    const orders = granted(
      await orderThreads({
        ...{ ownerId: ids.hanne, supplier: 'Larkholm', orderedOn: '2026-09-01', expectedOn: null },
        items: [{ threadId: grey, putUps: 3 }],
      }),
    )
    const listId = await keep([aLine(grey, 1)])
    await tick(listId, aTick(await lineFor(listId, grey), 1))
    const { rows } = await listOrders({ ownerIds: [ids.hanne], isOpen: true, threadId: grey }, { offset: 0, limit: 10 })
    expect(rows).toMatchObject([{ id: orders.orderIds[0], receivedPutUps: 0 }])
  })

  it('keeps each way a line is sold once, by who saw it last', async () => {
    const pack: OfferFacts = {
      ...{ lineId: ids.line, threadId: null, supplier: 'Marl Street', putUpWord: null, putUpStrandTenths: skein },
      ...{ packPutUps: 12, priceMinor: 1_500, note: null },
    }
    const { offerId } = granted(await saveOffer({ ...pack, offerId: null }))
    const again = await saveOffer({ ...pack, supplier: 'MARL street', offerId: null })
    expect(again).toMatchObject({ error: { kind: 'offer-known', offerId } })
    granted(await saveOffer({ ...pack, offerId, version: 0, priceMinor: 1_440 }))
    expect(await saveOffer({ ...pack, offerId, version: 0, priceMinor: 1_400 })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    expect(await saveOffer({ ...pack, offerId: null, lineId: 'x' })).toMatchObject({ error: { kind: 'no-such-line' } })
    expect(await saveOffer({ ...pack, offerId: null, lineId: ids.dyed, threadId: grey })).toMatchObject({
      error: { kind: 'no-such-thread' },
    })
    expect(await saveOffer({ ...pack, offerId: 'x', packPutUps: 6 })).toMatchObject({ error: { kind: 'no-such-offer' } })
    const own = granted(await saveOffer({ ...pack, threadId: grey, priceMinor: 1_000, offerId: null }))
    expect((await listOffers(ids.line)).map((offer) => [offer.thread?.id ?? null, offer.priceMinor])).toEqual([
      [null, 1_440],
      [grey, 1_000],
    ])
    // What is said of the thread stands for the same of its line.
    const sold = await readOffers(
      [grey, red].map((id) => ({ id, priceMinor: 150, line: { id: ids.line, putUpStrandTenths: skein } })),
    )
    expect(sold.get(grey)?.map(({ priceMinor }) => priceMinor)).toEqual([150, 1_000])
    expect(sold.get(red)?.map(({ priceMinor }) => priceMinor)).toEqual([150, 1_440])
    expect(await removeOffer({ offerId, version: 0 })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await removeOffer({ offerId }))
    granted(await removeOffer(own))
    expect(await removeOffer({ offerId })).toMatchObject({ error: { kind: 'no-such-offer' } })
  })

  /** A design whose lists state so many put-ups, in hundredths, of each thread. */
  async function design(lists: Record<string, Record<string, number>>): Promise<string> {
    const designId = newId()
    await open().prisma.design.create({
      data: { id: designId, chartId: ids.chart, title: `Nine Wrens ${designId}`, titleKey: designId },
    })
    for (const [name, stated] of Object.entries(lists)) {
      const keyed = Object.entries(stated).map(([threadId, statedHundredths]) => ({ threadId, strands: 2, statedHundredths }))
      await addKey(open(), { id: newId(), designId, name, keyed })
    }
    // Written past the gate: the answers are to be read anew.
    ;(globalThis as { larderAnswers?: unknown }).larderAnswers = undefined
    return designId
  }
  async function toBuy(designIds: string[]) {
    const answers = await getAnswers()
    const wanted = await readWants(answers, {
      ...{ designIds, listIds: [], projectIds: [], ownerIds: [ids.hanne], isLeastBuying: true },
    })
    const rows = await readBuyList(
      answers,
      wanted.map(({ want }) => want),
      [ids.hanne],
    )
    return { wanted, rows }
  }

  it('does not list twice what is on a list already', async () => {
    const designId = await design({ cotton: { [grey]: 500 } })
    const before = (await toBuy([designId])).rows[0]
    expect([before?.line.putUps, before?.mix?.priceMinor]).toEqual([5, 750])
    const listId = await keep([aLine(grey, 3)])
    expect((await readListed([ids.hanne])).get(grey)).toMatchObject([{ listId, title: 'Saturday', putUps: 3 }])
    const listed = (await toBuy([designId])).rows[0]
    expect(listed).toMatchObject({ line: { putUps: 2, onListStrandTenths: 3 * skein }, listed: [{ title: 'Saturday' }] })
    const lineId = await lineFor(listId, grey)
    await tick(listId, aTick(lineId, 1))
    expect((await toBuy([designId])).rows[0]?.line).toMatchObject({
      putUps: 2,
      onListStrandTenths: 0,
      freeStrandTenths: 3 * skein,
    })
    await tick(listId, aTick(lineId, 2, { status: 'not there' }))
    expect((await toBuy([designId])).rows[0]?.line.putUps).toBe(5)
  })

  it('takes for each design the list that leaves the least to buy for all of them together', async () => {
    // Two put-ups of grey are held: enough for one design, not both. The second would buy three of red otherwise, the first one.
    await hold(grey, 2)
    const first = await design({ cotton: { [grey]: 200 }, wool: { [red]: 100 } })
    const second = await design({ cotton: { [grey]: 200 }, wool: { [red]: 300 } })
    const { wanted, rows } = await toBuy([first, second])
    expect(wanted.map(({ lists, listId, by }) => [lists.find(({ id }) => id === listId)?.name, by])).toEqual([
      ['wool', 'least'],
      ['cotton', 'least'],
    ])
    expect(rows.map(({ thread, line }) => [thread.id, line.putUps])).toEqual([
      [grey, 0],
      [red, 1],
    ])
  })
})
