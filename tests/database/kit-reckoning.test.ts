import { beforeAll, expect, it } from 'vitest'
import { kitOperations } from '#api/kit-items'
import { problemSchema } from '#api/problem'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addKitItem } from '#lib/db/kit/add-kit-item'
import { editKitItem } from '#lib/db/kit/edit-kit-item'
import { readMasterList } from '#lib/db/kit/master-list'
import { moveKitItem } from '#lib/db/kit/move-kit-item'
import { type Kit, readKit } from '#lib/db/kit/read-kit'
import { removeKitItem } from '#lib/db/kit/remove-kit-item'
import { setKitPrice } from '#lib/db/kit/set-kit-price'
import { newId } from '#lib/db/new-id'
import { addNotion } from '#lib/db/notion/add-notion'
import { findNotion } from '#lib/db/notion/queries'
import { takeNotion } from '#lib/db/notion/take-notion'
import { readBuyList } from '#lib/db/order/read-buy-list'
import { readWants } from '#lib/db/order/read-wants'
import { editProject } from '#lib/db/project/edit-project'
import { readFinishSheet } from '#lib/db/project/finish-sheet'
import { kitProject } from '#lib/db/project/kit-project'
import { promiseAgain } from '#lib/db/project/promise-again'
import { readPullList } from '#lib/db/project/pull-list'
import { abandonProject } from '#lib/db/project/put-kit-back'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { ask } from '#tests/unit/api/ask'
import { POST as itemRoute } from '../../app/api/v1/projects/[projectId]/kit/items/[itemId]/route'
import { POST as itemsRoute } from '../../app/api/v1/projects/[projectId]/kit/items/route'
import { POST as priceRoute } from '../../app/api/v1/projects/[projectId]/kit/price/route'
import { GET as kitRoute } from '../../app/api/v1/projects/[projectId]/kit/route'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, aPlace, aStart, goods, hanneDrewitt, theShop } from './things'

/** Undivided thread: lengths are those of the thread itself. */
const metre = 10_000
const inch = 25_400

// Scenario A6 of the project's trade notes, "Kit of 12 + 1 spare", worked by hand: Seven Lanterns 84 x 84 on 28 over two, 2 in margin.
const key = [
  { code: '0311', maker: 'Larkholm', hundredths: 31, putUp: 8 * metre, putUps: 7, dyed: false },
  { code: '0742', maker: 'Larkholm', hundredths: 15, putUp: 8 * metre, putUps: 3, dyed: false },
  { code: 'Ecru', maker: 'Larkholm', hundredths: 9, putUp: 8 * metre, putUps: 2, dyed: false },
  { code: 'Tarn Blue', maker: 'Oddny Loft', hundredths: 12, putUp: 45_720, putUps: 5, dyed: true },
  { code: '12', maker: 'Quillwater', hundredths: 20, putUp: 50 * metre, putUps: 1, dyed: false },
]

describeOnEachEngine('the reckoning of kits', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), drawer: newId(), chart: newId(), design: newId(), list: newId() }
  const threads = new Map(key.map(({ code }) => [code, newId()]))
  let projectId = ''
  let needles = ''

  const receive = async (code: string, wholePutUps: number, over: object = {}) =>
    granted(
      await receiveThread(
        goods({ threadId: threads.get(code) ?? '', ownerId: ids.shop, wholePutUps, homePlaceId: ids.drawer, ...over }),
      ),
    )
  const kitNow = async (id = projectId): Promise<Kit> => {
    const kit = await readKit(id)
    if (!kit) throw new Error('no kit')
    return kit
  }
  const lineOf = (kit: Kit, line: string) => kit.reckoning.lines.find((one) => one.key === line)
  const threadLine = (kit: Kit, code: string) => lineOf(kit, `thread:${threads.get(code)}`)
  const anItem = { kind: 'needle' as const, name: 'Tapestry needle', perKit: 1, notionId: null, priceMinor: null, note: null }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    for (const maker of ['Larkholm', 'Oddny Loft', 'Quillwater']) {
      const [makerId, lineId] = [newId(), newId()]
      const own = key.filter((thread) => thread.maker === maker)
      const { putUp, dyed } = own[0] as (typeof key)[number]
      await prisma.maker.create({ data: { id: makerId, name: maker, nameKey: maker.toLowerCase() } })
      await prisma.threadLine.create({
        data: {
          ...{ id: lineId, makerId, name: 'pearl', nameKey: 'pearl', strands: 1, putUpStrandTenths: putUp },
          ...(dyed && { putUpWord: 'hank', dyeing: 'overdyed', lotsMatter: true }),
          priceMinor: maker === 'Larkholm' ? 115 : null,
        },
      })
      await prisma.thread.createMany({ data: own.map(({ code }) => ({ id: threads.get(code) ?? '', lineId, code })) })
    }
    const named = { title: 'Seven Lanterns', titleKey: 'seven lanterns' }
    await prisma.chart.create({ data: { id: ids.chart, ...named, ownerId: ids.shop, copies: 12, priceMinor: 550 } })
    await prisma.design.create({
      data: {
        ...{ id: ids.design, chartId: ids.chart, ...named, widthStitches: 84, heightStitches: 84 },
        ...{ advisedThreads: 28, advisedPerUm: inch, advisedOver: 2 },
      },
    })
    const keyed = key.map(({ code, hundredths }) => ({
      ...{ threadId: threads.get(code) ?? '', strands: 1, statedHundredths: hundredths, statedPutUpTenths: 10 * metre },
    }))
    await addKey(open(), { id: ids.list, designId: ids.design, name: 'As charted', keyed })
    needles = granted(
      await addNotion({
        ...{ ownerId: ids.shop, kind: 'needle', name: 'Tapestry needles', size: 'size 24', minimum: null, packOf: 6 },
        ...{ priceMinor: 20, note: null, count: 0, placeLabel: 'Drawer N1' },
      }),
    ).id
    const start = { designId: ids.design, threadListId: ids.list, ownerId: ids.shop, quantity: 13, spares: 1 }
    projectId = granted(await startProject(aStart(start))).projectId
    const { version } = await prisma.project.findUniqueOrThrow({ where: { id: projectId } })
    granted(
      await editProject({
        ...{ projectId, version, threadListId: ids.list, clothPieceId: null, over: null, quantity: 13 },
        ...{ forWhom: null, dueOn: null, finishing: 'ornament', note: null, hoursTenths: 0, stitchesDone: 0 },
      }),
    )
    granted(await addKitItem({ projectId, ...anItem, notionId: needles }))
  })

  it('takes 7, 3, 2, 5 of one lot and 1 put-ups, 31.5 in of cloth, 3 packs of needles and 12 charts', async () => {
    const kit = await kitNow()
    expect(kit.reckoning).toMatchObject({ copies: 13, spares: 1, makeable: 0 })
    for (const { code, putUps, dyed } of key) {
      expect(threadLine(kit, code)).toMatchObject({ putUpsForAll: putUps, toBuy: { kind: 'thread', putUps } })
      expect(kit.masterList.lines.find((line) => line.key === `thread:${threads.get(code)}`)?.needsOneLot).toBe(dyed)
    }
    expect(kit.cloth?.cutSize).toMatchObject({ widthUm: 10 * inch, heightUm: 10 * inch })
    expect(lineOf(kit, 'cloth')).toMatchObject({
      toBuy: { pieces: 13, lengthUm: 31.5 * inch },
      boltForAll: { best: { gives: 15 } },
    })
    expect(lineOf(kit, 'chart')).toMatchObject({ wanted: 12, copies: 12, toBuy: null })
    const needle = kit.reckoning.lines.find(({ kind }) => kind === 'item')
    expect(needle).toMatchObject({ wanted: 13, packsForAll: 3, toBuy: { count: 13, packs: 3 } })
    // 28 over two is 14 to the inch: size 24, trade notes 3.4.
    // None is there, so the notions say what to buy for the kits.
    expect(await findNotion(needles)).toMatchObject({ count: 0, minimum: null, forKits: 13 })
    expect(kit.proposals).toEqual({ needle: { coarsest: 24, finest: 24 }, needleNotionId: needles, beads: 0 })
  })

  it('is bought by cuts, not by length: seven skeins of 0311, where 40.3 m would be six', async () => {
    const answers = await getAnswers()
    const wants = await readWants(answers, { designIds: [], listIds: [], projectIds: [projectId], ownerIds: [ids.shop] })
    const rows = await readBuyList(
      answers,
      wants.map(({ want }) => want),
      [ids.shop],
    )
    expect(new Map(rows.map(({ thread, line }) => [thread.code, line.putUps]))).toEqual(
      new Map(key.map(({ code, putUps }) => [code, putUps])),
    )
  })

  it('gives the master list of a kit, the chart not in spares', async () => {
    const list = await readMasterList(projectId)
    expect(list).toMatchObject({ title: 'Seven Lanterns', copies: 13, spares: 1 })
    expect(list?.lines.map(({ kind, isInSpares }) => [kind, isInSpares])).toEqual([
      ...key.map(() => ['thread', true]),
      ['cloth', true],
      ['chart', false],
      ['item', true],
    ])
    expect(list?.lines[0]).toMatchObject({ code: '0311', perKit: { strandTenths: 3.1 * metre } })
    expect(list?.lines[5]).toMatchObject({ countLabel: '28', perKit: { widthUm: 10 * inch, heightUm: 10 * inch } })
    expect(await readMasterList('none')).toBeNull()
  })

  it('names what stops the thirteenth once all else is there', async () => {
    for (const { code, putUps } of key) await receive(code, code === '0311' ? putUps - 1 : putUps, { lot: '18' })
    const { prisma } = open()
    await prisma.clothPiece.create({
      data: {
        ...{ id: newId(), ownerId: ids.shop, name: 'Marl linen', weave: 'single', widthUm: 54 * inch, heightUm: 31 * inch },
        ...{ endsThreads: 28, endsPerUm: inch, picksThreads: 28, picksPerUm: inch, isSquared: true },
      },
    })
    await prisma.notion.update({ where: { id: needles }, data: { count: 18 } })
    const kit = await kitNow()
    expect(kit.reckoning).toMatchObject({
      makeable: 12,
      stops: [{ key: `thread:${threads.get('0311')}`, toBuy: { kind: 'thread', putUps: 1 } }],
    })
    expect(lineOf(kit, 'cloth')).toMatchObject({ cut: 0, kept: 0, free: 13 })
    expect(kit.hasMoreToReserve).toBe(true)
    expect(kit.items[0]?.have).toEqual({ taken: 0, reserved: 13, free: 5 })
    expect(threadLine(kit, 'Tarn Blue')).toMatchObject({ lot: '18', kits: 15 })
  })

  it('counts what is promised and in the bag as there, and says how far it is', async () => {
    granted(await promiseAgain({ projectId }))
    expect((await kitNow()).progress.done).toMatchObject({ reserved: 12, pulled: 0 })
    granted(await kitProject({ projectId, bagLabel: 'K-31', takesChart: false }))
    const pulled = await kitNow()
    expect(pulled.progress.done).toMatchObject({ reserved: 12, pulled: 12, cut: 0, packed: 0 })
    expect(pulled.reckoning.makeable).toBe(12)
    await receive('0311', 1, { lot: '22' })
    expect((await kitNow()).reckoning).toMatchObject({ makeable: 13, stops: [] })
  })

  it('wants no more thread for kits that have their cut: not to pull, to promise, to buy or to use up', async () => {
    const { prisma } = open()
    const threadId = threads.get('Ecru') ?? ''
    const batch = await prisma.batch.findFirstOrThrow({ where: { threadId, goneAt: null } })
    const lot = { id: newId(), projectId, threadId, batchId: batch.id, lot: '18', fromBag: 1, toBag: 9, at: new Date() }
    await prisma.kitLot.create({ data: lot })
    const line = threadLine(await kitNow(), 'Ecru')
    // Two skeins of eight cuts are there yet, beside the nine.
    expect(line).toMatchObject({ cut: 9, kits: 9 + 16, toBuy: null, putUpsForAll: 2 })
    await prisma.batch.update({ where: { id: batch.id }, data: { goneAt: new Date() } })
    expect(threadLine(await kitNow(), 'Ecru')).toMatchObject({ cut: 9, kits: 9, toBuy: { kind: 'thread', putUps: 1 } })
    const standing = (await readPullList(projectId))?.threads.find(({ thread }) => thread.id === threadId)
    expect(standing?.kits).toMatchObject({ copies: 13, promised: 9 })
    // Four cuts of 0.9 m are left to be used of all thirteen.
    const sheet = await readFinishSheet(projectId)
    expect(sheet?.threads.find(({ thread }) => thread.id === threadId)?.needStrandTenths).toBe(4 * 0.9 * metre)
    await prisma.batch.update({ where: { id: batch.id }, data: { goneAt: null } })
    await prisma.kitLot.delete({ where: { id: lot.id } })
  })

  it('does not give needles and charts twice: a later batch has what the first leaves', async () => {
    const start = { designId: ids.design, threadListId: ids.list, ownerId: ids.shop, quantity: 6 }
    const later = granted(await startProject(aStart(start))).projectId
    granted(await addKitItem({ projectId: later, ...anItem, notionId: needles }))
    const kit = await kitNow(later)
    expect(kit.items[0]?.have).toEqual({ taken: 0, reserved: 5, free: 0 })
    expect(kit.chart).toMatchObject({ onRecord: 12, elsewhere: 12, copies: 0 })
    expect(lineOf(kit, 'chart')).toMatchObject({ kits: 0, toBuy: { copies: 6 } })

    // Taken for the first, some of them out of what was reserved for it: nothing changes for the other.
    const held = await open().prisma.notion.findUniqueOrThrow({ where: { id: needles } })
    granted(await takeNotion({ id: needles, version: held.version, projectId, many: 10 }))
    expect((await kitNow()).items[0]?.have).toEqual({ taken: 10, reserved: 3, free: 0 })
    expect((await kitNow(later)).items[0]?.have).toEqual({ taken: 0, reserved: 5, free: 0 })
    granted(await abandonProject({ projectId: later }))
    expect((await kitNow()).items[0]?.have).toEqual({ taken: 10, reserved: 3, free: 5 })
  })

  it('wants a chart for the spare once it is sold, and counts those in closed kits as theirs', async () => {
    const { prisma } = open()
    const bag = (number: number, status: string, isSpare = false) => ({ id: newId(), projectId, number, status, isSpare })
    await prisma.kitBag.createMany({ data: [bag(1, 'sealed'), bag(2, 'packed'), bag(13, 'sold', true)] })
    await prisma.chart.update({ where: { id: ids.chart }, data: { copies: 10 } })
    const kit = await kitNow()
    expect(kit.reckoning.soldSpares).toBe(1)
    expect(kit.chart).toMatchObject({ packed: 2, copies: 12 })
    expect(lineOf(kit, 'chart')).toMatchObject({ wanted: 13, kits: 12, toBuy: { copies: 1 } })
    expect(kit.progress.done).toMatchObject({ packed: 3, checked: 2, sealed: 2 })
    // Ten are with the project, and three bags have theirs.
    expect(kit.items[0]?.have).toMatchObject({ taken: 10, reserved: 0 })

    const item = kit.items[0]?.id ?? ''
    expect(await removeKitItem({ projectId, itemId: item })).toMatchObject({ ok: false, error: { kind: 'bags-packed', bags: 3 } })
    expect(await addKitItem({ projectId, ...anItem })).toMatchObject({ ok: false, error: { kind: 'bags-packed' } })
    const { id: itemId, notion: _, have: __, ...said } = kit.items[0] as Kit['items'][number]
    expect(await editKitItem({ projectId, itemId, ...said, perKit: 2 })).toMatchObject({ ok: false })
    granted(await editKitItem({ projectId, itemId, ...said, note: 'blunt' }))
    await prisma.kitBag.deleteMany({ where: { projectId } })
    await prisma.chart.update({ where: { id: ids.chart }, data: { copies: 12 } })
  })

  it('costs a kit by the length cut, and names what has no price', async () => {
    granted(await setKitPrice({ projectId, priceMinor: 2_450 }))
    const { cost } = await kitNow()
    // 115 × 3.1 / 8, × 1.5 / 8 and × 0.9 / 8 = 45, 22 and 13; the chart 550, a needle 20.
    expect(cost).toMatchObject({ perKitMinor: 45 + 22 + 13 + 550 + 20, priceMinor: 2_450, marginMinor: 1_800 })
    expect(cost.unknown).toEqual([`thread:${threads.get('Tarn Blue')}`, `thread:${threads.get('12')}`, 'cloth'])
    // Seven skeins are 805, of which 40.3 m are used: 579.
    expect(cost.lines[0]).toMatchObject({ forAllMinor: 579, leftOverMinor: 226 })
    expect(cost.lines.find(({ key: line }) => line === 'chart')?.forAllMinor).toBe(12 * 550)
  })

  it('keeps its list in order, and refuses what is not there or another’s', async () => {
    const { itemId } = granted(await addKitItem({ projectId, ...anItem, kind: 'sheet', name: 'Class sheet' }))
    granted(await moveKitItem({ projectId, itemId, to: 'up' }))
    granted(await moveKitItem({ projectId, itemId, to: 'up' }))
    expect((await kitNow()).items.map(({ name }) => name)).toEqual(['Class sheet', 'Tapestry needle'])
    expect((await kitNow()).reckoning.unknown).toEqual([`item:${itemId}`])
    const hers = granted(
      await addNotion({
        ...{ ownerId: ids.hanne, kind: 'beads', name: 'Seed beads', size: null, minimum: null, packOf: null },
        ...{ priceMinor: null, note: null, count: 90, placeLabel: null },
      }),
    ).id
    expect(await addKitItem({ projectId, ...anItem, notionId: hers })).toMatchObject({ error: { kind: 'other-owner' } })
    expect(await addKitItem({ projectId, ...anItem, notionId: 'none' })).toMatchObject({ error: { kind: 'no-such-notion' } })
    expect(await addKitItem({ projectId, version: 0, ...anItem })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await removeKitItem({ projectId, itemId }))
    expect(await removeKitItem({ projectId, itemId })).toMatchObject({ error: { kind: 'no-such-item' } })
  })

  it('is answered by the API', async () => {
    const parts = { projectId }
    const got = kitOperations.get.answer.parse((await ask(kitRoute, { parts })).body)
    expect(got).toMatchObject({ copies: 13, makeable: 13, cost: { priceMinor: 2_450 } })
    expect(got.lines.map(({ kind }) => kind)).toEqual([...key.map(() => 'thread'), 'cloth', 'chart', 'item'])
    expect((await ask(kitRoute, { parts: { projectId: 'none' } })).status).toBe(404)

    const body = { kind: 'finding', name: 'Brass ring', perKit: 2 }
    const added = kitOperations.addItem.answer.parse((await ask(itemsRoute, { parts, body })).body)
    const ring = added.lines.find((line) => line.kind === 'item' && line.name === 'Brass ring')
    const itemId = ring?.kind === 'item' ? ring.itemId : ''
    const changed = await ask(itemRoute, { parts: { projectId, itemId }, body: { priceMinor: 35 } })
    expect(
      kitOperations.changeItem.answer.parse(changed.body).lines.find(({ key: line }) => line === `item:${itemId}`),
    ).toMatchObject({
      ...{ perKit: 2, priceMinor: 35, kits: null },
    })
    const refused = await ask(itemRoute, { parts: { projectId, itemId }, body: { version: 0, perKit: 3 } })
    expect(problemSchema.parse(refused.body)).toMatchObject({ status: 409 })
    const priced = await ask(priceRoute, { parts, body: { priceMinor: null } })
    expect(kitOperations.setPrice.answer.parse(priced.body).cost.priceMinor).toBeNull()
  })

  it('refuses to start with nothing but spares, and keeps spares through an edit', async () => {
    const start = { designId: ids.design, threadListId: ids.list, ownerId: ids.shop }
    await expect(startProject(aStart({ ...start, quantity: 1, spares: 1 }))).rejects.toThrow(RangeError)
    const row = await open().prisma.project.findUniqueOrThrow({ where: { id: projectId } })
    expect([row.quantity, row.spares]).toEqual([13, 1])
  })
})
