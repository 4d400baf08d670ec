import { beforeAll, expect, it } from 'vitest'
import { finishCounting } from '#lib/db/count/close-count'
import { enterCounts } from '#lib/db/count/enter-counts'
import { type CountRecord, findCount } from '#lib/db/count/queries'
import { readComparison } from '#lib/db/count/read-comparison'
import { startCount } from '#lib/db/count/start-count'
import { listMissing } from '#lib/db/missing/queries'
import { readClues } from '#lib/db/missing/read-clues'
import { reportNow, reportThingNow } from '#lib/db/missing/report-now'
import { foundMissing, giveUpMissing } from '#lib/db/missing/settle-missing'
import { newId } from '#lib/db/new-id'
import { listOut } from '#lib/db/place/list-out'
import { finishProject } from '#lib/db/project/finish-project'
import { readPutBackList } from '#lib/db/project/put-back-list'
import { abandonProject } from '#lib/db/project/put-kit-back'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { returnBatch } from '#lib/db/stock/return-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { readThreadTags } from '#lib/db/thread/thread-tag'
import { unpackBag } from '#lib/db/unpack/unpack-bag'
import { readUnpackSheet } from '#lib/db/unpack/unpack-sheet'
import { listUnpackings, readUnpacked } from '#lib/db/unpack/unpacked'
import { carryOut } from '#lib/db/walk/carry-out'
import { tickLines } from '#lib/db/walk/tick-lines'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

// Scenario A9 of the project's trade notes, worked by hand there; see tests/published/scenario-a9.test.ts. How much of Quillwater 12 was
// used is not said: none here.

/** 5 yd of six strands, and 50 m of a single one. */
const fiveYards = 5 * 9_144 * 6
const spool = 500_000

const pulled = [
  { code: '0087', home: 'T2.1-14', putUps: 1, lot: null },
  { code: '0311', home: 'T2.2-05', putUps: 2, lot: null },
  { code: 'Ecru', home: 'T2.3-01', putUps: 1, lot: null },
  { code: 'Tarn Blue', home: 'T10.1-03', putUps: 2, lot: '18' },
  { code: '12', home: 'T4.3-01', putUps: 1, lot: null },
  { code: '1204', home: 'T3.1-01', putUps: 1, lot: null },
] as const
type Code = (typeof pulled)[number]['code']

describeOnEachEngine('unpacking a bag and looking for what is missing', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  const threadIds = {} as Record<Code, string>
  const places: Record<string, string> = {}
  const putUpOf = (code: Code) => (code === 'Tarn Blue' ? fiveYards : code === '12' ? spool : skein)

  async function addPlace(label: string, kind = 'compartment', parentId: string | null = null) {
    const id = newId()
    const path = parentId === null ? `/${id}/` : `/${parentId}/${id}/`
    await open().prisma.place.create({ data: { ...aPlace(id, label, kind), parentId, path } })
    places[label] = id
    return id
  }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    for (const { home } of pulled) await addPlace(home)
    const lines = [
      { maker: 'Larkholm', putUp: skein, strands: 6, lotsMatter: false, codes: ['0087', '0311', 'Ecru', '1204'] },
      { maker: 'Oddny Loft', putUp: fiveYards, strands: 6, lotsMatter: true, codes: ['Tarn Blue'] },
      { maker: 'Quillwater', putUp: spool, strands: 1, lotsMatter: false, codes: ['12'] },
    ] as const
    for (const { maker, putUp, strands, lotsMatter, codes } of lines) {
      const makerId = newId()
      const lineId = newId()
      await prisma.maker.create({ data: { id: makerId, name: maker, nameKey: maker.toLowerCase() } })
      const line = { name: 'stranded', nameKey: 'stranded', strands, putUpStrandTenths: putUp, lotsMatter }
      await prisma.threadLine.create({ data: { id: lineId, makerId, ...line } })
      for (const code of codes) {
        threadIds[code] = newId()
        await prisma.thread.create({ data: { id: threadIds[code], lineId, code } })
      }
    }
  })

  /** A bag with the threads of A9 in it, of goods the shop has received just now, for no project or one. */
  async function aBag(label: string, projectId: string | null = null, ownerId = shop.id): Promise<Record<Code, string>> {
    const bagId = await addPlace(label, 'bag')
    const taken = {} as Record<Code, string>
    for (const { code, home, putUps, lot } of pulled) {
      const batch = { threadId: threadIds[code], ownerId, lot, putUpStrandTenths: putUpOf(code) }
      const received = granted(await receiveThread(goods({ ...batch, wholePutUps: putUps, homePlaceId: places[home] as string })))
      const take = { wholePutUps: putUps, takesPart: false, toPlaceId: bagId, projectId }
      taken[code] = granted(await takeThread({ batchId: received.batchId, ...take })).batchId
    }
    return taken
  }

  const a9 = (taken: Record<Code, string>, projectId: string | null = null) =>
    [
      { batchId: taken['0087'], outcome: { kind: 'left', how: 'guess', putUpHundredths: 70 } },
      { batchId: taken['0311'], outcome: { kind: 'left', how: 'guess', putUpHundredths: 80 } },
      { batchId: taken.Ecru, outcome: { kind: 'used-up' } },
      { batchId: taken['Tarn Blue'], outcome: { kind: 'left', how: 'measured', strandTenths: fiveYards / 2 } },
      { batchId: taken['12'], outcome: { kind: 'as-it-was' } },
      { batchId: taken['1204'], outcome: { kind: 'not-there' } },
    ].map((row) => ({ ...row, projectId })) as Parameters<typeof unpackBag>[0]['threads']

  it('says of A9 what goes back, what is used up and what is missing, and keeps it out until it is ticked', async () => {
    const { prisma } = open()
    const taken = await aBag('K-07')
    const bag = { placeId: places['K-07'] as string, title: 'Put back from K-07' }
    // One skein lives in each, and what is out keeps its room: one has just that room, the other none to spare for a second.
    const room = [
      { placeId: places['T2.1-14'] as string, most: 1 },
      { placeId: places['T2.2-05'] as string, most: 1 },
    ]
    await prisma.placeCapacity.createMany({ data: room.map((one) => ({ id: newId(), putUpWord: 'Skeins', ...one })) })
    await receiveThread(
      goods({ threadId: threadIds['0311'], ownerId: hanne.id, wholePutUps: 1, homePlaceId: places['T2.2-05'] as string }),
    )
    const sheet = await readUnpackSheet(bag.placeId)
    expect(sheet?.threads.map(({ code }) => code)).toEqual(['0087', '0311', 'Ecru', '1204', '12', 'Tarn Blue'])
    const done = granted(await unpackBag({ ...bag, threads: a9(taken), who: 'Nell Oxtoby' }))
    expect(done.check).toEqual({ pulled: 8, back: 4, usedUp: 3, missing: 1, stays: 0 })

    const list = await readUnpacked(bag.placeId, done.at)
    expect(list?.back.map(({ place, what }) => [place?.label, what.noun === 'thread' && [what.thread.code, what.lot]])).toEqual([
      ['T2.1-14', ['0087', null]],
      ['T2.2-05', ['0311', null]],
      ['T4.3-01', ['12', null]],
      ['T10.1-03', ['Tarn Blue', '18']],
    ])
    expect(list?.back.map(({ isFull }) => isFull)).toEqual([false, true, false, false])
    expect(list?.back.map(({ what }) => what.noun === 'thread' && [what.wholePutUps, what.partStrandTenths])).toEqual([
      [0, 0.7 * skein],
      [0, 0.8 * skein],
      [1, 0],
      [0, 0.5 * fiveYards],
    ])
    const tags = await readThreadTags(Object.values(threadIds))
    expect(list?.usedUp.map(({ thread, putUps }) => [tags.get(thread.id)?.code, putUps]).sort()).toEqual([
      ['0311', 1],
      ['Ecru', 1],
      ['Tarn Blue', 1],
    ])
    expect(list?.missing).toMatchObject([{ status: 'open', thread: { code: '1204' }, putUps: 1 }])
    expect(list?.check).toEqual({ pulled: 8, back: 4, usedUp: 3, missing: 1 })
    expect((await listUnpackings(bag.placeId)).map(({ at }) => at)).toEqual([done.at])

    // Out until it is ticked home; the used-up ones are nowhere any more.
    const { things } = await listOut({ ownerIds: [shop.id], insidePath: null }, { offset: 0, limit: 50 })
    expect(things.map((thing) => thing.noun === 'thread' && thing.code).sort()).toEqual([
      '0087',
      '0311',
      '12',
      '1204',
      'Tarn Blue',
    ])
    expect((await readUnpackSheet(bag.placeId))?.threads).toEqual([])

    const lines = await prisma.walkLine.findMany({ where: { walkId: done.walkId as string }, orderBy: { position: 'asc' } })
    granted(
      await tickLines({
        walkId: done.walkId as string,
        ticks: lines.map(({ id }) => ({ lineId: id, status: 'done' as const, tickedAt: new Date(), by: 'Nell Oxtoby' })),
      }),
    )
    granted(await carryOut({ walkId: done.walkId as string }))
    const after = await listOut({ ownerIds: [shop.id], insidePath: null }, { offset: 0, limit: 50 })
    expect(after.things).toMatchObject([{ noun: 'thread', code: '1204', current: { label: 'K-07' } }])
    expect((await readUnpacked(bag.placeId, done.at))?.back.every(({ isHome }) => isHome)).toBe(true)

    // The count of the bag does not expect what is being looked for.
    expect(await startCount({ placeId: bag.placeId, by: 'Joss Tarrow' })).toEqual({ ok: false, error: { kind: 'nothing-there' } })

    const { questions } = await listMissing({ ownerIds: [shop.id], isOpen: true }, { offset: 0, limit: 10 })
    expect(questions).toMatchObject([{ askedBy: 'Nell Oxtoby', lastSeen: { label: 'K-07' }, thing: { code: '1204' } }])
    const missingId = (questions[0] as { id: string }).id
    expect(granted(await foundMissing({ missingId, where: { kind: 'home' }, who: 'Joss Tarrow' }))).toEqual({ isAll: true })
    expect((await listOut({ ownerIds: [shop.id], insidePath: null }, { offset: 0, limit: 50 })).total).toBe(0)
    expect(await prisma.missingThing.findUniqueOrThrow({ where: { id: missingId } })).toMatchObject({
      ...{ status: 'found', settledBy: 'Joss Tarrow' },
    })
  })

  it('keeps batch and journal in step through every outcome', async () => {
    const { prisma } = open()
    const taken = await aBag('K-08')
    const threads = a9(taken).map((row) => (row.batchId === taken['0311'] ? { ...row, notThere: 1 } : row))
    const done = granted(await unpackBag({ placeId: places['K-08'] as string, title: 'K-08', threads }))
    // Of two skeins one was not there, of the other 0.8 is left: 8 = 4 + 2 + 2.
    expect(done.check).toEqual({ pulled: 8, back: 4, usedUp: 2, missing: 2, stays: 0 })
    const batches = await prisma.batch.findMany({ where: { threadId: { in: Object.values(threadIds) } } })
    const sums = await prisma.movement.groupBy({ by: ['batchId'], _sum: { wholeDelta: true, partDeltaStrandTenths: true } })
    for (const batch of batches) {
      const sum = sums.find(({ batchId }) => batchId === batch.id)?._sum
      expect([sum?.wholeDelta, sum?.partDeltaStrandTenths]).toEqual([batch.wholePutUps, batch.partStrandTenths])
    }
  })

  it('refuses what was changed meanwhile, what is on a list already and more than was brought, and writes nothing then', async () => {
    const { prisma } = open()
    const taken = await aBag('K-09')
    const bag = { placeId: places['K-09'] as string, title: 'K-09' }
    const row = (change: object) => ({
      batchId: taken['0087'],
      projectId: null,
      outcome: { kind: 'as-it-was' as const },
      ...change,
    })
    expect(await unpackBag({ ...bag, threads: [row({ version: 99 })] })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    const tooMuch = { kind: 'left' as const, how: 'guess' as const, putUpHundredths: 120 }
    expect(await unpackBag({ ...bag, threads: [row({ outcome: tooMuch })] })).toMatchObject({
      error: { kind: 'more-left-than-brought' },
    })
    expect(
      await unpackBag({ ...bag, threads: [row({ outcome: { kind: 'left', how: 'weighed', milligrams: 100 } })] }),
    ).toMatchObject({
      error: { kind: 'no-weight' },
    })
    expect(await unpackBag({ ...bag, threads: [row({ outcome: { kind: 'stays' } })] })).toMatchObject({
      error: { kind: 'nothing-to-do' },
    })
    expect(await prisma.walk.count({ where: { placeId: bag.placeId } })).toBe(0)
    granted(await unpackBag({ ...bag, threads: [row({})] }))
    expect(await unpackBag({ ...bag, threads: [row({})] })).toMatchObject({ error: { kind: 'not-in-bag' } })
    expect((await readUnpackSheet(bag.placeId))?.threads).toHaveLength(5)
    expect((await readUnpackSheet(bag.placeId))?.onLists).toMatchObject([{ things: 1 }])
  })

  it('closes a question by itself when the thing is put back by any other way', async () => {
    const { prisma } = open()
    const taken = await aBag('K-10')
    const done = granted(await unpackBag({ placeId: places['K-10'] as string, title: 'K-10', threads: a9(taken) }))
    granted(await returnBatch({ batchId: taken['1204'], who: 'Nell Oxtoby' }))
    expect(await prisma.missingThing.findUniqueOrThrow({ where: { id: done.missingIds[0] as string } })).toMatchObject({
      ...{ status: 'found', settledBy: 'Nell Oxtoby' },
    })
  })

  it('puts what is not in its drawer on record as not found, breaks the promises on it, and writes it off', async () => {
    const { prisma } = open()
    const [drawerId, chartId, designId] = [await addPlace('T7.1', 'drawer'), newId(), newId()]
    const [homeId, besideId] = [
      await addPlace('T7.1-01', 'compartment', drawerId),
      await addPlace('T7.1-02', 'compartment', drawerId),
    ]
    await addCharted(open(), { ownerId: shop.id, title: 'Winter Post', chartId, designId })
    const projectId = newId()
    await prisma.project.create({ data: { id: projectId, designId, ownerId: shop.id, status: 'planned' } })
    const batch = { threadId: threadIds['0087'], ownerId: shop.id, lot: 'x', putUpStrandTenths: skein }
    const { batchId } = granted(await receiveThread(goods({ ...batch, wholePutUps: 3, homePlaceId: homeId })))
    await prisma.stockPromise.create({ data: { id: newId(), batchId, projectId, strandTenths: skein * 3 } })
    const report = { batchId, wholePutUps: 2, takesPart: false, lastSeenPlaceId: null, projectId, who: 'Joss Tarrow' }
    const asked = granted(await reportNow(report))
    expect(await prisma.batch.findUniqueOrThrow({ where: { id: batchId } })).toMatchObject({
      wholePutUps: 1,
      currentPlaceId: homeId,
    })
    const lost = await prisma.batch.findUniqueOrThrow({ where: { id: asked.batchId }, include: { currentPlace: true } })
    expect(lost).toMatchObject({ wholePutUps: 2, homePlaceId: homeId, currentPlace: { kind: 'not found', label: 'Not found' } })
    expect(lost.outSince).not.toBeNull()
    expect(await reportNow({ ...report, batchId: asked.batchId })).toMatchObject({ error: { kind: 'already-missing' } })
    // The promise stays with what is left, where it is seen to be too large.
    expect(await prisma.stockPromise.findMany({ where: { projectId } })).toMatchObject([{ batchId, strandTenths: skein * 3 }])

    const { questions } = await listMissing({ ownerIds: [shop.id], isOpen: true }, { offset: 0, limit: 50 })
    const question = questions.find(({ id }) => id === asked.missingId)
    expect(question).toMatchObject({ lastSeen: { label: 'T7.1-01' }, project: { title: 'Winter Post' } })
    const clues = (await readClues(questions)).get(asked.missingId)
    expect(clues?.places.find(({ place }) => place.id === besideId)?.clues).toMatchObject([{ kind: 'next-to' }])
    expect(clues?.lastHands[0]).toMatchObject({ kind: 'take', who: 'Joss Tarrow', from: 'T7.1-01' })

    // A count of its home expects one on the shelf; three counted say that the two turned up.
    const { countId } = granted(await startCount({ placeId: homeId, by: 'Ines Coldwell' }))
    const [line] = await prisma.stockCountLine.findMany({ where: { countId } })
    expect(line?.expected).toBe(1)
    const entered = [{ lineId: line?.id as string, counted: 3, sawCountedAt: null }]
    granted(await enterCounts({ countId, by: 'Ines Coldwell', entered }))
    granted(await finishCounting({ countId }))
    const compared = await readComparison((await findCount(countId)) as CountRecord)
    expect(compared.asked).toMatchObject([{ missingId: asked.missingId, wholePutUps: 2, lastSeen: { label: 'T7.1-01' } }])

    // One of the two turns up; the other is given up.
    const found = { missingId: asked.missingId, found: { wholePutUps: 1, takesPart: false } }
    expect(granted(await foundMissing({ ...found, where: { kind: 'place', label: 'K-11' } }))).toEqual({ isAll: false })
    expect(await giveUpMissing({ missingId: asked.missingId, reason: ' ' })).toMatchObject({ error: { kind: 'no-reason' } })
    granted(await giveUpMissing({ missingId: asked.missingId, reason: 'looked everywhere' }))
    const all = await prisma.batch.findMany({
      where: { threadId: threadIds['0087'], lot: 'x', goneAt: null },
      include: { currentPlace: true },
    })
    expect(all.map((row) => [row.wholePutUps, row.currentPlace?.label]).sort()).toEqual([
      [1, 'K-11'],
      [1, 'T7.1-01'],
    ])
    expect(await foundMissing({ missingId: asked.missingId, where: { kind: 'home' } })).toMatchObject({
      error: { kind: 'settled-already' },
    })
  })

  it('asks for cloth, charts and notions as for thread', async () => {
    const { prisma } = open()
    const homeId = await addPlace('Box 4', 'box')
    const notion = { id: newId(), ownerId: hanne.id, kind: 'hoop', name: 'Beech hoop', size: '10 in', count: 1 }
    await prisma.notion.create({ data: { ...notion, homePlaceId: homeId, currentPlaceId: homeId } })
    const asked = granted(await reportThingNow({ noun: 'notion', id: notion.id, who: 'Hanne Drewitt' }))
    expect(await prisma.notion.findUniqueOrThrow({ where: { id: notion.id }, include: { currentPlace: true } })).toMatchObject({
      currentPlace: { kind: 'not found' },
    })
    granted(await foundMissing({ missingId: asked.missingId, where: { kind: 'home' } }))
    expect(await prisma.notion.findUniqueOrThrow({ where: { id: notion.id } })).toMatchObject({
      currentPlaceId: homeId,
      outSince: null,
    })
    const again = granted(await reportThingNow({ noun: 'notion', id: notion.id }))
    granted(await giveUpMissing({ missingId: again.missingId, reason: 'broken' }))
    expect((await prisma.notion.findUniqueOrThrow({ where: { id: notion.id } })).goneAt).not.toBeNull()
  })

  it('finishes with a list: kept cloth asked about, notions free, and nothing at home before it is ticked', async () => {
    const { prisma } = open()
    const bagId = await addPlace('K-12', 'bag')
    const [chartId, designId, projectId, shelfId] = [newId(), newId(), newId(), await addPlace('Shelf 9', 'shelf')]
    await addCharted(open(), { ownerId: shop.id, title: 'Seven Lanterns', chartId, designId })
    await prisma.project.create({
      data: {
        id: projectId,
        designId,
        ownerId: shop.id,
        status: 'stitching',
        placeId: bagId,
        startedOn: '2026-03-01',
        quantity: 12,
      },
    })
    const cloth = {
      ownerId: shop.id,
      name: 'Linen',
      weave: 'single',
      endsThreads: 28,
      endsPerUm: 25_400,
      picksThreads: 28,
      picksPerUm: 25_400,
    }
    const size = { widthUm: 254_000, heightUm: 254_000, homePlaceId: shelfId, currentPlaceId: bagId, keptForProjectId: projectId }
    const [usedId, spareId] = [newId(), newId()]
    for (const id of [usedId, spareId]) await prisma.clothPiece.create({ data: { id, ...cloth, ...size } })
    const hoop = { id: newId(), ownerId: shop.id, kind: 'hoop', name: 'Hoop', size: '6 in', count: 1, projectId }
    await prisma.notion.create({ data: { ...hoop, homePlaceId: shelfId, currentPlaceId: bagId, outSince: new Date() } })
    const batch = { threadId: threadIds['0311'], ownerId: shop.id, lot: 'k', putUpStrandTenths: skein }
    const home = places['T2.2-05'] as string
    const received = granted(await receiveThread(goods({ ...batch, wholePutUps: 1, homePlaceId: home })))
    granted(await takeThread({ batchId: received.batchId, wholePutUps: 1, takesPart: false, toPlaceId: bagId, projectId }))

    const finish = {
      ...{
        projectId,
        finishedOn: '2026-04-01',
        hoursTenths: 0,
        stitchesDone: 0,
        missingBatchIds: [],
        finishing: null,
        forWhom: null,
      },
      ...{ placeLabel: null, note: null, photo: null, cloth: { kind: 'used' as const, offcuts: [] }, putBack: 'list' as const },
      used: [{ threadId: threadIds['0311'], strandTenths: 0.5 * skein }],
    }
    expect(await finishProject({ ...finish, usedKeptClothIds: [newId()] })).toMatchObject({ error: { kind: 'not-kept' } })
    const done = granted(await finishProject({ ...finish, usedKeptClothIds: [usedId] }))
    const lines = await prisma.walkLine.findMany({ where: { walkId: done.walkId as string } })
    expect(lines.map((line) => line.batchId ?? line.clothPieceId ?? line.notionId).sort()).toEqual(
      [received.batchId, spareId, hoop.id].sort(),
    )
    expect((await prisma.clothPiece.findUniqueOrThrow({ where: { id: usedId } })).goneAt).not.toBeNull()
    expect(await prisma.clothPiece.findUniqueOrThrow({ where: { id: spareId } })).toMatchObject({
      keptForProjectId: null,
      currentPlaceId: bagId,
    })
    const put = await readPutBackList(projectId)
    expect(put?.back).toMatchObject([{ partStrandTenths: 0.5 * skein, isWaiting: true }])
    expect(put?.openLists).toMatchObject([{ waiting: 3, things: 3 }])

    const ticks = lines.map(({ id }) => ({ lineId: id, status: 'done' as const, tickedAt: new Date(), by: null }))
    granted(await tickLines({ walkId: done.walkId as string, ticks }))
    granted(await carryOut({ walkId: done.walkId as string }))
    expect(await prisma.notion.findUniqueOrThrow({ where: { id: hoop.id } })).toMatchObject({
      projectId: null,
      currentPlaceId: shelfId,
    })
    expect(await prisma.clothPiece.findUniqueOrThrow({ where: { id: spareId } })).toMatchObject({ currentPlaceId: shelfId })
    expect((await readPutBackList(projectId))?.back).toMatchObject([{ partStrandTenths: 0.5 * skein, isWaiting: false }])
  })

  it('gives a project up at once where all lies at home already, its notions too', async () => {
    const { prisma } = open()
    const bagId = await addPlace('K-13', 'bag')
    const [designId, projectId, shelfId] = [newId(), newId(), await addPlace('Shelf 10', 'shelf')]
    await addCharted(open(), { ownerId: shop.id, title: 'Larch in October', designId })
    await prisma.project.create({ data: { id: projectId, designId, ownerId: shop.id, status: 'kitted', placeId: bagId } })
    const frame = { id: newId(), ownerId: shop.id, kind: 'frame', name: 'Frame', size: '12 in', count: 1, projectId }
    await prisma.notion.create({ data: { ...frame, homePlaceId: shelfId, currentPlaceId: bagId, outSince: new Date() } })
    expect(granted(await abandonProject({ projectId })).walkId).toBeNull()
    expect(await prisma.notion.findUniqueOrThrow({ where: { id: frame.id } })).toMatchObject({
      projectId: null,
      currentPlaceId: shelfId,
    })
  })
})
