import { beforeAll, expect, it } from 'vitest'
import { readThreadStory } from '#lib/db/movement/thread-story'
import { newId } from '#lib/db/new-id'
import { listLivedHere, listOverflow, readCameFrom } from '#lib/db/place/beyond-place'
import { moveBatch } from '#lib/db/stock/move-batch'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { returnBatch } from '#lib/db/stock/return-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { addThread } from '#lib/db/thread/add-thread'
import { findThread } from '#lib/db/thread/find-thread'
import { listThreadUses } from '#lib/db/thread/thread-uses'
import { listWhereabouts } from '#lib/db/thread/thread-whereabouts'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, aPlace, aThread, goods, hanneDrewitt, skein, stranded, theShop } from './things'

describeOnEachEngine('what is known of one thread and one place', ({ open }) => {
  const ids = {
    ...{ shop: newId(), hanne: newId(), cabinet: newId(), drawer: newId(), old: newId(), box: newId(), bag: newId() },
    ...{ rook: newId(), hare: newId(), rookDesign: newId(), hareDesign: newId(), thread: '', home: '', out: '' },
  }
  const receive = async (homePlaceId: string, wholePutUps: number, over: { ownerId?: string; lot?: string } = {}) =>
    granted(await receiveThread(goods({ threadId: ids.thread, ownerId: ids.shop, wholePutUps, homePlaceId, ...over }))).batchId
  const story = (page = 1, ownerIds = [ids.shop]) => readThreadStory(ids.thread, { ownerIds, page })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [
        aPlace(ids.cabinet, 'T', 'cabinet'),
        aPlace(ids.drawer, 'T2.1', 'drawer'),
        aPlace(ids.old, 'T1.9', 'drawer'),
        aPlace(ids.box, 'Box 4', 'box'),
        aPlace(ids.bag, 'K-07', 'bag'),
      ],
    })
    ids.thread = granted(await addThread({ ...aThread('0311', { name: 'Heron' }), line: stranded() })).threadId
    for (const [designId, projectId, title, statedHundredths] of [
      [ids.rookDesign, ids.rook, 'Rook Hill in Snow', 100],
      [ids.hareDesign, ids.hare, 'Hare by the Pump', 900],
    ] as const) {
      await addCharted(open(), { ownerId: ids.shop, title, designId })
      const keyed = [{ threadId: ids.thread, strands: 2, statedHundredths }]
      await addKey(open(), { id: newId(), designId, name: 'cotton', keyed })
      await prisma.project.create({
        data: {
          id: projectId,
          designId,
          ownerId: ids.shop,
          status: 'stitching',
          ...(projectId === ids.rook && { placeId: ids.bag }),
        },
      })
    }
    // Came into T1.9, which moved to T2.1; two went out to the bag for Rook Hill; more of it lives in a box.
    ids.home = await receive(ids.old, 5)
    granted(await moveBatch({ batchId: ids.home, toPlaceId: ids.drawer, becomesHome: true }))
    granted(await promiseStock({ batchId: ids.home, projectId: ids.rook, strandTenths: 2 * skein }))
    ids.out = granted(
      await takeThread({
        batchId: ids.home,
        wholePutUps: 2,
        takesPart: false,
        toPlaceId: ids.bag,
        projectId: ids.rook,
        reason: 'kitting',
        who: 'Nell Oxtoby',
      }),
    ).batchId
    await receive(ids.box, 1, { lot: 'A4' })
    await receive(ids.box, 9, { ownerId: ids.hanne })
  })

  it('tells each owner’s stock apart, whoever is asked about', async () => {
    const found = await findThread(ids.thread, { ownerIds: [ids.shop] })
    expect(found?.owners.map(({ ownerName, stock }) => [ownerName, stock.wholePutUps, stock.outStrandTenths])).toEqual([
      ['The Oxmarsh Needle Room', 6, 2 * skein],
      ['Hanne Drewitt', 9, 0],
    ])
    expect(found?.batches).toHaveLength(3)
  })

  it('names the project that holds it, what is in its bag and since when', async () => {
    granted(await promiseStock({ batchId: ids.home, projectId: ids.hare, strandTenths: skein }))
    const found = await findThread(ids.thread, { ownerIds: [ids.shop] })
    expect(found?.projects.map(({ outSince: _outSince, ...project }) => project)).toEqual([
      {
        ...{ id: ids.hare, title: 'Hare by the Pump', status: 'stitching', bag: null },
        ...{ promisedStrandTenths: skein, inBagStrandTenths: 0 },
      },
      {
        ...{ id: ids.rook, title: 'Rook Hill in Snow', status: 'stitching', bag: { id: ids.bag, label: 'K-07' } },
        ...{ promisedStrandTenths: 2 * skein, inBagStrandTenths: 2 * skein },
      },
    ])
    expect(found?.projects[1]?.outSince).toBeInstanceOf(Date)
  })

  it('says for whom and why a batch went out, and where it lived before', async () => {
    const { wentOut, formerHomes } = await story()
    expect([...wentOut]).toEqual([
      [ids.out, { project: { id: ids.rook, title: 'Rook Hill in Snow' }, who: 'Nell Oxtoby', reason: 'kitting' }],
    ])
    expect(formerHomes).toMatchObject([{ place: { label: 'T1.9' }, batchIds: [ids.home] }])
  })

  it('pages the journal by whole writes, the latest first', async () => {
    for (let round = 0; round < 25; round++) {
      const { batchId } = granted(await takeThread({ batchId: ids.home, wholePutUps: 1, takesPart: false, toPlaceId: ids.box }))
      granted(await returnBatch({ batchId }))
    }
    const [first, second, past] = [await story(1), await story(2), await story(9)]
    expect(first.pages).toBe(2)
    expect(past.page).toBe(2)
    const revisions = [...first.lines, ...second.lines].map(({ revision }) => revision)
    expect(revisions).toEqual([...revisions].sort((a, b) => b - a))
    const shared = first.lines.filter(({ revision }) => second.lines.some((line) => line.revision === revision))
    expect(shared).toEqual([])
    const { prisma } = open()
    const all = await prisma.movement.count({ where: { batch: { threadId: ids.thread, ownerId: ids.shop } } })
    expect(revisions).toHaveLength(all)
  })

  it('puts the designs that wait for it first, with what they wait for', async () => {
    const uses = await listThreadUses(ids.thread, { ownerIds: [ids.shop], page: 1 })
    expect(uses).toMatchObject({ designCount: 2, waitingCount: 1, pages: 1 })
    expect(uses.designs.map(({ title, waits }) => [title, waits])).toEqual([
      ['Hare by the Pump', true],
      ['Rook Hill in Snow', false],
    ])
    const [list] = uses.designs[0]?.lists ?? []
    const free = (await findThread(ids.thread, { ownerIds: [ids.shop] }))?.owners[0]?.stock.freeStrandTenths as number
    expect(list?.needStrandTenths).toBe(9 * skein)
    expect(list?.shortStrandTenths).toBe(9 * skein - free)
  })

  it('answers at once where every batch is, in whose bag and promised to whom', async () => {
    const found = (await listWhereabouts([ids.thread], [ids.shop])).get(ids.thread)
    expect(
      found?.map(({ current, home, isOut, inBagOf, promisedTo }) => [
        current?.label,
        home?.label,
        isOut,
        inBagOf.map(({ title }) => title),
        promisedTo.map(({ title }) => title),
      ]),
    ).toEqual([
      ['T2.1', 'T2.1', false, [], ['Hare by the Pump']],
      ['Box 4', 'Box 4', false, [], []],
      ['K-07', 'T2.1', true, ['Rook Hill in Snow'], ['Rook Hill in Snow']],
    ])
    expect(await listWhereabouts([], [ids.shop])).toEqual(new Map())
  })

  it('finds the overflow of a drawer, what lived in it before, and what a bag’s leftovers came for', async () => {
    expect((await listOverflow(ids.drawer, [ids.shop])).map(({ home, lot }) => [home?.label, lot])).toEqual([['Box 4', 'A4']])
    expect(await listOverflow(ids.cabinet, [ids.shop])).toEqual([])
    const before = await listLivedHere({ id: ids.old, kind: 'drawer' }, [ids.shop])
    expect(before.map(({ code, home, until }) => [code, home?.label, until instanceof Date])).toEqual([['0311', 'T2.1', true]])
    expect(await listLivedHere({ id: ids.bag, kind: 'bag' }, [ids.shop])).toEqual([])
    expect(await listLivedHere({ id: ids.old, kind: 'drawer' }, [ids.hanne])).toEqual([])
    expect([...(await readCameFrom(ids.bag, [ids.shop]))]).toMatchObject([
      [ids.out, { takenFor: { title: 'Rook Hill in Snow' }, promisedTo: [{ id: ids.rook }], from: { label: 'T2.1' } }],
    ])
  })
})
