import fc from 'fast-check'
import { beforeAll, beforeEach, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { listOut } from '#lib/db/place/list-out'
import { readBatches } from '#lib/db/stock/apply-stock-change'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { mergeBatches } from '#lib/db/stock/merge-batches'
import { moveBatch } from '#lib/db/stock/move-batch'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { getFreeStock } from '#lib/db/stock/queries'
import { type GoodsReceived, receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { relabelBatch } from '#lib/db/stock/relabel-batch'
import { releasePromises } from '#lib/db/stock/release-promises'
import { returnBatch } from '#lib/db/stock/return-batch'
import { splitBatch } from '#lib/db/stock/split-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import type { Batch } from '#lib/stock/batch'
import { isEqualBatch } from '#lib/stock/stock-change'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addLarkholm, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

/** 1 m of all six strands. */
const metre = 60_000

describeOnEachEngine('stock of thread', ({ open, openAnother }) => {
  const ids = {
    shop: newId(),
    hanne: newId(),
    solidLine: newId(),
    dyedLine: newId(),
    chart: newId(),
    design: newId(),
    drawer: newId(),
    otherDrawer: newId(),
    bag: newId(),
    otherBag: newId(),
    rooks: newId(),
    lanterns: newId(),
  }
  let threadId = ''
  let dyedThreadId = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [
        aPlace(ids.drawer, 'T2.1', 'drawer'),
        aPlace(ids.otherDrawer, 'T2.2', 'drawer'),
        aPlace(ids.bag, 'K-07', 'bag'),
        aPlace(ids.otherBag, 'K-08', 'bag'),
      ],
    })
    const makerId = await addLarkholm(open())
    const line = { makerId, strands: 6, putUpStrandTenths: skein }
    await prisma.threadLine.createMany({
      data: [
        { ...line, id: ids.solidLine, name: 'stranded', nameKey: 'stranded' },
        { ...line, id: ids.dyedLine, name: 'vat', nameKey: 'vat', dyeing: 'overdyed', lotsMatter: true },
      ],
    })
    await addCharted(open(), { ownerId: ids.shop, title: 'Rook Hill in Snow', chartId: ids.chart, designId: ids.design })
    await prisma.project.createMany({
      data: [ids.rooks, ids.lanterns].map((id) => ({ id, designId: ids.design, ownerId: ids.shop })),
    })
  })

  beforeEach(async () => {
    threadId = newId()
    dyedThreadId = newId()
    await open().prisma.thread.createMany({
      data: [
        { id: threadId, lineId: ids.solidLine, code: `${threadId} 0311` },
        { id: dyedThreadId, lineId: ids.dyedLine, code: `${dyedThreadId} Haw` },
      ],
    })
  })

  const some = (over: Partial<GoodsReceived> = {}) =>
    goods({ threadId, ownerId: ids.shop, wholePutUps: 3, homePlaceId: ids.drawer, ...over })

  const receive = async (over: Partial<GoodsReceived> = {}) => granted(await receiveThread(some(over))).batchId

  const rowOf = (id: string) => open().prisma.batch.findUniqueOrThrow({ where: { id } })

  const movementsOf = (batchId: string) =>
    open().prisma.movement.findMany({ where: { batchId }, orderBy: [{ revision: 'asc' }, { id: 'asc' }] })

  async function expectSumsOfMovements() {
    const { prisma } = open()
    const batches = await prisma.batch.findMany({ select: { id: true, wholePutUps: true, partStrandTenths: true } })
    const sums = await prisma.movement.groupBy({
      by: ['batchId'],
      where: { batchId: { not: null } },
      _sum: { wholeDelta: true, partDeltaStrandTenths: true },
    })
    const sumById = new Map(sums.map((sum) => [sum.batchId, sum._sum]))
    for (const batch of batches) {
      expect(sumById.get(batch.id)).toEqual({ wholeDelta: batch.wholePutUps, partDeltaStrandTenths: batch.partStrandTenths })
    }
  }

  it('takes thread in at a home called by its label, made when there is none, and not made when nothing is taken in', async () => {
    const { prisma } = open()
    const known = await receive({ homePlaceId: null, homePlaceLabel: ' t2.2 ' })
    expect(await rowOf(known)).toMatchObject({ homePlaceId: ids.otherDrawer, currentPlaceId: ids.otherDrawer })

    const label = `Drawer ${threadId}`
    const isMade = () => prisma.place.count({ where: { label, kind: 'drawer' } })
    const nothing = await receiveThread(some({ wholePutUps: 0, homePlaceId: null, homePlaceLabel: label }))
    expect(nothing).toMatchObject({ ok: false, error: { kind: 'nothing-received' } })
    expect(await isMade()).toBe(0)
    const made = await receive({ homePlaceId: null, homePlaceLabel: label })
    expect(await isMade()).toBe(1)
    const { homePlaceId } = await rowOf(made)
    expect(await prisma.place.findUniqueOrThrow({ where: { id: homePlaceId as string } })).toMatchObject({
      label,
      parentId: null,
    })
  })

  it('takes thread in at its home and writes who, where and when', async () => {
    const { batchId, revision } = granted(await receiveThread(some({ reason: 'market', who: 'Nell Oxtoby' })))
    expect(await rowOf(batchId)).toMatchObject({
      wholePutUps: 3,
      putUpStrandTenths: skein,
      homePlaceId: ids.drawer,
      currentPlaceId: ids.drawer,
      outSince: null,
      version: 0,
    })
    const [movement, ...more] = await movementsOf(batchId)
    expect(more).toEqual([])
    expect(movement).toMatchObject({
      revision,
      kind: 'receive',
      wholeDelta: 3,
      toPlaceId: ids.drawer,
      toOwnerId: ids.shop,
      reason: 'market',
      who: 'Nell Oxtoby',
    })
    const changes = await open().prisma.change.findMany({ where: { revision } })
    expect(changes.map(({ noun, nounId }) => [noun, nounId])).toEqual([['batch', batchId]])
  })

  it('lays solids with what is there, keeps lots, owners and put-ups apart', async () => {
    const first = await receive()
    expect(await receive({ wholePutUps: 2 })).toBe(first)
    expect(await rowOf(first)).toMatchObject({ wholePutUps: 5, version: 1 })
    const others = [{ lot: '12' }, { ownerId: ids.hanne }, { putUpStrandTenths: 300_000 }, { homePlaceId: ids.otherDrawer }]
    for (const over of others) expect(await receive(over)).not.toBe(first)
  })

  it('never lays unmarked skeins together where lots matter', async () => {
    const first = await receive({ threadId: dyedThreadId })
    expect(await receive({ threadId: dyedThreadId })).not.toBe(first)
    const marked = await receive({ threadId: dyedThreadId, lot: 'B4' })
    expect(await receive({ threadId: dyedThreadId, lot: 'B4' })).toBe(marked)
  })

  it('refuses what it is not told, and what does not exist', async () => {
    const refusals: [Partial<GoodsReceived>, string][] = [
      [{ wholePutUps: 0 }, 'nothing-received'],
      [{ threadId: 'nobody' }, 'no-such-thread'],
      [{ ownerId: 'nobody' }, 'no-such-owner'],
      [{ homePlaceId: 'nowhere' }, 'no-such-place'],
    ]
    for (const [over, kind] of refusals) expect(await receiveThread(some(over))).toMatchObject({ ok: false, error: { kind } })
    expect(await recordUse({ batchId: 'none', strandTenths: 1 })).toMatchObject({ ok: false, error: { kind: 'no-such-batch' } })
    const batchId = await receive()
    const moved = await moveBatch({ batchId, toPlaceId: 'nowhere', becomesHome: true })
    expect(moved).toMatchObject({ ok: false, error: { kind: 'no-such-place' } })
    const promised = await promiseStock({ batchId, projectId: 'nothing', strandTenths: 1 })
    expect(promised).toMatchObject({ ok: false, error: { kind: 'no-such-project' } })
    const passed = await transferBatch({ batchId, toOwnerId: 'nobody' })
    expect(passed).toMatchObject({ ok: false, error: { kind: 'no-such-owner' } })
  })

  it('uses a length: a skein is opened and the rest of it is the part', async () => {
    const batchId = await receive()
    expect((await recordUse({ batchId, strandTenths: 3 * metre })).ok).toBe(true)
    expect(await rowOf(batchId)).toMatchObject({ wholePutUps: 2, partStrandTenths: 5 * metre, partCertainty: 'label' })
    expect(await recordUse({ batchId, strandTenths: 22 * metre })).toEqual({
      ok: false,
      error: { kind: 'not-enough', batchId, heldStrandTenths: 21 * metre, requestedStrandTenths: 22 * metre },
    })
  })

  it('refuses an edit of a batch that somebody changed since it was looked at', async () => {
    const batchId = await receive()
    granted(await recordUse({ batchId, version: 0, strandTenths: metre }))
    const late = await correctBatch({
      batchId,
      version: 0,
      wholePutUps: 1,
      partStrandTenths: 0,
      partCertainty: 'none',
      reason: 'counted',
    })
    expect(late).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
  })

  it('corrects what a label says without moving an amount, and keeps what it said before', async () => {
    const batchId = await receive({ lot: '17' })
    granted(await recordUse({ batchId, strandTenths: 3 * metre }))
    const label = { batchId, version: 1, lot: '71', putUpStrandTenths: 10 * metre, reason: 'misread' }
    const { revision } = granted(await relabelBatch(label))
    expect(await rowOf(batchId)).toMatchObject({
      ...{ lot: '71', putUpStrandTenths: 10 * metre, wholePutUps: 2, partStrandTenths: 5 * metre, version: 2 },
    })
    expect((await movementsOf(batchId)).at(-1)).toMatchObject({
      ...{ revision, kind: 'correct', wholeDelta: 0, partDeltaStrandTenths: 0 },
      reason: 'lot 17 to lot 71, 8 m to 10 m each; misread',
    })
    expect(await relabelBatch(label)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await relabelBatch({ ...label, version: 2 })).toEqual({ ok: false, error: { kind: 'no-change' } })
    await expectSumsOfMovements()
  })

  it('keeps the day a batch went out while it goes from bag to bag, and forgets it at home', async () => {
    const batchId = await receive()
    granted(await moveBatch({ batchId, toPlaceId: ids.bag, becomesHome: false }))
    const { outSince } = await rowOf(batchId)
    expect(outSince).toBeInstanceOf(Date)
    granted(await moveBatch({ batchId, toPlaceId: ids.otherBag, becomesHome: false }))
    expect((await rowOf(batchId)).outSince).toEqual(outSince)
    granted(await returnBatch({ batchId }))
    expect(await rowOf(batchId)).toMatchObject({ currentPlaceId: ids.drawer, outSince: null })
    granted(await moveBatch({ batchId, toPlaceId: ids.otherDrawer, becomesHome: true }))
    expect(await rowOf(batchId)).toMatchObject({ homePlaceId: ids.otherDrawer, outSince: null })
  })

  it('splits off what is taken, with its promise, and lays it back', async () => {
    const home = await receive({ threadId: dyedThreadId })
    granted(await promiseStock({ batchId: home, projectId: ids.rooks, strandTenths: 10 * metre }))
    const take = { batchId: home, wholePutUps: 1, takesPart: false, toPlaceId: ids.bag, projectId: ids.rooks }
    const taken = granted(await takeThread(take)).batchId
    expect(taken).not.toBe(home)
    expect(await rowOf(taken)).toMatchObject({ parentId: home, wholePutUps: 1, homePlaceId: ids.drawer, currentPlaceId: ids.bag })
    const out = await rowOf(taken)
    expect(out.outSince).not.toBeNull()
    const promises = async () =>
      (
        await open().prisma.stockPromise.findMany({
          where: { batchId: { in: [home, taken] } },
          orderBy: { strandTenths: 'desc' },
        })
      ).map(({ batchId, strandTenths }) => [batchId, strandTenths])
    expect(await promises()).toEqual([
      [taken, 8 * metre],
      [home, 2 * metre],
    ])

    const back = granted(await returnBatch({ batchId: taken }))
    expect(back.batchId).toBe(home)
    expect(await rowOf(home)).toMatchObject({ wholePutUps: 3 })
    expect(await rowOf(taken)).toMatchObject({ wholePutUps: 0, partCertainty: 'none', goneAt: expect.any(Date) })
    expect(await promises()).toEqual([[home, 10 * metre]])
    expect(await takeThread({ ...take, batchId: taken })).toMatchObject({ ok: false, error: { kind: 'no-such-batch' } })
  })

  it('passes a batch to another owner, unless it is promised', async () => {
    const batchId = await receive()
    granted(await promiseStock({ batchId, projectId: ids.rooks, strandTenths: metre }))
    expect(await transferBatch({ batchId, toOwnerId: ids.hanne })).toEqual({
      ok: false,
      error: { kind: 'promised', batchId, projectIds: [ids.rooks] },
    })
    expect(granted(await releasePromises({ projectId: ids.rooks, batchId }))).toEqual({ releasedCount: 1 })
    granted(await transferBatch({ batchId, toOwnerId: ids.hanne }))
    expect(await rowOf(batchId)).toMatchObject({ ownerId: ids.hanne })
    expect((await movementsOf(batchId)).at(-1)).toMatchObject({ kind: 'transfer', fromOwnerId: ids.shop, toOwnerId: ids.hanne })
  })

  it('reckons what is free for owners, and lists what is out with the longest out first', async () => {
    const batchId = await receive()
    await receive({ ownerId: ids.hanne, wholePutUps: 1 })
    const taken = granted(await takeThread({ batchId, wholePutUps: 1, takesPart: false, toPlaceId: ids.bag })).batchId
    granted(await promiseStock({ batchId, projectId: ids.lanterns, strandTenths: 4 * metre }))
    expect(await getFreeStock(threadId, { ownerIds: [ids.shop] })).toMatchObject({
      ownedStrandTenths: 24 * metre,
      outStrandTenths: 8 * metre,
      promisedStrandTenths: 4 * metre,
      freeStrandTenths: 12 * metre,
    })
    const forLanterns = await getFreeStock(threadId, { ownerIds: [ids.shop], forProjectId: ids.lanterns })
    expect(forLanterns.freeStrandTenths).toBe(16 * metre)
    const everything = { offset: 0, limit: 500 }
    const out = await listOut({ ownerIds: [ids.shop], insidePath: null }, everything)
    expect(out.things).toHaveLength(out.total)
    expect(out.things.find(({ id }) => id === taken)).toMatchObject({
      home: { label: 'T2.1' },
      current: { label: 'K-07' },
      threadId,
      makerName: 'Larkholm',
    })
    const since = out.things.map(({ outSince }) => outSince?.getTime() ?? 0)
    expect(since).toEqual([...since].sort((a, b) => a - b))
    const second = await listOut({ ownerIds: [ids.shop], insidePath: null }, { offset: 1, limit: 1 })
    expect(second).toEqual({ things: out.things.slice(1, 2), total: out.total })
    expect(await listOut({ ownerIds: [ids.hanne], insidePath: null }, everything)).toEqual({ things: [], total: 0 })
  })

  it('parts a batch, lays it together again with its history, and keeps unmarked lots apart where they matter', async () => {
    const batchId = await receive({ partStrandTenths: metre, partCertainty: 'guess' })
    granted(await promiseStock({ batchId, projectId: ids.rooks, strandTenths: skein }))
    const split = { batchId, wholePutUps: 1, takesPart: true }
    const parted = granted(await splitBatch({ ...split, homePlaceId: ids.otherDrawer, reason: 'for the class' })).batchId
    expect(await rowOf(parted)).toMatchObject({
      ...{ parentId: batchId, wholePutUps: 1, partStrandTenths: metre, partCertainty: 'guess' },
      ...{ homePlaceId: ids.otherDrawer, currentPlaceId: ids.otherDrawer, outSince: null },
    })
    expect(await splitBatch({ ...split, takesPart: false, wholePutUps: 2 })).toMatchObject({
      error: { kind: 'not-enough-free', freeStrandTenths: skein },
    })
    expect(await mergeBatches({ batchId: parted, intoBatchId: batchId })).toMatchObject({
      error: { kind: 'marks-differ', differs: ['homePlaceId', 'place'] },
    })
    granted(await moveBatch({ batchId: parted, toPlaceId: ids.drawer, becomesHome: true }))
    const stale = await mergeBatches({ batchId: parted, intoBatchId: batchId, intoVersion: 0 })
    expect(stale).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    expect(granted(await mergeBatches({ batchId: parted, intoBatchId: batchId })).batchId).toBe(batchId)
    expect(await rowOf(batchId)).toMatchObject({ wholePutUps: 3, partStrandTenths: metre, partCertainty: 'guess', goneAt: null })
    expect((await rowOf(parted)).goneAt).not.toBeNull()
    expect((await movementsOf(parted)).map(({ kind, wholeDelta }) => [kind, wholeDelta])).toEqual([
      ['split', 1],
      ['move', 0],
      ['merge', -1],
    ])

    const dyed = { threadId: dyedThreadId, homePlaceId: ids.drawer }
    const [one, other] = [await receive(dyed), await receive(dyed)]
    expect(await mergeBatches({ batchId: one, intoBatchId: other })).toMatchObject({ error: { kind: 'lot-unmarked' } })
    await expectSumsOfMovements()
  })

  it('passes some of a batch to another owner, who holds it as a batch of their own', async () => {
    const batchId = await receive()
    granted(await promiseStock({ batchId, projectId: ids.rooks, strandTenths: skein }))
    const passed = granted(
      await transferBatch({ batchId, toOwnerId: ids.hanne, parting: { wholePutUps: 2, takesPart: false }, reason: 'swap' }),
    ).batchId
    expect(await rowOf(passed)).toMatchObject({ ownerId: ids.hanne, wholePutUps: 2, parentId: batchId })
    expect(await rowOf(batchId)).toMatchObject({ ownerId: ids.shop, wholePutUps: 1 })
    const more = { batchId, toOwnerId: ids.hanne, parting: { wholePutUps: 1, takesPart: false } }
    expect(await transferBatch(more)).toMatchObject({ error: { kind: 'not-enough-free' } })
    await expectSumsOfMovements()
  })

  it('keeps hanks and skeins of one thread apart, and hanks of the line’s own word together', async () => {
    const skeins = await receive()
    expect(await receive({ putUpWord: ' Skein ' })).toBe(skeins)
    const hanks = await receive({ putUpWord: 'hank' })
    expect(hanks).not.toBe(skeins)
    expect(await receive({ putUpWord: 'Hank' })).toBe(hanks)
    expect(await mergeBatches({ batchId: hanks, intoBatchId: skeins })).toMatchObject({ error: { differs: ['putUpWord'] } })
    const label = { batchId: hanks, lot: null, putUpWord: 'skein', putUpStrandTenths: skein, reason: 'misread' }
    granted(await relabelBatch(label))
    expect((await rowOf(hanks)).putUpWord).toBeNull()
    expect((await movementsOf(hanks)).at(-1)?.reason).toBe('hank to skein; misread')
    expect(granted(await mergeBatches({ batchId: hanks, intoBatchId: skeins })).batchId).toBe(skeins)
    expect((await rowOf(skeins)).wholePutUps).toBe(12)
  })

  it('promises to nobody but a project of the same owner that is planned or under way, and keeps a promise’s age', async () => {
    const batchId = await receive()
    const closed = newId()
    const hers = newId()
    await open().prisma.project.createMany({
      data: [
        { id: closed, designId: ids.design, ownerId: ids.shop, status: 'abandoned' },
        { id: hers, designId: ids.design, ownerId: ids.hanne },
      ],
    })
    const promise = { batchId, strandTenths: metre }
    expect(await promiseStock({ ...promise, projectId: closed })).toMatchObject({ error: { kind: 'not-open' } })
    expect(await promiseStock({ ...promise, projectId: hers })).toMatchObject({ error: { kind: 'other-owner' } })
    granted(await promiseStock({ ...promise, projectId: ids.rooks }))
    const idOf = async () => (await open().prisma.stockPromise.findFirstOrThrow({ where: { batchId } })).id
    const before = await idOf()
    granted(await promiseStock({ ...promise, projectId: ids.rooks, strandTenths: 2 * metre }))
    expect(await idOf()).toBe(before)
  })

  it('never promises the last skein twice, however many ask from two clients at once', async () => {
    const batchId = await receive({ wholePutUps: 1 })
    const projects = Array.from({ length: 60 }, () => ({ id: newId(), designId: ids.design, ownerId: ids.shop }))
    await open().prisma.project.createMany({ data: projects })
    const shared = globalThis as { larderDatabase?: unknown }
    const [one, other] = [open(), openAnother()]
    try {
      const asked = projects.map((project, index) => {
        shared.larderDatabase = index % 2 === 0 ? one : other
        return promiseStock({ batchId, projectId: project.id, strandTenths: metre })
      })
      const results = await Promise.all(asked)
      expect(results.filter((result) => result.ok)).toHaveLength(8)
      const kinds = new Set(results.flatMap((result) => (result.ok ? [] : [result.error.kind])))
      expect([...kinds]).toEqual(['not-enough-free'])
    } finally {
      shared.larderDatabase = one
    }
    const sum = await open().prisma.stockPromise.aggregate({ where: { batchId }, _sum: { strandTenths: true } })
    expect(sum._sum.strandTenths).toBe(skein)
    expect((await rowOf(batchId)).version).toBe(8)
  })

  it('is always the sum of its movements, whatever is done in whatever order', async () => {
    const { prisma } = open()
    const places = [ids.drawer, ids.otherDrawer, ids.bag, ids.otherBag]
    const place = fc.constantFrom(...places)
    const step = fc.record({
      verb: fc.constantFrom(
        ...['receive', 'receive', 'use', 'use up', 'move', 'take', 'return', 'correct', 'transfer', 'promise', 'release'],
        ...['split', 'split', 'split', 'merge', 'merge', 'merge', 'pass some on'],
      ),
      pick: fc.nat(50),
      whole: fc.nat(3),
      length: fc.integer({ min: 1, max: skein }),
      place,
      flag: fc.boolean(),
      projectId: fc.constantFrom(ids.rooks, ids.lanterns),
    })
    const steps = fc.sample(step, { seed: 20260907, numRuns: 220 })
    let received = 0
    let doneCount = 0
    const done = new Set<string>()
    for (const { verb, pick, whole, length, place: toPlaceId, flag, projectId } of steps) {
      const { batches } = await readBatches(prisma, { threadId: { in: [threadId, dyedThreadId] } })
      const batch = batches[pick % Math.max(1, batches.length)]
      const heldIn = (some: typeof batches) =>
        some.reduce((sum, { wholePutUps, partStrandTenths }) => sum + wholePutUps * skein + partStrandTenths, 0)
      const before = heldIn(batches)
      let result: { ok: boolean } = { ok: false }
      let change: number | null = 0
      if (verb === 'receive' || !batch) {
        const part = flag ? { partStrandTenths: length, partCertainty: 'guess' as const } : {}
        result = await receiveThread(
          some({ threadId: pick % 2 ? threadId : dyedThreadId, wholePutUps: whole, homePlaceId: toPlaceId, ...part }),
        )
        change = whole * skein + (flag ? length : 0)
        if (result.ok) received++
      } else {
        const batchId = batch.id
        if (verb === 'use') {
          result = await recordUse({ batchId, strandTenths: length, projectId: flag ? projectId : null })
          change = -length
        }
        if (verb === 'use up') {
          result = await recordUse({ batchId, strandTenths: 'all' })
          change = -(batch.wholePutUps * skein + batch.partStrandTenths)
        }
        if (verb === 'split') {
          const home = length % 4 === 0 ? { homePlaceId: toPlaceId } : {}
          result = await splitBatch({ batchId, wholePutUps: whole, takesPart: flag, ...home })
        }
        if (verb === 'merge') {
          const isLike = (one: Batch, other: Batch) =>
            one.id !== other.id && isEqualBatch(one, other) && one.currentPlaceId === other.currentPlaceId
          const merged = batches.find((one) => batches.some((other) => isLike(one, other))) ?? batch
          const into = batches.find((other) => isLike(merged, other)) ?? batch
          result = await mergeBatches({ batchId: merged.id, intoBatchId: into.id })
        }
        if (verb === 'pass some on')
          result = await transferBatch({ batchId, toOwnerId: ids.hanne, parting: { wholePutUps: whole, takesPart: flag } })
        if (verb === 'move') result = await moveBatch({ batchId, toPlaceId, becomesHome: flag })
        if (verb === 'take' && (whole > 0 || flag))
          result = await takeThread({ batchId, wholePutUps: whole, takesPart: flag, toPlaceId, projectId })
        if (verb === 'return') result = await returnBatch({ batchId })
        if (verb === 'transfer') result = await transferBatch({ batchId, toOwnerId: flag ? ids.shop : ids.hanne })
        if (verb === 'promise') result = await promiseStock({ batchId, projectId, strandTenths: length })
        if (verb === 'release') result = await releasePromises({ projectId })
        if (verb === 'correct') {
          const counted = {
            wholePutUps: whole + 2,
            partStrandTenths: length,
            partCertainty: 'measured' as const,
            reason: 'counted',
          }
          result = await correctBatch({ batchId, ...counted })
          change = null
        }
      }
      if (result.ok) {
        doneCount++
        done.add(verb)
      }
      if (change === null) continue
      const after = await readBatches(prisma, { threadId: { in: [threadId, dyedThreadId] } })
      expect(heldIn(after.batches)).toBe(before + (result.ok ? change : 0))
    }
    expect(received).toBeGreaterThan(10)
    expect(doneCount).toBeGreaterThan(80)
    expect([...done]).toEqual(expect.arrayContaining(['split', 'merge', 'pass some on', 'use up']))
    await expectSumsOfMovements()
    const outside = await prisma.batch.findMany({
      where: { goneAt: null },
      select: { homePlaceId: true, currentPlaceId: true, outSince: true },
    })
    for (const batch of outside) {
      const isOut = batch.homePlaceId !== null && batch.homePlaceId !== batch.currentPlaceId
      expect(batch.outSince !== null).toBe(isOut)
    }
  }, 120_000)
})
