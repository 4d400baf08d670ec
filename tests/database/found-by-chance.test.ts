import { beforeAll, expect, it } from 'vitest'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { removeCloth } from '#lib/db/cloth/remove-cloth'
import { lendThings } from '#lib/db/loan/lend'
import { reportNow } from '#lib/db/missing/report-now'
import { newId } from '#lib/db/new-id'
import { addNotion } from '#lib/db/notion/add-notion'
import { takeNotion } from '#lib/db/notion/take-notion'
import { abandonProject } from '#lib/db/project/put-kit-back'
import { mergeBatches } from '#lib/db/stock/merge-batches'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { returnBatch } from '#lib/db/stock/return-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { unpackBag } from '#lib/db/unpack/unpack-bag'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addLarkholm, aPlace, goods, skein, theShop } from './things'

// What the random days (random-days.test.ts) found, each by itself.
describeOnEachEngine('what chance found', ({ open }) => {
  const ids = { shop: newId(), drawer: newId(), other: newId(), bag: newId(), ines: newId(), thread: newId(), design: newId() }
  let lots = 0

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.createMany({
      data: [
        aPlace(ids.drawer, 'T2.1', 'drawer'),
        aPlace(ids.other, 'T2.2', 'drawer'),
        aPlace(ids.bag, 'K-07', 'bag'),
        aPlace(ids.ines, 'Ines Coldwell', 'person'),
      ],
    })
    const [lineId, makerId] = [newId(), await addLarkholm(open())]
    const line = { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein }
    await prisma.threadLine.create({ data: line })
    await prisma.thread.create({ data: { id: ids.thread, lineId, code: '0311' } })
    await addCharted(open(), { ownerId: ids.shop, title: 'Seven Lanterns', designId: ids.design })
  })

  async function receive(wholePutUps: number) {
    const lot = `${++lots}`
    const received = { threadId: ids.thread, ownerId: ids.shop, lot, wholePutUps, homePlaceId: ids.drawer }
    return granted(await receiveThread(goods(received))).batchId
  }
  async function lend(thing: Parameters<typeof lendThings>[0]['things'][number]) {
    const lent = await lendThings({
      ...{ withLabel: 'Ines Coldwell', withKind: 'person', ownerId: ids.shop, reason: 'a model', fromOn: '2026-09-01' },
      ...{ dueOn: '2026-10-01', note: null, things: [thing] },
    })
    return granted(lent).loanId
  }
  const loanOf = (id: string) =>
    open().prisma.loan.findUniqueOrThrow({ where: { id }, include: { lines: { orderBy: { position: 'asc' } } } })
  async function aProject() {
    const id = newId()
    await open().prisma.project.create({ data: { id, designId: ids.design, ownerId: ids.shop, placeId: ids.bag } })
    return id
  }

  it('a skein taken back from who had it by hand is on no loan any more, wherever it was laid', async () => {
    const batchId = await receive(1)
    const loanId = await lend({ noun: 'batch', id: batchId, wholePutUps: 1, takesPart: false })
    granted(await takeThread({ batchId, wholePutUps: 1, takesPart: false, toPlaceId: ids.other }))
    expect((await loanOf(loanId)).closedOn).not.toBeNull()
    granted(await returnBatch({ batchId }))
    expect((await loanOf(loanId)).lines[0]?.backOn).not.toBeNull()
  })

  it('a skein they cannot find is still theirs to bring', async () => {
    const batchId = await receive(1)
    const loanId = await lend({ noun: 'batch', id: batchId, wholePutUps: 1, takesPart: false })
    granted(await reportNow({ batchId, wholePutUps: 1, takesPart: false, lastSeenPlaceId: null }))
    expect(await loanOf(loanId)).toMatchObject({ closedOn: null, lines: [{ backOn: null }] })
  })

  it('two lent rows laid together at their place come back as one', async () => {
    const batchId = await receive(4)
    const thing = { noun: 'batch' as const, id: batchId, wholePutUps: 1, takesPart: false }
    const [first, second] = [await lend(thing), await lend(thing)]
    const [one, two] = [(await loanOf(first)).lines[0]?.batchId ?? '', (await loanOf(second)).lines[0]?.batchId ?? '']
    granted(await mergeBatches({ batchId: one, intoBatchId: two }))
    expect((await loanOf(first)).lines).toMatchObject([{ batchId: two, backOn: null }])
    granted(await returnBatch({ batchId: two }))
    for (const loanId of [first, second]) expect((await loanOf(loanId)).closedOn).not.toBeNull()
    expect(await open().prisma.batch.findUniqueOrThrow({ where: { id: batchId } })).toMatchObject({ wholePutUps: 4 })
  })

  it('nobody is asked for a piece of cloth that is held no more', async () => {
    const card = {
      ...{ label: null, makerName: null, name: 'linen', colourName: null, lab: null, weave: 'single' as const },
      ...{ ends: { threads: 28, perUm: 25_400 }, picks: { threads: 28, perUm: 25_400 }, widthUm: 400_000, heightUm: 300_000 },
      ...{ countCertainty: 'label' as const, isSquared: true, sizeCertainty: 'measured' as const, isTurnable: true },
      ...{ oneWayBecause: null, dyeing: null, washState: 'new' as const, washedOn: null, note: null },
    }
    const { id } = granted(await addCloth({ ...card, ownerId: ids.shop, placeLabel: 'T2.2' }))
    const loanId = await lend({ noun: 'cloth', id })
    const { version } = await open().prisma.clothPiece.findUniqueOrThrow({ where: { id } })
    granted(await removeCloth({ id, version, ending: 'lost', note: null }))
    expect((await loanOf(loanId)).lines).toMatchObject([{ backNote: 'no longer held' }])
    expect((await loanOf(loanId)).closedOn).not.toBeNull()
  })

  it('a project given up is promised nothing, not even what is looked for in vain', async () => {
    const [batchId, projectId] = [await receive(1), await aProject()]
    granted(await promiseStock({ batchId, projectId, strandTenths: skein }))
    granted(await reportNow({ batchId, wholePutUps: 1, takesPart: false, projectId, lastSeenPlaceId: null }))
    granted(await abandonProject({ projectId }))
    expect(await open().prisma.stockPromise.count({ where: { projectId } })).toBe(0)
  })

  it('what is on one list to be put back is not put on a second', async () => {
    const projectId = await aProject()
    const card = { kind: 'hoop' as const, name: 'Hoop', size: null, minimum: null, packOf: null, priceMinor: null, note: null }
    const { id } = granted(await addNotion({ ...card, ownerId: ids.shop, count: 1, placeLabel: 'T2.2' }))
    granted(await takeNotion({ id, version: 0, projectId, many: 1 }))
    granted(await unpackBag({ placeId: ids.bag, threads: [], notions: [{ id, outcome: 'back' }], title: 'Put back from K-07' }))
    granted(await abandonProject({ projectId, putBack: 'list' }))
    expect(await open().prisma.walkLine.count({ where: { notionId: id } })).toBe(1)
  })
})
