import { beforeAll, expect, it } from 'vitest'
import { getDesignKits } from '#api/kits'
import { problemSchema } from '#api/problem'
import { askWhatIfOperation } from '#api/what-if'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { countDesignKits, listKitBatches } from '#lib/db/coverage/design-kits'
import { askWhatIf, listBags } from '#lib/db/coverage/what-if'
import { newId } from '#lib/db/new-id'
import { kitProject } from '#lib/db/project/kit-project'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { ask } from '#tests/unit/api/ask'
import { GET as kitsRoute } from '../../app/api/v1/designs/[designId]/kits/route'
import { POST as whatIfRoute } from '../../app/api/v1/what-if/route'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, aPlace, aStart, goods, hanneDrewitt, theShop } from './things'

/** Undivided thread: 8 m a skein of the solid, 5 yd a hank of the hand-dyed. */
const metre = 10_000
const skein = 8 * metre
const hank = 45_720

describeOnEachEngine('kits and what if', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), drawer: newId() }
  const threads = { '0311': newId(), '0905': newId(), 'Tarn Blue': newId(), 'Staithe Grey': newId() }
  const designs = { lanterns: newId(), barge: newId(), jugs: newId() }

  const receive = async (code: keyof typeof threads, wholePutUps: number, over: object = {}) =>
    granted(
      await receiveThread(goods({ threadId: threads[code], ownerId: ids.shop, wholePutUps, homePlaceId: ids.drawer, ...over })),
    )

  /** A chart of two copies with one design, whose key states lengths in hundredths of 10 m. */
  async function addDesign(id: string, title: string, key: [keyof typeof threads, number][]) {
    const { prisma } = open()
    const chartId = newId()
    const named = { title, titleKey: title.toLowerCase() }
    await prisma.chart.create({ data: { id: chartId, ...named, ownerId: ids.shop, copies: 2 } })
    await prisma.design.create({ data: { id, chartId, ...named } })
    const keyed = key.map(([code, statedHundredths]) => ({
      ...{ threadId: threads[code], strands: 1, statedHundredths, statedPutUpTenths: 10 * metre },
    }))
    await addKey(open(), { id: newId(), designId: id, name: 'As charted', keyed })
  }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    for (const [makerName, name, over, codes] of [
      ['Larkholm', 'pearl', { putUpStrandTenths: skein }, ['0311', '0905']],
      [
        'Oddny Loft',
        'pearl',
        { putUpStrandTenths: hank, putUpWord: 'hank', dyeing: 'overdyed', lotsMatter: true },
        ['Tarn Blue', 'Staithe Grey'],
      ],
    ] as const) {
      const [makerId, lineId] = [newId(), newId()]
      await prisma.maker.create({ data: { id: makerId, name: makerName, nameKey: makerName.toLowerCase() } })
      await prisma.threadLine.create({ data: { id: lineId, makerId, name, nameKey: name, strands: 1, ...over } })
      await prisma.thread.createMany({ data: codes.map((code) => ({ id: threads[code], lineId, code })) })
    }
    // Cuts of 3.1 m and 1.2 m, as in scenario A6.
    await addDesign(designs.lanterns, 'Seven Lanterns', [
      ['0311', 31],
      ['Tarn Blue', 12],
    ])
    await addDesign(designs.barge, 'Little Barge', [['0905', 40]])
    await addDesign(designs.jugs, 'Three Jugs', [['Staithe Grey', 50]])
    await receive('0311', 3, { lot: '4' })
    await receive('0311', 1, { lot: '5', partStrandTenths: 35_000, partCertainty: 'measured' })
    await receive('Tarn Blue', 2, { lot: '18' })
    await receive('Tarn Blue', 1, { lot: '22' })
    await receive('Tarn Blue', 4, { lot: '22', ownerId: ids.hanne })
    await receive('Staithe Grey', 1, { lot: '18' })
  })

  const countFor = async (ownerIds: string[], kits: number, spares: number | null) => {
    const [answers, detail] = [await getAnswers(), await findDesign(designs.lanterns)]
    const covered = detail && coverageOfDesign(answers, detail, { ownerIds })?.lists[0]
    if (!detail || !covered) throw new Error('no list')
    return countDesignKits(answers, { covered, chart: detail.chart }, { ownerIds, kits, spares })
  }
  const rowsNow = async () => {
    const { prisma } = open()
    const counts = [prisma.movement.count(), prisma.batch.count(), prisma.stockPromise.count(), prisma.change.count()]
    return { counts: await Promise.all(counts), revision: (await prisma.revision.findFirstOrThrow()).number }
  }

  it('count what can be made, what stops the next one, and what so many take, in cuts without a join', async () => {
    const counted = await countFor([ids.shop], 12, null)
    expect(counted).toMatchObject({ asked: 12, spares: 1, kits: 6, charts: { wanted: 12, onRecord: 2, toBuy: 10 } })
    expect(counted.stops).toMatchObject([{ thread: { threadId: threads['Tarn Blue'] }, toBuyPutUps: 1 }])
    const [solid, dyed] = counted.threads
    // Lot 4 gives 3 × 2 cuts; lot 5 gives 2 of its skein and one of its part.
    expect(solid).toMatchObject({ cutsPerPutUp: 2, putUpsForAll: 7, kits: 9, toBuyPutUps: 2, lotToMatch: null })
    expect(solid?.lots.map(({ lot, kits }) => [lot, kits])).toEqual([
      ['4', 6],
      ['5', 3],
    ])
    expect(dyed).toMatchObject({ cutsPerPutUp: 3, putUpsForAll: 5, kits: 6, lot: '18', toBuyPutUps: 3 })
    expect(dyed?.lotToMatch).toEqual({ lot: '18', kits: 6 })
    expect(dyed?.freeStrandTenths).toBe(3 * hank)
  })

  it('count only what those owners have, goods and charts', async () => {
    const counted = await countFor([ids.hanne], 2, 0)
    expect(counted).toMatchObject({ kits: 0, spares: 0, charts: { onRecord: 0, toBuy: 2 } })
    expect(counted.threads.map(({ kits }) => kits)).toEqual([0, 12])
    expect(counted.stops.map(({ thread }) => thread.threadId)).toEqual([threads['0311']])
  })

  it('are answered by the API', async () => {
    const parts = { designId: designs.lanterns }
    const got = await ask(kitsRoute, { parts, path: `?kits=12&owner=${ids.shop}` })
    const answer = getDesignKits.answer.parse(got.body)
    expect(answer).toMatchObject({ kits: 6, asked: 12, spares: 1, underWay: [] })
    expect(answer.threads.map(({ thread, isOneLot, lotToMatch }) => [thread.code, isOneLot, lotToMatch])).toEqual([
      ['0311', false, null],
      ['Tarn Blue', false, '18'],
    ])
    expect(getDesignKits.answer.parse((await ask(kitsRoute, { parts, path: '?kits=3&spares=0' })).body).threads).toMatchObject([
      { isOneLot: true },
      { isOneLot: true, lot: '18' },
    ])
    expect((await ask(kitsRoute, { parts: { designId: 'none' } })).status).toBe(404)
    expect((await ask(kitsRoute, { parts, path: '?kits=0' })).status).toBe(400)
  })

  it('say which designs thread bought would open, and which would want more, writing nothing', async () => {
    const before = await rowsNow()
    const answers = await getAnswers()
    const suppose = (buy: { threadId: string; putUps: number; lot: string | null }[]) =>
      askWhatIf(answers, { buy, unpackProjectIds: [], ownerIds: [ids.shop] }).outcome
    const matching = suppose([
      { threadId: threads['0905'], putUps: 1, lot: null },
      { threadId: threads['Staithe Grey'], putUps: 1, lot: '18' },
    ])
    expect(matching.opened.map(({ designId }) => designId).sort()).toEqual([designs.barge, designs.jugs].sort())
    const other = suppose([{ threadId: threads['Staithe Grey'], putUps: 1, lot: '22' }])
    expect(other.worse).toMatchObject([
      { designId: designs.jugs, before: { status: 'short', buyPutUps: 1 }, after: { status: 'lots', buyPutUps: 2 } },
    ])
    expect(other.opened).toEqual([])
    expect(await rowsNow()).toEqual(before)
  })

  it('say what unpacking a bag would free, and name what cannot be supposed', async () => {
    const list = await open().prisma.threadList.findFirstOrThrow({ where: { designId: designs.lanterns } })
    const start = { designId: designs.lanterns, threadListId: list.id, ownerId: ids.shop }
    const kit = granted(await startProject(aStart({ ...start, quantity: 9 })))
    const wish = granted(await startProject(aStart({ ...start, isWish: true })))
    const { version } = await open().prisma.project.findUniqueOrThrow({ where: { id: kit.projectId } })
    granted(await kitProject({ projectId: kit.projectId, version, bagLabel: 'K-07', takesChart: false, who: null }))

    const answers = await getAnswers()
    const batches = await listKitBatches(answers, designs.lanterns, [ids.shop])
    // Nine cuts of 0311 take both its lots; of what is promised of Tarn Blue all is of one.
    expect(batches).toMatchObject([{ projectId: kit.projectId, quantity: 9 }])
    expect(batches[0]?.mixed).toEqual([{ threadId: threads['0311'], lotsMatter: false, lots: ['4', '5'] }])
    expect(listBags(answers, [ids.shop])).toMatchObject([{ projectId: kit.projectId, place: { label: 'K-07' } }])

    const before = await rowsNow()
    const { outcome, notSupposed } = askWhatIf(answers, {
      buy: [{ threadId: 'no thread', putUps: 1, lot: null }],
      unpackProjectIds: [kit.projectId, wish.projectId, 'no project'],
      ownerIds: [ids.shop],
    })
    expect(outcome.opened).toMatchObject([{ designId: designs.lanterns, before: { isStitchable: false } }])
    expect(notSupposed.map(({ kind }) => kind)).toEqual(['no-such-thread', 'empty-bag', 'no-such-project'])
    expect(await rowsNow()).toEqual(before)

    const body = { unpackProjectIds: [kit.projectId], owner: [ids.shop], limit: 0 }
    const answer = askWhatIfOperation.answer.parse((await ask(whatIfRoute, { body })).body)
    expect(answer).toMatchObject({ counts: { opened: 1, worse: 0 }, opened: [] })
    const refused = await ask(whatIfRoute, { body: { unpackProjectIds: [wish.projectId], owner: [ids.shop] } })
    expect(problemSchema.parse(refused.body)).toMatchObject({ status: 409 })
  })
})
