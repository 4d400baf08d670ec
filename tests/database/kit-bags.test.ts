import { beforeAll, expect, it } from 'vitest'
import {
  cutKitsOperation,
  findKitLotsOperation,
  getKitBags,
  markKitBagsOperation,
  planKitCutsOperation,
  stepKitBagsOperation,
} from '#api/kit-bags'
import { readMasterList } from '#lib/db/kit/master-list'
import { cutAgain, cutKits, readKitCutting } from '#lib/db/kit-bag/cut-kits'
import { findKitLots } from '#lib/db/kit-bag/find-kit-lots'
import { markBags } from '#lib/db/kit-bag/mark-bags'
import { readKitBags } from '#lib/db/kit-bag/queries'
import { stepBags } from '#lib/db/kit-bag/step-bags'
import { newId } from '#lib/db/new-id'
import { promiseAgain } from '#lib/db/project/promise-again'
import { receiveThread } from '#lib/db/stock/receive-thread'
import type { BagStep } from '#lib/project/kit/bags'
import { linesOfKit } from '#lib/project/kit/master-list'
import { GET as recordsRoute } from '../../app/api/v1/kit-records/route'
import { POST as checkRoute } from '../../app/api/v1/projects/[projectId]/kit-bags/check/route'
import { POST as cutRoute, GET as planRoute } from '../../app/api/v1/projects/[projectId]/kit-bags/cut/route'
import { GET as bagsRoute } from '../../app/api/v1/projects/[projectId]/kit-bags/route'
import { POST as stepRoute } from '../../app/api/v1/projects/[projectId]/kit-bags/step/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, aPlace, goods, theShop } from './things'

/** Undivided thread, as in scenario A6: 8 m a skein of the solid, 5 yd a hank of the hand-dyed; cuts of 3.1 m and 1.2 m for 13 kits. */
const metre = 10_000
const skein = 8 * metre
const hank = 45_720
const [cut0311, cutTarnBlue] = [31_000, 12_000]
const nell = 'Nell Oxtoby'
const ines = 'Ines Coldwell'

describeOnEachEngine('bags of kits', ({ open, openAnother }) => {
  const ids = { shop: newId(), drawer: newId(), chart: newId(), design: newId(), list: newId(), needle: newId() }
  const threads = { '0311': newId(), 'Tarn Blue': newId() }
  const project = newId()

  const receive = async (code: keyof typeof threads, wholePutUps: number, lot: string) =>
    granted(await receiveThread(goods({ threadId: threads[code], ownerId: ids.shop, wholePutUps, homePlaceId: ids.drawer, lot })))
      .batchId

  const step = (name: BagStep, bags: number[], more: { reason?: string; soldTo?: string } = {}) =>
    stepBags({ projectId: project, step: name, bags, by: nell, ...more })
  const keysOf = async (isSpare: boolean) => {
    const master = await readMasterList(project)
    return linesOfKit(master ?? { lines: [] }, { isSpare, isSold: false }).map(({ key }) => key)
  }
  const checkAll = async (bags: number[]) => {
    const marks = []
    for (const bag of bags) for (const key of await keysOf(bag === 13)) marks.push({ bag, key, status: 'there' as const })
    return markBags({ projectId: project, by: ines, isAlone: false, marks })
  }
  const copies = async () => (await open().prisma.chart.findUniqueOrThrow({ where: { id: ids.chart } })).copies
  const needles = async () => (await open().prisma.notion.findUniqueOrThrow({ where: { id: ids.needle } })).count
  const bagNow = async (number: number) => (await readKitBags(project))?.bags.find((bag) => bag.number === number)
  /** The length of a thread on record, and the sum of what its batches' journals say. */
  const lengthOf = async (code: keyof typeof threads) => {
    const batches = await open().prisma.batch.findMany({ where: { threadId: threads[code] }, include: { movements: true } })
    let held = 0
    let journalled = 0
    for (const { putUpStrandTenths, wholePutUps, partStrandTenths, movements } of batches) {
      held += wholePutUps * putUpStrandTenths + partStrandTenths
      for (const one of movements) journalled += one.wholeDelta * putUpStrandTenths + one.partDeltaStrandTenths
    }
    expect(journalled).toBe(held)
    return held
  }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    for (const [makerName, over, code] of [
      ['Larkholm', { putUpStrandTenths: skein }, '0311'],
      ['Oddny Loft', { putUpStrandTenths: hank, putUpWord: 'hank', dyeing: 'overdyed', lotsMatter: true }, 'Tarn Blue'],
    ] as const) {
      const [makerId, lineId] = [newId(), newId()]
      await prisma.maker.create({ data: { id: makerId, name: makerName, nameKey: makerName.toLowerCase() } })
      await prisma.threadLine.create({ data: { id: lineId, makerId, name: 'pearl', nameKey: 'pearl', strands: 1, ...over } })
      await prisma.thread.create({ data: { id: threads[code], lineId, code } })
    }
    const named = { title: 'Seven Lanterns', titleKey: 'seven lanterns' }
    await prisma.chart.create({ data: { id: ids.chart, ...named, ownerId: ids.shop, copies: 12 } })
    await prisma.design.create({ data: { id: ids.design, chartId: ids.chart, ...named } })
    const stated = (code: keyof typeof threads, statedHundredths: number) => ({
      ...{ threadId: threads[code], strands: 1, statedHundredths, statedPutUpTenths: 10 * metre },
    })
    await addKey(open(), {
      ...{ id: ids.list, designId: ids.design, name: 'As charted', keyed: [stated('0311', 31), stated('Tarn Blue', 12)] },
    })
    await receive('0311', 7, '4')
    await receive('Tarn Blue', 3, '18')
    await receive('Tarn Blue', 2, '22')
    await prisma.project.create({
      data: {
        ...{ id: project, designId: ids.design, threadListId: ids.list, ownerId: ids.shop, status: 'planned' },
        ...{ quantity: 13, spares: 1 },
      },
    })
    const kept = { ownerId: ids.shop, homePlaceId: ids.drawer, currentPlaceId: ids.drawer }
    await prisma.notion.create({ data: { id: ids.needle, kind: 'needle', name: 'Tapestry needle', count: 20, ...kept } })
    const item = { id: newId(), projectId: project, position: 0, kind: 'needle', name: 'Needle', perKit: 1 }
    await prisma.kitItem.create({ data: { ...item, notionId: ids.needle } })
    granted(await promiseAgain({ projectId: project }))
  })

  it('refuses to cut two lots for one class unless it is said that they will do', async () => {
    const seen = await readKitCutting(project)
    const tarn = seen?.threads.find(({ threadId }) => threadId === threads['Tarn Blue'])
    expect(tarn).toMatchObject({ isMixed: true, short: [] })
    expect(tarn?.lots.map(({ lot, bags }) => [lot, bags.length])).toEqual([
      ['18', 9],
      ['22', 4],
    ])
    const refusal = await cutKits({ projectId: project, by: nell, seen: seen?.key, acceptsLots: false })
    expect(refusal).toEqual({ ok: false, error: { kind: 'lots-differ', threadIds: [threads['Tarn Blue']] } })
    expect(await lengthOf('0311')).toBe(7 * skein)
  })

  it('refuses to cut what was not what somebody saw', async () => {
    const cut = await cutKits({ projectId: project, by: nell, seen: 'another plan', acceptsLots: true })
    expect(cut).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
  })

  it('packs nothing that is not cut', async () => {
    expect(await step('pack', [1])).toMatchObject({ ok: false, error: { kind: 'not-cut', bag: 1 } })
  })

  it('cuts thirteen, keeps every leftover, and writes which bags have which lot', async () => {
    const plan = await answer(planKitCutsOperation, planRoute, { parts: { projectId: project } })
    const body = { by: nell, seen: plan.seen, acceptsLots: true }
    const cut = await answer(cutKitsOperation, cutRoute, { parts: { projectId: project }, body })
    expect(cut).toEqual({ cuts: 26, threads: 2, short: [] })
    // 56 m less 13 × 3.1 m; 5 hanks less 13 × 1.2 m.
    expect(await lengthOf('0311')).toBe(7 * skein - 13 * cut0311)
    expect(await lengthOf('Tarn Blue')).toBe(5 * hank - 13 * cutTarnBlue)
    const remnants = await open().prisma.batch.findMany({ where: { threadId: threads['0311'], putUpWord: 'remnant' } })
    expect(remnants).toMatchObject([{ wholePutUps: 6, putUpStrandTenths: 1.8 * metre, currentPlaceId: ids.drawer }])
    const lots = (await readKitBags(project))?.lots.filter(({ threadId }) => threadId === threads['Tarn Blue'])
    expect(lots).toMatchObject([
      { lot: '18', fromBag: 1, toBag: 9, who: nell },
      { lot: '22', fromBag: 10, toBag: 13, who: nell },
    ])
    expect(await open().prisma.stockPromise.count({ where: { projectId: project } })).toBe(0)
    // Stock for thirteen more lies there: what is cut is not promised for again.
    await receive('Tarn Blue', 5, '22')
    expect(granted(await promiseAgain({ projectId: project }))).toEqual({ promised: [], short: [] })
    const again = await cutKits({ projectId: project, by: nell, acceptsLots: true })
    expect(again).toEqual({ ok: false, error: { kind: 'nothing-to-cut', shortThreadIds: [] } })
  })

  it('counts a needle into each bag that is packed', async () => {
    granted(await step('pack', [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]))
    expect(await needles()).toBe(7)
    granted(await step('unpack', [13]))
    expect(await needles()).toBe(8)
    await open().prisma.notion.update({ where: { id: ids.needle }, data: { count: 0 } })
    expect(await step('pack', [13])).toMatchObject({ error: { kind: 'too-few-items', wanted: 1, have: 0 } })
    await open().prisma.notion.update({ where: { id: ids.needle }, data: { count: 8 } })
    granted(await step('pack', [13]))
  })

  it('lets no bag with something short be sealed, until it is mended', async () => {
    const parts = { projectId: project }
    const short = [{ bag: 7, key: `thread:${threads['0311']}`, status: 'short' }]
    const same = await problem(checkRoute, { parts, body: { by: nell, marks: short } })
    expect(same.detail).toContain('packed by Nell Oxtoby')
    const marked = await answer(markKitBagsOperation, checkRoute, { parts, body: { by: ines, marks: short } })
    expect(marked).toEqual({ marked: 1, checked: [], conflicts: [] })
    expect(await step('seal', [7])).toMatchObject({ error: { kind: 'at-fault', faults: [{ status: 'short' }] } })

    // The last skein's 4.9 m still gives one cut of 3.1 m.
    granted(await cutAgain({ projectId: project, bag: 7, threadId: threads['0311'], by: nell }))
    expect(await lengthOf('0311')).toBe(7 * skein - 14 * cut0311)
    const lots = (await readKitBags(project))?.lots.filter(({ threadId }) => threadId === threads['0311'])
    expect(lots?.map(({ fromBag, toBag }) => [fromBag, toBag])).toEqual([
      [1, 6],
      [7, 7],
      [8, 13],
    ])
    expect(granted(await checkAll([7])).checked).toEqual([7])
    granted(await step('seal', [7]))
    expect(await copies()).toBe(11)
  })

  it('keeps what another marked at the same time', async () => {
    const mark = (by: string, status: 'there' | 'wrong') =>
      markBags({ projectId: project, by, isAlone: false, marks: [{ bag: 1, key: 'cloth', status, saw: null }] })
    const [one, other] = await Promise.all([mark(ines, 'there'), mark('Joss Tarrow', 'wrong')])
    expect(granted(one).marked + granted(other).marked).toBe(1)
    expect([...granted(one).conflicts, ...granted(other).conflicts]).toHaveLength(1)
    expect((await bagNow(1))?.marks).toHaveLength(1)
  })

  it('seals one bag once, however many try', async () => {
    granted(await checkAll([1]))
    const results = await Promise.all([step('seal', [1]), step('seal', [1]), step('seal', [1])])
    expect(results.filter(({ ok }) => ok)).toHaveLength(1)
    expect(await copies()).toBe(10)
  })

  it('seals the rest with their charts, and the spare without', async () => {
    const rest = [2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13]
    granted(await checkAll(rest))
    expect(granted(await step('seal', rest))).toEqual({ bags: 11, charts: 10 })
    expect(await copies()).toBe(0)
  })

  it('opens a bag again for a reason and counts its chart as stock until it is sealed anew', async () => {
    expect(await step('unseal', [12])).toMatchObject({ error: { kind: 'no-reason' } })
    granted(await step('unseal', [12], { reason: 'wrong red' }))
    expect(await copies()).toBe(1)
    const bag = await bagNow(12)
    expect(bag).toMatchObject({ status: 'packed', marks: [], sealedAt: null })
    expect(bag?.note).toContain('wrong red')
    expect(await step('seal', [12])).toMatchObject({ error: { kind: 'not-checked' } })
    granted(await checkAll([12]))
    granted(await step('seal', [12]))
    expect(await copies()).toBe(0)
  })

  it('sells a spare only with a thirteenth chart (A6)', async () => {
    const wanting = await step('sell', [13], { soldTo: 'Hanne Drewitt' })
    expect(wanting).toEqual({ ok: false, error: { kind: 'no-chart-left', wanted: 1, copies: 0, isOtherOwner: false } })
    await open().prisma.chart.update({ where: { id: ids.chart }, data: { copies: 1 } })
    const body = { step: 'sell', bags: [13], by: nell, soldTo: 'Hanne Drewitt' }
    const sold = await answer(stepKitBagsOperation, stepRoute, { parts: { projectId: project }, body })
    expect(sold).toEqual({ bags: 1, charts: 1 })
    const used = await open().prisma.movement.aggregate({ where: { chartId: ids.chart }, _sum: { wholeDelta: true } })
    expect(used._sum.wholeDelta).toBe(-13)
    granted(await step('sell', [1], { soldTo: 'Petra Lisle' }))
    expect(await copies()).toBe(0)
  })

  it('says which kits had lot 22, and who has them (question 64)', async () => {
    const found = await findKitLots({ ownerIds: [ids.shop], lot: '22', threadIds: [threads['Tarn Blue']], offset: 0, limit: 10 })
    expect(found).toMatchObject({ total: 1, rows: [{ project: { title: 'Seven Lanterns' }, fromBag: 10, toBag: 13 }] })
    expect(found.rows[0]?.bags.map(({ number, soldTo }) => [number, soldTo])).toEqual([
      [10, null],
      [11, null],
      [12, null],
      [13, 'Hanne Drewitt'],
    ])
    const asked = await answer(findKitLotsOperation, recordsRoute, { path: `kit-records?lot=18&thread=${threads['Tarn Blue']}` })
    expect(asked.records).toMatchObject([
      { fromBag: 1, toBag: 9, bags: [{ bag: 1, soldTo: 'Petra Lisle' }, ...Array(8).fill({})] },
    ])
    const none = await findKitLots({ ownerIds: [ids.shop], before: new Date('2000-01-01'), offset: 0, limit: 10 })
    expect(none.total).toBe(0)
  })

  it('tells the API all of it, and refuses in words', async () => {
    const parts = { projectId: project }
    const got = await answer(getKitBags, bagsRoute, { parts })
    expect(got.bags.filter(({ status }) => status === 'sealed')).toHaveLength(11)
    const refusal = await problem(stepRoute, { parts, body: { step: 'pack', bags: [1], by: nell } })
    expect(refusal).toMatchObject({ status: 409, detail: 'Bag 1 is sold, so it cannot be packed now. Nothing was written.' })
    expect(await problem(bagsRoute, { parts: { projectId: newId() } })).toMatchObject({ status: 404 })
  })

  it('takes back what was sold, a spare with its chart', async () => {
    granted(await step('take back', [13], { reason: 'wrong blue' }))
    expect(await copies()).toBe(1)
    expect(await bagNow(13)).toMatchObject({ status: 'sealed', soldTo: null })
    openAnother()
  })
})
