import { beforeAll, expect, it } from 'vitest'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { newId } from '#lib/db/new-id'
import { readPlots } from '#lib/db/plots/read-plots'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import { write } from '#lib/db/write'
import { calendarDay } from '#lib/quantity/day'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, addLarkholm, aPlace, goods, hanneDrewitt, skein, theShop } from './things'

describeOnEachEngine('the pictures', ({ open }) => {
  const [shop, hanne] = [theShop(), hanneDrewitt()]
  const [drawer, bag] = [newId(), newId()]
  const [line, red, blue] = [newId(), newId(), newId()]
  const today = calendarDay(new Date())
  const plotsOf = (...ownerIds: string[]) => readPlots({ ownerIds, today })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    await prisma.place.createMany({ data: [aPlace(drawer, 'T1', 'drawer'), aPlace(bag, 'K-01', 'bag')] })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.createMany({
      data: [
        { id: red, lineId: line, code: '0311' },
        { id: blue, lineId: line, code: '0087' },
      ],
    })
  })

  it('are empty where there is nothing', async () => {
    const { pace, stash, seasons, cloth, out } = await plotsOf(hanne.id)
    expect(pace).toMatchObject({ weeks: [], thisWeek: 0, means: { stitchedWeeks: null, allWeeks: null } })
    expect(stash.thread).toHaveLength(12)
    expect(stash.thread.at(-1)).toEqual({ month: today.slice(0, 7), in: 0, out: 0, otherwise: 0 })
    expect([seasons, cloth]).toEqual([[], []])
    expect(out.every(({ total }) => total === 0)).toBe(true)
  })

  it('have what was received, used and handed on this month, each with its owner', async () => {
    const receive = async (threadId: string, wholePutUps: number) =>
      granted(await receiveThread(goods({ threadId, ownerId: shop.id, wholePutUps, homePlaceId: drawer }))).batchId
    const [reds, blues] = [await receive(red, 6), await receive(blue, 3)]
    // A skein and a half is used: 1.5 put-ups. All of the blue changes hands, and one of the red.
    granted(await recordUse({ batchId: reds, strandTenths: (skein * 3) / 2 }))
    granted(await transferBatch({ batchId: blues, toOwnerId: hanne.id }))
    granted(await transferBatch({ batchId: reds, toOwnerId: hanne.id, parting: { wholePutUps: 1, takesPart: false } }))
    const [ofShop, ofHanne, ofBoth] = await Promise.all([plotsOf(shop.id), plotsOf(hanne.id), plotsOf(shop.id, hanne.id)])
    expect(ofShop.stash.thread.at(-1)).toMatchObject({ in: 9, out: 5.5, otherwise: 0 })
    expect(ofHanne.stash.thread.at(-1)).toMatchObject({ in: 4, out: 0, otherwise: 0 })
    expect(ofBoth.stash.thread.at(-1)).toMatchObject({ in: 9, out: 1.5, otherwise: 0 })
    expect(ofBoth.stash.thread.slice(0, -1).every((month) => month.in === 0 && month.out === 0)).toBe(true)

    granted(await takeThread({ batchId: reds, wholePutUps: 2, takesPart: false, toPlaceId: bag }))
    expect((await plotsOf(shop.id)).out[0]).toMatchObject({ upToDays: 7, thread: 1, total: 1 })
    expect((await plotsOf(hanne.id)).out[0]).toMatchObject({ total: 0 })
    // Taking some out is neither in nor out.
    expect((await plotsOf(shop.id)).stash.thread.at(-1)).toMatchObject({ in: 9, out: 5.5 })
  })

  it('have the designs of a season by what of their threads is free, and cloth by how its count is known', async () => {
    const { prisma } = open()
    const [winter, near, far] = [newId(), newId(), newId()]
    await prisma.theme.create({ data: { id: winter, axis: 'season', name: 'Winter', nameKey: 'winter' } })
    for (const [designId, title, threadId, statedHundredths] of [
      // Of the red 4.5 - 1 - 2 = 1.5 skeins lie free; two short of three and a half, five of six and a half.
      [near, 'Winter Post', red, 350],
      [far, 'Frost on the Staithe', red, 650],
    ] as const) {
      await addCharted(open(), { ownerId: shop.id, title, designId })
      await addKey(open(), { id: newId(), designId, name: 'cotton', keyed: [{ threadId, strands: 6, statedHundredths }] })
      await prisma.designTheme.create({ data: { designId, themeId: winter } })
    }
    const card = {
      ...{ makerName: null, name: 'linen', colourName: null, lab: null, weave: 'single' as const, dyeing: null, note: null },
      ...{ ends: { threads: 28, perUm: 25_400 }, picks: { threads: 28, perUm: 25_400 }, widthUm: 254_000, heightUm: 508_000 },
      ...{ isSquared: true, sizeCertainty: 'measured' as const, isTurnable: true, oneWayBecause: null },
      ...{ washState: 'new' as const, washedOn: null, ownerId: shop.id, placeLabel: null },
    }
    granted(await addCloth({ ...card, label: 'L-1', countCertainty: 'label' }))
    granted(await addCloth({ ...card, label: 'L-2', countCertainty: 'measured' }))
    granted(
      await write<null, never>(async ({ touch }) => {
        touch('everything', '*')
        return ok(null)
      }),
    )
    const { seasons, cloth, stash } = await plotsOf(shop.id)
    expect(seasons).toEqual([{ seasonId: winter, name: 'Winter', designs: 2, now: 0, near: 1, far: 1, unknown: 0 }])
    expect(cloth).toEqual([
      {
        ...{ weave: 'single', label: '28', pieces: 2, areaUm2: 2 * 254_000 * 508_000 },
        areaUm2By: { measured: 254_000 * 508_000, label: 254_000 * 508_000, guess: 0, stale: 0 },
      },
    ])
    expect(stash.cloth.at(-1)).toMatchObject({ in: 2, out: 0 })
  })

  it('have the weeks of the log, by everything that was stitched', async () => {
    const { prisma } = open()
    const designId = newId()
    await addCharted(open(), { ownerId: shop.id, title: 'Nine Wrens', designId })
    const projectId = newId()
    await prisma.project.create({ data: { id: projectId, designId, ownerId: shop.id, status: 'stitching' } })
    const monday = '2026-11-30'
    const entry = (day: string, stitches: number) => ({ id: newId(), projectId, day, stitches, minutes: 60, at: new Date() })
    await prisma.workEntry.createMany({
      data: [entry('2026-11-23', 300), entry('2026-11-24', 100), entry('2026-11-09', 200), entry(monday, 40)],
    })
    const { pace } = await readPlots({ ownerIds: [shop.id], today: monday })
    expect(pace.weeks.map(({ startsOn, amount }) => [startsOn, amount])).toEqual([
      ['2026-11-09', 200],
      ['2026-11-16', 0],
      ['2026-11-23', 400],
    ])
    // 600 in the two weeks stitched, and in three.
    expect(pace.means).toEqual({ stitchedWeeks: { amount: 600, weeks: 2 }, allWeeks: { amount: 600, weeks: 3 } })
    expect(pace.thisWeek).toBe(40)
  })
})
