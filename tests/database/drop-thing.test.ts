import { beforeAll, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { dropThing, type Lay, putAsItLay } from '#lib/db/place/drop-thing'
import { listRecentPlaces } from '#lib/db/place/recent-places'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addLarkholm, aPlace, goods, skein, theShop } from './things'

describeOnEachEngine('things dragged onto a place', ({ open }) => {
  const ids = { shop: newId(), line: newId(), thread: newId(), chart: newId(), design: newId() }
  const places = { drawer: newId(), other: newId(), bag: newId(), petra: newId() }
  const labels = { drawer: 'T2.1', other: 'T2.2', bag: 'K-07', petra: 'Petra Lisle' }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.createMany({
      data: [
        aPlace(places.drawer, labels.drawer, 'drawer'),
        aPlace(places.other, labels.other, 'drawer'),
        aPlace(places.bag, labels.bag, 'bag'),
        aPlace(places.petra, labels.petra, 'person'),
      ],
    })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: {
        id: ids.line,
        makerId,
        name: 'stranded',
        nameKey: 'stranded',
        fibre: 'cotton',
        strands: 6,
        putUpStrandTenths: skein,
      },
    })
    await prisma.thread.create({ data: { id: ids.thread, lineId: ids.line, code: '0311' } })
    await addCharted(open(), { ownerId: ids.shop, title: 'Nine Wrens', chartId: ids.chart, designId: ids.design })
    await prisma.chart.update({ where: { id: ids.chart }, data: { homePlaceId: places.drawer, currentPlaceId: places.drawer } })
    granted(await receiveThread(goods({ threadId: ids.thread, ownerId: ids.shop, wholePutUps: 3, homePlaceId: places.drawer })))
  })

  const drop = (dragged: Parameters<typeof dropThing>[0]['dragged'], toPlaceId: string, fromPlaceId: string | null = null) =>
    dropThing({ dragged, toPlaceId, fromPlaceId, ownerIds: [ids.shop] })
  const thread = { noun: 'thread', id: ids.thread } as const
  const layOfBatch = () => open().prisma.batch.findFirstOrThrow({ where: { threadId: ids.thread, goneAt: null } })

  it('lets a thread live in a drawer, takes it into a bag for a while, and undoes either to how it lay', async () => {
    const moved = granted(await drop(thread, places.other))
    expect([moved.meaning, moved.label]).toEqual(['home', 'T2.2'])
    expect(await layOfBatch()).toMatchObject({ homePlaceId: places.other, currentPlaceId: places.other })

    const taken = granted(await drop(thread, places.bag))
    expect(taken.meaning).toBe('take')
    expect(await layOfBatch()).toMatchObject({ homePlaceId: places.other, currentPlaceId: places.bag })

    granted(await putAsItLay(taken.before))
    expect(await layOfBatch()).toMatchObject({ homePlaceId: places.other, currentPlaceId: places.other })
    granted(await putAsItLay(moved.before))
    expect(await layOfBatch()).toMatchObject({ homePlaceId: places.drawer, currentPlaceId: places.drawer })
    // Every way of it stands in the journal: in, there, into the bag, and both back.
    expect(await open().prisma.movement.count({ where: { batch: { threadId: ids.thread } } })).toBeGreaterThanOrEqual(5)
  })

  it('puts back what was out when it was moved: where it lived, and out where it was', async () => {
    granted(await drop(thread, places.bag))
    const { before } = granted(await drop(thread, places.other))
    expect(before).toMatchObject({ homePlaceId: places.drawer, currentPlaceId: places.bag })
    granted(await putAsItLay(before))
    expect(await layOfBatch()).toMatchObject({ homePlaceId: places.drawer, currentPlaceId: places.bag })
    granted(await drop(thread, places.drawer))
  })

  it('moves the chart of a design, and hands none to somebody: that is lending', async () => {
    const moved = granted(await drop({ noun: 'design', id: ids.design }, places.other))
    const chart = () => open().prisma.chart.findUniqueOrThrow({ where: { id: ids.chart } })
    expect(await chart()).toMatchObject({ homePlaceId: places.other, currentPlaceId: places.other })
    expect(await drop({ noun: 'chart', id: ids.chart }, places.petra)).toEqual({
      ok: false,
      error: { kind: 'is-lending', label: 'Petra Lisle' },
    })
    expect(await drop({ noun: 'chart', id: ids.chart }, places.other)).toMatchObject({ error: { kind: 'already-there' } })
    granted(await putAsItLay(moved.before))
    expect(await chart()).toMatchObject({ homePlaceId: places.drawer, currentPlaceId: places.drawer })
  })

  it('does not guess which of two batches is meant, unless the row stood in the place of one', async () => {
    granted(await receiveThread(goods({ threadId: ids.thread, ownerId: ids.shop, wholePutUps: 1, homePlaceId: places.other })))
    expect(await drop(thread, places.bag)).toMatchObject({ error: { kind: 'several-batches', count: 2 } })
    const { before } = granted(await drop(thread, places.bag, places.other))
    expect(before).toMatchObject({ homePlaceId: places.other } satisfies Partial<Lay>)
  })

  it('says what is not there', async () => {
    expect(await drop(thread, newId())).toMatchObject({ error: { kind: 'no-such-place' } })
    expect(await drop({ noun: 'chart', id: newId() }, places.other)).toMatchObject({ error: { kind: 'no-such-thing' } })
    expect(await putAsItLay({ noun: 'chart', id: ids.chart, homePlaceId: null, currentPlaceId: null })).toMatchObject({
      error: { kind: 'no-such-thing' },
    })
  })

  it('lists the places things were put in last, each once, the last first', async () => {
    granted(await drop({ noun: 'chart', id: ids.chart }, places.other))
    const lately = await listRecentPlaces(8)
    expect(lately[0]?.label).toBe('T2.2')
    expect(new Set(lately.map(({ id }) => id)).size).toBe(lately.length)
    expect(await listRecentPlaces(1)).toHaveLength(1)
  })
})
