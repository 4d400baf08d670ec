import { beforeAll, beforeEach, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { readBatchChoices } from '#lib/db/project/batch-choices'
import { kitProject } from '#lib/db/project/kit-project'
import { promiseAgain } from '#lib/db/project/promise-again'
import { readPullList } from '#lib/db/project/pull-list'
import { setProjectSwap } from '#lib/db/project/set-project-swap'
import { startProject } from '#lib/db/project/start-project'
import { readSwapChoices } from '#lib/db/project/swap-choices'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { releasePromises } from '#lib/db/stock/release-promises'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, addLarkholm, aPlace, aStart, hanneDrewitt, theShop } from './things'

/** Undivided thread, 8 m a skein. */
const metre = 10_000
const skein = 8 * metre

describeOnEachEngine('promises and what breaks and mends them', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), line: newId(), chart: newId(), design: newId(), drawer: newId() }
  let threadIds: string[] = []
  let listId = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    const makerId = await addLarkholm(open())
    const line = { id: ids.line, makerId, name: 'pearl', nameKey: 'pearl', strands: 1, putUpStrandTenths: skein }
    await prisma.threadLine.create({ data: line })
    await addCharted(open(), { ownerId: ids.shop, title: 'Seven Lanterns', chartId: ids.chart, designId: ids.design })
  })

  /** Each test has two charted threads of its own and two that could stand in. */
  beforeEach(async () => {
    const { prisma } = open()
    threadIds = Array.from({ length: 4 }, newId)
    await prisma.thread.createMany({ data: threadIds.map((id, at) => ({ id, lineId: ids.line, code: `${id} 120${at}` })) })
    listId = newId()
    // 3.1 m and 4 m: a fraction of a put-up is taken as it stands.
    const keyed = [31, 40].map((statedHundredths, at) => ({
      ...{ threadId: thread(at), strands: 1, statedHundredths, statedPutUpTenths: 10 * metre },
    }))
    await addKey(open(), { id: listId, designId: ids.design, name: listId, keyed })
  })

  const thread = (at: number) => threadIds[at] as string
  const receive = async (at: number, wholePutUps: number, part = 0) =>
    granted(
      await receiveThread({
        ...{ threadId: thread(at), ownerId: ids.shop, lot: newId(), wholePutUps, homePlaceId: ids.drawer },
        ...{ partStrandTenths: part, partCertainty: part > 0 ? ('measured' as const) : ('none' as const) },
      }),
    ).batchId
  const start = async (quantity = 1) =>
    granted(await startProject(aStart({ designId: ids.design, threadListId: listId, ownerId: ids.shop, quantity })))
  const promisesOf = (projectId: string) =>
    open().prisma.stockPromise.findMany({
      where: { projectId },
      select: { batchId: true, strandTenths: true },
      orderBy: [{ strandTenths: 'desc' }, { batchId: 'asc' }],
    })

  it('a kit’s thread is cut without a join: whole put-ups as cuts are, and short parts left where they are', async () => {
    // A6: 3.1 m from 8 m is two a skein, so 13 kits want seven skeins, though 40.3 m is but six.
    await receive(0, 0, 3 * metre)
    const six = await receive(0, 6, 2 * metre)
    await receive(1, 7)
    const { projectId, short } = await start(13)
    expect(short).toEqual([{ threadId: thread(0), shortStrandTenths: 31_000 }])
    expect((await promisesOf(projectId)).find(({ batchId }) => batchId === six)?.strandTenths).toBe(5 * skein + 62_000)
    const standing = (await readPullList(projectId))?.threads.find((row) => row.thread.id === thread(0))
    expect(standing?.kits).toEqual({ copies: 13, promised: 12, more: 0 })

    await receive(0, 1)
    const again = granted(await promiseAgain({ projectId }))
    expect(again.short).toEqual([])
    const pull = (await readPullList(projectId))?.lines.find((line) => line.batch.id === six)
    expect(pull?.pull).toEqual({ wholePutUps: 6, takesPart: false })
    granted(await kitProject({ projectId, bagLabel: `K-${projectId}`, takesChart: false }))
    expect(await open().prisma.batch.findUniqueOrThrow({ where: { id: six } })).toMatchObject({
      wholePutUps: 0,
      partStrandTenths: 2 * metre,
    })
    expect((await readPullList(projectId))?.threads.map((row) => row.kits?.promised)).toEqual([13, 13])
  })

  it('a promise that stock no longer supports is named at once, the younger one, and promising again mends it', async () => {
    const batchId = await receive(1, 1)
    const [older, younger] = [await start(), await start()]
    const listFor = (asked: Parameters<typeof listBrokenPromises>[0]) => listBrokenPromises(asked)
    expect(await listFor({ threadId: thread(1) })).toEqual([])
    const counted = { partStrandTenths: 5 * metre, partCertainty: 'measured' as const, reason: 'counted' }
    granted(await correctBatch({ batchId, wholePutUps: 0, ...counted }))
    const broken = await listFor({ threadId: thread(1) })
    expect(broken).toMatchObject([
      {
        ...{ projectId: younger.projectId, batchId, promisedStrandTenths: 4 * metre, supportedStrandTenths: metre },
        ...{ why: 'not-enough', project: { title: 'Seven Lanterns' }, thread: { id: thread(1), makerName: 'Larkholm' } },
      },
    ])
    expect(await listFor({ projectId: older.projectId })).toEqual([])
    expect(await listFor({ designId: ids.design, ownerIds: [ids.shop] })).toEqual(broken)
    expect(await listFor({ ownerIds: [ids.hanne] })).toEqual([])
    const line = (await readPullList(younger.projectId))?.lines[0]
    expect(line?.broken).toMatchObject({ supportedStrandTenths: metre, why: 'not-enough' })
    const standing = (await readPullList(younger.projectId))?.threads.find((row) => row.thread.id === thread(1))
    expect(standing).toMatchObject({ needStrandTenths: 4 * metre, promisedStrandTenths: metre })

    // Whoever is supported may promise again and lose nothing by it.
    granted(await promiseAgain({ projectId: older.projectId }))
    expect(await promisesOf(older.projectId)).toEqual([{ batchId, strandTenths: 4 * metre }])
    const more = await receive(1, 1)
    granted(await promiseAgain({ projectId: younger.projectId }))
    expect(await promisesOf(younger.projectId)).toEqual([{ batchId: more, strandTenths: 4 * metre }])
    expect(await listFor({ threadId: thread(1) })).toEqual([])
  })

  it('mends also what is kitted: what holds stays, what does not falls away', async () => {
    const [untouched, inBag] = [await receive(0, 1), await receive(1, 1)]
    const { projectId } = await start()
    granted(await kitProject({ projectId, bagLabel: `K-${projectId}`, takesChart: false }))
    const counted = { wholePutUps: 0, partStrandTenths: metre, partCertainty: 'measured' as const, reason: 'lost' }
    granted(await correctBatch({ batchId: inBag, ...counted }))
    expect(await listBrokenPromises({ projectId })).toMatchObject([{ batchId: inBag, supportedStrandTenths: metre }])
    const more = await receive(1, 1)
    expect(granted(await promiseAgain({ projectId })).short).toEqual([])
    expect(await promisesOf(projectId)).toEqual([
      { batchId: untouched, strandTenths: 31_000 },
      { batchId: more, strandTenths: 3 * metre },
      { batchId: inBag, strandTenths: metre },
    ])
    expect(await listBrokenPromises({ projectId })).toEqual([])
  })

  it('is broken where the batch is gone or another owner’s, and mended from other stock', async () => {
    const [gone, passed] = [await receive(0, 1), await receive(1, 1)]
    const { projectId } = await start()
    const { prisma } = open()
    await prisma.batch.update({ where: { id: gone }, data: { goneAt: new Date() } })
    await prisma.batch.update({ where: { id: passed }, data: { ownerId: ids.hanne } })
    const broken = await listBrokenPromises({ projectId })
    expect(new Map(broken.map(({ batchId, why }) => [batchId, why]))).toEqual(
      new Map([
        [gone, 'gone'],
        [passed, 'other-owner'],
      ]),
    )
    expect(granted(await promiseAgain({ projectId })).short).toHaveLength(2)
    expect(await promisesOf(projectId)).toEqual([])
    expect(await listBrokenPromises({ projectId })).toEqual([])
  })

  it('one colour is worked in another thread, and its promises follow', async () => {
    const { prisma } = open()
    await receive(0, 1)
    await receive(1, 1)
    const standIn = await receive(2, 1)
    const accepted = { threadId: thread(0), standInThreadId: thread(2), source: 'by daylight' }
    await prisma.standIn.create({ data: { id: newId(), ...accepted } })
    const { projectId } = await start()
    const swap = { projectId, threadId: thread(0), standInThreadId: thread(2), reason: 'softer beside the grey' }
    const stale = await setProjectSwap({ ...swap, version: 99 })
    expect(stale).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    expect(await setProjectSwap({ ...swap, threadId: thread(3) })).toMatchObject({ error: { kind: 'not-in-key' } })
    expect(await setProjectSwap({ ...swap, standInThreadId: thread(0) })).toMatchObject({ error: { kind: 'stands-for-itself' } })
    expect(await setProjectSwap({ ...swap, standInThreadId: newId() })).toMatchObject({ error: { kind: 'no-such-thread' } })
    expect(await setProjectSwap({ ...swap, standInThreadId: thread(1) })).toMatchObject({
      error: { kind: 'would-merge', otherThreadId: thread(1) },
    })
    expect(granted(await setProjectSwap(swap)).short).toEqual([])
    const standing = async () =>
      (await readPullList(projectId))?.threads.map((row) => [row.thread.id, row.insteadOf.map(({ id }) => id)])
    expect(await standing()).toEqual([
      [thread(2), [thread(0)]],
      [thread(1), []],
    ])
    expect((await promisesOf(projectId)).find(({ batchId }) => batchId === standIn)?.strandTenths).toBe(31_000)
    expect(await readSwapChoices(projectId)).toMatchObject([
      { charted: { id: thread(0) }, worked: { id: thread(2) }, reason: swap.reason, standIns: [{ source: 'by daylight' }] },
      { charted: { id: thread(1) }, worked: null, standIns: [] },
    ])

    granted(await kitProject({ projectId, bagLabel: `K-${projectId}`, takesChart: false }))
    expect(await setProjectSwap({ ...swap, standInThreadId: null })).toMatchObject({
      error: { kind: 'in-the-bag', threadId: thread(2) },
    })
    await prisma.project.update({ where: { id: projectId }, data: { status: 'abandoned' } })
    expect(await setProjectSwap({ ...swap, standInThreadId: null })).toMatchObject({ error: { kind: 'project-closed' } })
  })

  it('a colour is worked as charted again while it is planned; two may become one when that is said', async () => {
    const [charted, other] = [await receive(0, 1), await receive(1, 1)]
    await receive(2, 1)
    const { projectId } = await start()
    const swap = { projectId, threadId: thread(0) }
    granted(await setProjectSwap({ ...swap, standInThreadId: thread(2) }))
    granted(await setProjectSwap({ ...swap, standInThreadId: null }))
    expect((await promisesOf(projectId)).map(({ batchId }) => batchId).sort()).toEqual([charted, other].sort())
    granted(await setProjectSwap({ ...swap, standInThreadId: thread(1), mayMerge: true }))
    expect(await promisesOf(projectId)).toEqual([{ batchId: other, strandTenths: 71_000 }])
  })

  it('exact batches are promised and given back by hand', async () => {
    const [one, two] = [await receive(1, 1), await receive(1, 2)]
    const { projectId } = await start()
    const choices = await readBatchChoices(projectId, thread(1))
    expect(choices).toMatchObject({ isOpen: true, needStrandTenths: 4 * metre, promisedStrandTenths: 4 * metre })
    expect(choices?.batches.map(({ batch, promisedStrandTenths }) => [batch.id, promisedStrandTenths])).toEqual([
      [one, 4 * metre],
      [two, 0],
    ])
    granted(await releasePromises({ projectId, batchId: one }))
    const version = choices?.batches.find(({ batch }) => batch.id === two)?.version
    granted(await promiseStock({ projectId, batchId: two, version, strandTenths: 4 * metre }))
    expect(await promisesOf(projectId)).toEqual([{ batchId: two, strandTenths: 4 * metre }])
    expect(await readBatchChoices(newId(), thread(1))).toBeNull()
  })
})
