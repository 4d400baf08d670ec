import { beforeAll, describe, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { promiseAgain } from '#lib/db/project/promise-again'
import { abandonProject } from '#lib/db/project/put-kit-back'
import { findProject } from '#lib/db/project/queries'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { bringUpToDate } from '#lib/db/walk/bring-up-to-date'
import { carryOut } from '#lib/db/walk/carry-out'
import { closeWalk } from '#lib/db/walk/close-walk'
import { findWalk, listOpenWalks, readNews, type ShownLine } from '#lib/db/walk/queries'
import { reportLineMissing } from '#lib/db/walk/report-line-missing'
import { startPull } from '#lib/db/walk/start-pull'
import { createPutBackWalk } from '#lib/db/walk/start-put-back'
import { takeInstead } from '#lib/db/walk/take-instead'
import { tickLines } from '#lib/db/walk/tick-lines'
import { readWhereMayBe } from '#lib/db/walk/where-may-be'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, addLarkholm, aPlace, aStart, goods, hanneDrewitt, skein } from './things'

describeOnEachEngine('a walk past the drawers', ({ open }) => {
  const owner = hanneDrewitt()
  const drawers: Record<string, string> = {}
  const threads: Record<string, string> = {}
  let turn = 0

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: owner })
    for (const label of ['T10.1-03', 'T2.1-14', 'T2.2-05', 'R1', 'N1-04']) {
      const id = newId()
      drawers[label] = id
      await prisma.place.create({ data: aPlace(id, label, 'compartment') })
    }
    const makerId = await addLarkholm(open())
    const lineId = newId()
    await prisma.threadLine.create({
      data: { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    for (const code of ['0087', '0311', '1204', '9', '10']) {
      const id = newId()
      threads[code] = id
      await prisma.thread.create({ data: { id, lineId, code } })
    }
  })

  /** Another owner's goods are left out of every test but one's own. */
  async function anOwner() {
    const id = newId()
    await open().prisma.owner.create({ data: { id, name: id, nameKey: id } })
    return id
  }

  async function receive(code: string, wholePutUps: number, label: string, ownerId: string, lot: string | null = null) {
    const homePlaceId = drawers[label] as string
    return granted(await receiveThread(goods({ threadId: threads[code] as string, ownerId, wholePutUps, homePlaceId, lot })))
      .batchId
  }

  /** A project whose key states so many put-ups (in hundredths) of each thread; its chart lives nowhere unless a place is named. */
  async function aProject(ownerId: string, key: Record<string, number>, more: { chartIn?: string; bagLabel?: string } = {}) {
    const { prisma } = open()
    const [chartId, designId, listId] = [newId(), newId(), newId()]
    turn += 1
    await addCharted(open(), { ownerId, title: `Nine Wrens ${turn}`, chartId, designId })
    const place = more.chartIn ? drawers[more.chartIn] : null
    await prisma.chart.update({
      where: { id: chartId },
      data: place ? { homePlaceId: place, currentPlaceId: place } : { kind: 'file' },
    })
    await addKey(open(), {
      ...{ id: listId, designId, name: 'cotton' },
      keyed: Object.entries(key).map(([code, statedHundredths]) => ({
        ...{ threadId: threads[code] as string, strands: 2, statedHundredths, statedPutUpTenths: skein / 6 },
      })),
    })
    const started = await startProject(aStart({ designId, threadListId: listId, ownerId, bagLabel: more.bagLabel ?? null }))
    return granted(started).projectId
  }

  const linesOf = async (walkId: string): Promise<ShownLine[]> => (await findWalk(walkId))?.lines ?? []
  const tick = (
    walkId: string,
    lines: readonly { id: string }[],
    status: 'open' | 'done' | 'not there' = 'done',
    at = Date.now(),
  ) => tickLines({ walkId, ticks: lines.map(({ id }) => ({ lineId: id, status, tickedAt: new Date(at), by: 'Ines Coldwell' })) })

  /** Put-ups of an owner, and what the journal sums to: they must be the same. */
  async function putUps(ownerId: string) {
    const rows = await open().prisma.batch.findMany({ where: { ownerId }, include: { movements: true } })
    for (const row of rows) expect(row.wholePutUps).toBe(row.movements.reduce((sum, movement) => sum + movement.wholeDelta, 0))
    return rows.reduce((sum, row) => sum + row.wholePutUps, 0)
  }

  it('pulls for two projects in one walk: 2 before 10, one batch for both bags, then cloth and chart by place', async () => {
    const ownerId = await anOwner()
    await receive('10', 2, 'T10.1-03', ownerId)
    const shared = await receive('0311', 5, 'T2.2-05', ownerId)
    await receive('9', 1, 'T2.1-14', ownerId)
    const first = await aProject(ownerId, { '0311': 200, '10': 100 }, { chartIn: 'R1' })
    const second = await aProject(ownerId, { '0311': 100, '9': 100 })
    const { walkId } = granted(await startPull({ projectIds: [first, second], who: 'Ines Coldwell' }))
    const lines = await linesOf(walkId)
    expect(lines.map(({ place, thing, count, projectId }) => [place?.label, thing.kind, count, projectId])).toEqual([
      ['R1', 'chart', 1, first],
      ['T2.1-14', 'thread', 1, second],
      ['T2.2-05', 'thread', 2, first],
      ['T2.2-05', 'thread', 1, second],
      ['T10.1-03', 'thread', 1, first],
    ])
    expect(lines[2]?.thingId).toBe(shared)
    const walk = await findWalk(walkId)
    expect(walk?.progress).toEqual({ things: 4, done: 0, notThere: 0, waiting: 0 })
    const isAmong = (walks: { id: string }[]) => walks.some(({ id }) => id === walkId)
    expect(isAmong(await listOpenWalks())).toBe(true)
    expect(isAmong(await listOpenWalks([ownerId]))).toBe(true)
    expect(isAmong(await listOpenWalks([await anOwner()]))).toBe(false)
    expect(await startPull({ projectIds: [first] })).toMatchObject({ ok: false, error: { kind: 'already-pulling', walkId } })
  })

  it('lets the later tick stand, tells what is new since, and passes over what it does not know', async () => {
    const ownerId = await anOwner()
    await receive('0311', 3, 'T2.2-05', ownerId)
    const projectId = await aProject(ownerId, { '0311': 100 })
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    const [line] = await linesOf(walkId)
    const before = (await findWalk(walkId))?.revision ?? 0
    const now = Date.now()
    expect(granted(await tick(walkId, [line as ShownLine], 'open', now - 1_000)).written).toBe(1)
    expect(granted(await tick(walkId, [line as ShownLine], 'done', now - 5_000)).written).toBe(0)
    expect(granted(await tick(walkId, [line as ShownLine, { id: 'gone' }], 'done', now))).toEqual({
      written: 1,
      unknownLineIds: ['gone'],
    })
    expect(granted(await tick(walkId, [line as ShownLine], 'done', now)).written).toBe(0)
    const news = await readNews(walkId, before)
    expect(news?.lines).toMatchObject([{ id: line?.id, status: 'done', tickedBy: 'Ines Coldwell' }])
    expect((await readNews(walkId, news?.revision ?? 0))?.lines).toEqual([])
  })

  it('carries out what is ticked and nothing else, once, and kits a project when all of it is in', async () => {
    const ownerId = await anOwner()
    await receive('0311', 5, 'T2.2-05', ownerId)
    await receive('10', 2, 'T10.1-03', ownerId)
    const projectId = await aProject(ownerId, { '0311': 200, '10': 100 }, { chartIn: 'R1' })
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    const [chart, red, ten] = (await linesOf(walkId)) as [ShownLine, ShownLine, ShownLine]
    expect(await carryOut({ walkId })).toMatchObject({ ok: false, error: { kind: 'nothing-ticked' } })
    await tick(walkId, [red])
    expect(await carryOut({ walkId })).toMatchObject({ ok: false, error: { kind: 'bag-unnamed', projectId } })
    const bags = [{ projectId, label: 'K-07' }]
    expect(granted(await carryOut({ walkId, bags }))).toMatchObject({ carried: 1, left: [], kittedProjectIds: [], isDone: false })
    expect((await findProject(projectId))?.status).toBe('planned')
    expect(await carryOut({ walkId })).toMatchObject({ ok: false, error: { kind: 'nothing-ticked' } })
    const inBag = await open().prisma.batch.findMany({ where: { ownerId, currentPlace: { label: 'K-07' } } })
    expect(inBag.map(({ wholePutUps, homePlaceId }) => [wholePutUps, homePlaceId])).toEqual([[2, drawers['T2.2-05']]])

    await tick(walkId, [chart, ten])
    // Only what somebody had in hand who said so later.
    const own = { walkId, lineIds: [chart?.id ?? ''] }
    expect(granted(await carryOut(own))).toMatchObject({ carried: 1, kittedProjectIds: [], isDone: false })
    expect(await carryOut(own)).toMatchObject({ ok: false, error: { kind: 'nothing-ticked' } })
    const last = granted(await carryOut({ walkId }))
    expect(last).toMatchObject({ carried: 1, kittedProjectIds: [projectId], isDone: true })
    expect((await findProject(projectId))?.status).toBe('kitted')
    expect((await findWalk(walkId))?.walk.status).toBe('done')
    expect(await putUps(ownerId)).toBe(7)
    expect(await tick(walkId, [ten])).toMatchObject({ ok: false, error: { kind: 'walk-closed' } })
  })

  it('keeps what is in a planned project’s bag when stock is promised again', async () => {
    const ownerId = await anOwner()
    await receive('0311', 5, 'T2.2-05', ownerId, '22')
    await receive('9', 1, 'T2.1-14', ownerId)
    const projectId = await aProject(ownerId, { '0311': 200, '9': 100, '10': 100 })
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    const red = (await linesOf(walkId)).filter(({ place }) => place?.label === 'T2.2-05')
    await tick(walkId, red)
    granted(await carryOut({ walkId, bags: [{ projectId, label: 'K-31' }] }))
    const project = await open().prisma.project.findUniqueOrThrow({ where: { id: projectId } })
    expect(project.status).toBe('planned')
    const promises = () =>
      open().prisma.stockPromise.findMany({
        where: { projectId },
        select: { strandTenths: true, batch: { select: { id: true, currentPlaceId: true } } },
      })
    const inBag = (await promises()).filter(({ batch }) => batch.currentPlaceId === project.placeId)
    expect(inBag).toMatchObject([{ strandTenths: 2 * skein }])

    // Another lot that is enough by itself, and the thread that was wanting.
    await receive('0311', 2, 'T2.2-05', ownerId, '18')
    const ten = await receive('10', 1, 'T10.1-03', ownerId)
    granted(await promiseAgain({ projectId }))
    const after = await promises()
    expect(after).toHaveLength(3)
    expect(after).toContainEqual(inBag[0])
    expect(after.some(({ batch }) => batch.id === ten)).toBe(true)
  })

  it('leaves nothing half done when carrying out breaks in the middle', async () => {
    const ownerId = await anOwner()
    await receive('0311', 5, 'T2.2-05', ownerId)
    const projectId = await aProject(ownerId, { '0311': 200 }, { chartIn: 'R1', bagLabel: 'K-90' })
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    await tick(walkId, await linesOf(walkId))
    const before = await open().prisma.batch.findMany({ where: { ownerId } })
    // A line that names a place the thing cannot reach: the chart's line is put on a project that is gone from the record.
    await open().prisma.walkLine.updateMany({ where: { walkId, chartId: { not: null } }, data: { projectId: null } })
    await expect(carryOut({ walkId })).rejects.toThrow(RangeError)
    expect(await open().prisma.batch.findMany({ where: { ownerId } })).toEqual(before)
    expect((await linesOf(walkId)).every(({ isCarried }) => !isCarried)).toBe(true)
    expect(await open().prisma.movement.count({ where: { projectId, kind: 'take' } })).toBe(0)
  })

  it('names what the record no longer has: two walks that want one skein', async () => {
    const ownerId = await anOwner()
    const batchId = await receive('1204', 1, 'T2.1-14', ownerId)
    const mine = await aProject(ownerId, { '1204': 50 })
    const theirs = await aProject(ownerId, { '1204': 50 })
    const promised = { batchId, projectId: theirs }
    await open().prisma.stockPromise.upsert({
      where: { projectId_batchId: promised },
      create: { id: newId(), ...promised, strandTenths: skein / 2 },
      update: {},
    })
    await open().prisma.stockPromise.deleteMany({ where: { batchId, projectId: mine } })
    const other = granted(await startPull({ projectIds: [theirs] })).walkId
    await open().prisma.stockPromise.deleteMany({ where: { batchId } })
    await open().prisma.stockPromise.create({ data: { id: newId(), batchId, projectId: mine, strandTenths: skein / 2 } })
    const own = granted(await startPull({ projectIds: [mine] })).walkId
    for (const walkId of [own, other]) await tick(walkId, await linesOf(walkId))
    granted(await carryOut({ walkId: own, bags: [{ projectId: mine, label: 'K-11' }] }))
    const late = granted(await carryOut({ walkId: other, bags: [{ projectId: theirs, label: 'K-12' }] }))
    expect(late).toMatchObject({ carried: 0, left: [{ why: 'promised' }], isDone: false })
    expect(await putUps(ownerId)).toBe(1)
  })

  it('brings the open lines up to date and keeps what is in hand, with its line', async () => {
    const ownerId = await anOwner()
    await receive('0311', 3, 'T2.2-05', ownerId)
    await receive('9', 1, 'T2.1-14', ownerId)
    const projectId = await aProject(ownerId, { '0311': 100, '9': 100 })
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    const [nine, red] = (await linesOf(walkId)) as [ShownLine, ShownLine]
    await tick(walkId, [red])
    await open().prisma.stockPromise.deleteMany({ where: { projectId, batchId: nine.thingId } })
    const ten = await receive('10', 1, 'T10.1-03', ownerId)
    await open().prisma.stockPromise.create({ data: { id: newId(), batchId: ten, projectId, strandTenths: skein } })
    expect(granted(await bringUpToDate({ walkId }))).toEqual({ added: 1, removed: 1 })
    const lines = await linesOf(walkId)
    expect(lines.map(({ id, thingId, status }) => [id === red.id, thingId, status])).toEqual([
      [true, red.thingId, 'done'],
      [false, ten, 'open'],
    ])
    granted(await closeWalk({ walkId, status: 'dropped', who: 'Ines Coldwell' }))
    expect(await bringUpToDate({ walkId })).toMatchObject({ ok: false, error: { kind: 'walk-closed' } })
  })

  it('says where it may be, takes another lot instead with its promise, and reports what is missing', async () => {
    const ownerId = await anOwner()
    const lot18 = await receive('0311', 2, 'T2.2-05', ownerId, '18')
    const projectId = await aProject(ownerId, { '0311': 100 })
    const lot22 = await receive('0311', 3, 'T10.1-03', ownerId, '22')
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    const [line] = (await linesOf(walkId)) as [ShownLine]
    expect(line.thingId).toBe(lot18)
    await tick(walkId, [line], 'not there')
    const where = await readWhereMayBe(walkId, line.id)
    expect(where?.others).toMatchObject([
      { batch: { id: lot22 }, freeStrandTenths: 3 * skein, isStandIn: false, place: { label: 'T10.1-03' } },
    ])
    expect(where?.lastMoved).toMatchObject({ kind: 'receive', to: 'T2.2-05' })
    granted(await takeInstead({ walkId, lineIds: [line.id], batchId: lot22, who: 'Ines Coldwell' }))
    const promises = await open().prisma.stockPromise.findMany({ where: { projectId } })
    expect(promises.map(({ batchId, strandTenths }) => [batchId, strandTenths])).toEqual([[lot22, skein]])
    expect((await linesOf(walkId))[0]).toMatchObject({ thingId: lot22, status: 'instead', count: 1 })
    granted(await carryOut({ walkId, bags: [{ projectId, label: 'K-13' }] }))
    expect(await putUps(ownerId)).toBe(5)

    const again = await aProject(ownerId, { '0311': 100 })
    const second = granted(await startPull({ projectIds: [again] })).walkId
    const [lost] = (await linesOf(second)) as [ShownLine]
    granted(await reportLineMissing({ walkId: second, lineIds: [lost.id], who: 'Ines Coldwell' }))
    const missing = await open().prisma.missingThing.findMany({ where: { walkId: second } })
    expect(missing).toMatchObject([{ status: 'open', projectId: again, askedBy: 'Ines Coldwell' }])
    expect((await linesOf(second))[0]).toMatchObject({ status: 'not there', note: 'Reported missing' })
    expect(await putUps(ownerId)).toBe(5)

    // Given up while its list was open, a project is promised nothing more.
    const given = await aProject(ownerId, { '0311': 50 })
    const third = granted(await startPull({ projectIds: [given] })).walkId
    const [left] = (await linesOf(third)) as [ShownLine]
    granted(await abandonProject({ projectId: given }))
    const other = left.thingId === lot22 ? lot18 : lot22
    expect(await takeInstead({ walkId: third, lineIds: [left.id], batchId: other })).toMatchObject({
      error: { kind: 'project-not-open' },
    })
    expect(await open().prisma.stockPromise.count({ where: { projectId: given } })).toBe(0)
  })

  it('puts back in walking order, laid with what lies at home', async () => {
    const ownerId = await anOwner()
    const red = await receive('0311', 5, 'T10.1-03', ownerId)
    await receive('9', 1, 'T2.1-14', ownerId)
    const projectId = await aProject(ownerId, { '0311': 200, '9': 100 })
    const pull = granted(await startPull({ projectIds: [projectId] })).walkId
    await tick(pull, await linesOf(pull))
    granted(await carryOut({ walkId: pull, bags: [{ projectId, label: 'K-14' }] }))
    const bag = (await findProject(projectId))?.place?.id ?? ''
    const inBag = await open().prisma.batch.findMany({ where: { ownerId, currentPlaceId: bag }, orderBy: { id: 'desc' } })
    const { walkId } = granted(
      await write(async (writing) =>
        ok(
          await createPutBackWalk(writing, {
            ...{ title: 'Put back from K-14', placeId: bag, projectIds: [projectId] },
            lines: inBag.map(({ id, wholePutUps }) => ({ batchId: id, count: wholePutUps, takesPart: false, toPlaceId: null })),
          }),
        ),
      ),
    )
    const lines = await linesOf(walkId)
    expect(lines.map(({ place }) => place?.label)).toEqual(['T2.1-14', 'T10.1-03'])
    await tick(walkId, lines)
    expect(granted(await carryOut({ walkId }))).toMatchObject({ carried: 2, isDone: true })
    expect(await open().prisma.batch.findUniqueOrThrow({ where: { id: red } })).toMatchObject({ wholePutUps: 5 })
    expect(await open().prisma.batch.count({ where: { ownerId, currentPlaceId: bag, goneAt: null } })).toBe(0)
    expect(await putUps(ownerId)).toBe(6)
  })

  describe('with more projects than SQLite takes parameters', () => {
    it('makes one list for all of them, ticks and carries it out', { timeout: 120_000 }, async () => {
      const { prisma } = open()
      const ownerId = await anOwner()
      const count = 1_050
      const batchId = await receive('1204', count, 'T2.1-14', ownerId)
      const [chartId, designId] = [newId(), newId()]
      await addCharted(open(), { ownerId, title: 'Acorn Reckoner', chartId, designId })
      await prisma.chart.update({ where: { id: chartId }, data: { kind: 'file' } })
      const bag = newId()
      await prisma.place.create({ data: aPlace(bag, `K ${bag}`, 'bag') })
      const projectIds = Array.from({ length: count }, newId)
      await prisma.project.createMany({ data: projectIds.map((id) => ({ id, designId, ownerId, placeId: bag })) })
      await prisma.stockPromise.createMany({
        data: projectIds.map((projectId) => ({ id: newId(), projectId, batchId, strandTenths: skein })),
      })
      const { walkId } = granted(await startPull({ projectIds }))
      const lines = await linesOf(walkId)
      expect(lines).toHaveLength(count)
      expect((await findWalk(walkId))?.progress.things).toBe(1)
      expect(granted(await tick(walkId, lines)).written).toBe(count)
      expect(granted(await bringUpToDate({ walkId }))).toEqual({ added: 0, removed: 0 })
      expect(granted(await carryOut({ walkId }))).toMatchObject({ carried: count, left: [], isDone: true })
      expect(await putUps(ownerId)).toBe(count)
    })
  })
})
