import { beforeAll, expect, it } from 'vitest'
import { todayOperations } from '#api/today'
import { newId } from '#lib/db/new-id'
import { readToday } from '#lib/db/planning/days/read-today'
import { readWeek } from '#lib/db/planning/days/read-week'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { returnBatch } from '#lib/db/stock/return-batch'
import { takeThread } from '#lib/db/stock/take-thread'
import { startTimer } from '#lib/db/work/start-timer'
import { write } from '#lib/db/write'
import { addDays, calendarDay } from '#lib/quantity/day'
import { ok } from '#lib/result'
import { GET as getToday } from '../../app/api/v1/today/route'
import { GET as getWeek } from '../../app/api/v1/week/route'
import { answer } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, addLarkholm, aPlace, aStart, goods, hanneDrewitt, skein, theShop } from './things'

describeOnEachEngine('the day and the week', ({ open }) => {
  const [hanne, shop] = [hanneDrewitt(), theShop()]
  const ids = { drawer: newId(), bag: newId(), line: newId(), red: newId(), geese: newId(), list: newId(), cloth: newId() }
  const today = calendarDay(new Date())
  const day = (days: number) => addDays(today, days)
  const linesOf = async (ownerId: string) => readToday({ ownerIds: [ownerId], today })
  let batchId = ''
  /** What was written past the gate is read with everything else. */
  const lookAnew = async () =>
    granted(
      await write<null, never>(async ({ touch }) => {
        touch('everything', '*')
        return ok(null)
      }),
    )

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [hanne, shop] })
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T1', 'drawer'), aPlace(ids.bag, 'K-07', 'bag')] })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: ids.line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.create({ data: { id: ids.red, lineId: ids.line, code: '0311' } })
    // Geese over Tarnbeck, 11,270 stitches, all covered; its cloth and half a skein of its one thread are there.
    await addCharted(open(), { ownerId: hanne.id, title: 'Geese over Tarnbeck', designId: ids.geese })
    await prisma.design.update({
      where: { id: ids.geese },
      data: {
        widthStitches: 161,
        heightStitches: 70,
        coverKind: 'full',
        advisedThreads: 28,
        advisedPerUm: 25_400,
        advisedOver: 2,
      },
    })
    await addKey(open(), {
      ...{ id: ids.list, designId: ids.geese, name: 'cotton', keyed: [{ threadId: ids.red, strands: 2, statedHundredths: 50 }] },
    })
    await prisma.clothPiece.create({
      data: {
        ...{ id: ids.cloth, ownerId: hanne.id, name: 'linen', weave: 'single', endsThreads: 28, endsPerUm: 25_400 },
        ...{ picksThreads: 28, picksPerUm: 25_400, widthUm: 700_000, heightUm: 700_000, isSquared: true },
      },
    })
    await lookAnew()
  })

  it('hold nothing for somebody who has nothing', async () => {
    expect(await linesOf(shop.id)).toEqual([])
  })

  it('have a work ready as soon as its last thread is there', async () => {
    const { projectId } = granted(
      await startProject(aStart({ designId: ids.geese, threadListId: ids.list, ownerId: hanne.id, dueOn: day(80) })),
    )
    expect(await linesOf(hanne.id)).toEqual([])
    batchId = granted(
      await receiveThread(goods({ threadId: ids.red, ownerId: hanne.id, wholePutUps: 4, homePlaceId: ids.drawer })),
    ).batchId
    expect(await linesOf(hanne.id)).toEqual([
      { kind: 'ready', count: 1, names: ['Geese over Tarnbeck'], id: projectId, on: null },
    ])
    // 11,270 at 2,300 a week of the last four, one of them without a stitch: with framing and buffer it was to be begun by now.
    const before = await open().prisma.project.create({
      data: { id: newId(), designId: ids.geese, ownerId: hanne.id, status: 'finished', finishedOn: day(-200) },
    })
    const entry = (days: number, stitches: number) => ({
      ...{ id: newId(), projectId: before.id, day: day(days), stitches, minutes: 0, at: new Date() },
    })
    await open().prisma.workEntry.createMany({ data: [entry(-28, 2_300), entry(-21, 2_300), entry(-7, 2_300)] })
    // At the mean of all weeks it takes 7 weeks and 5 more: 84 days before it is due, four days ago.
    expect((await linesOf(hanne.id)).map(({ kind, on }) => [kind, on])).toEqual([
      ['start-by-past', day(80 - 84)],
      ['ready', null],
    ])
  })

  it('have the timer, the order that is late, the part that is due, the bag to put back', async () => {
    const { prisma } = open()
    const work = await prisma.project.findFirstOrThrow({ where: { ownerId: hanne.id, status: 'planned' } })
    granted(await startTimer({ projectId: work.id, who: null }))
    await prisma.threadOrder.create({
      data: {
        ...{ id: newId(), threadId: ids.red, ownerId: hanne.id, putUpStrandTenths: skein, putUps: 3, orderedOn: day(-30) },
        expectedOn: day(-1),
      },
    })
    await prisma.stitchAlongPart.create({
      data: { id: newId(), projectId: work.id, position: 0, name: 'part 3', dueOn: day(3) },
    })
    granted(await takeThread({ batchId, wholePutUps: 1, takesPart: false, toPlaceId: ids.bag }))
    const lines = await linesOf(hanne.id)
    expect(lines.map(({ kind }) => kind)).toEqual(['timer', 'order-late', 'start-by-past', 'part-due', 'put-back', 'ready'])
    expect(lines[1]).toMatchObject({ names: ['Larkholm 0311'], on: day(-1) })
    expect(lines[3]).toMatchObject({ names: ['Geese over Tarnbeck: part 3'], id: work.id })
    expect(lines[4]).toMatchObject({ names: ['K-07'], id: ids.bag })
    const said = await answer(todayOperations.today, getToday, { path: `today?owner=${hanne.id}` })
    expect(said.lines).toEqual(lines)
    expect(await linesOf(shop.id)).toEqual([])
    // A bag that work under way is kept in is no bag to put back.
    await prisma.project.update({ where: { id: work.id }, data: { placeId: ids.bag } })
    expect((await linesOf(hanne.id)).map(({ kind }) => kind)).not.toContain('put-back')
    await prisma.project.update({ where: { id: work.id }, data: { placeId: null } })
  })

  it('tell of seven days and of the seven after them', async () => {
    const { prisma } = open()
    const out = await prisma.batch.findFirstOrThrow({ where: { currentPlaceId: ids.bag } })
    granted(await returnBatch({ batchId: out.id }))
    await prisma.project.updateMany({ where: { status: 'finished' }, data: { finishedOn: day(-6) } })
    await prisma.timeAway.create({ data: { id: newId(), ownerId: hanne.id, fromOn: day(-3), toOn: day(2), what: 'the coast' } })
    await prisma.threadOrder.updateMany({ data: { expectedOn: day(7), receivedPutUps: 1 } })
    await lookAnew()
    const week = await readWeek({ ownerIds: [hanne.id], day: today, today })
    expect(week.past).toMatchObject({
      ...{ fromOn: day(-6), toOn: today, stitched: [], started: [] },
      finished: [{ title: 'Geese over Tarnbeck', on: day(-6), quantity: 1 }],
      sums: { received: { thread: 4, cloth: 0, chart: 0, notion: 0 }, takenOut: 1, cameBack: 1 },
    })
    expect(week.next).toMatchObject({
      ...{ due: [], loans: [] },
      parts: [{ title: 'Geese over Tarnbeck', name: 'part 3', on: day(3) }],
      orders: [{ threadName: 'Larkholm 0311', putUps: 2, on: day(7) }],
      away: [{ ownerName: 'Hanne Drewitt', fromOn: day(1), toOn: day(2), what: 'the coast' }],
    })
    // The week before: what was stitched a week ago.
    const before = await readWeek({ ownerIds: [hanne.id], day: day(-7), today })
    expect(before.past.stitched).toMatchObject([{ title: 'Geese over Tarnbeck', stitches: 2_300, days: 1 }])
    expect(before.past.sums).toEqual({ received: { thread: 0, cloth: 0, chart: 0, notion: 0 }, takenOut: 0, cameBack: 0 })
    const said = await answer(todayOperations.week, getWeek, { path: `week?owner=${hanne.id}&to=${today}` })
    expect(said).toMatchObject({ day: today, past: { sums: week.past.sums }, next: { orders: [{ putUps: 2 }] } })
  })
})
