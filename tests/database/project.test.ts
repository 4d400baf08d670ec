import { randomUUID } from 'node:crypto'
import { beforeAll, beforeEach, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { changeBag } from '#lib/db/project/change-bag'
import { editProject } from '#lib/db/project/edit-project'
import { type FinishProject, finishProject } from '#lib/db/project/finish-project'
import { readFinishSheet } from '#lib/db/project/finish-sheet'
import { kitProject } from '#lib/db/project/kit-project'
import { moveProject } from '#lib/db/project/move-project'
import { promiseAgain } from '#lib/db/project/promise-again'
import { readPullList } from '#lib/db/project/pull-list'
import { readPutBackList } from '#lib/db/project/put-back-list'
import { abandonProject, releaseProject } from '#lib/db/project/put-kit-back'
import { findProject, listFinishes, listProjectsUnderWay } from '#lib/db/project/queries'
import { readStartChoices } from '#lib/db/project/start-choices'
import { type StartProject, startProject } from '#lib/db/project/start-project'
import { getSettings } from '#lib/db/settings/settings'
import { correctBatch } from '#lib/db/stock/correct-batch'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { logWork } from '#lib/db/work/log-work'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, aPlace, aStart, goods, skein } from './things'

/** 5 yd of six strands, and 50 m of a single one. */
const handDyed = 274_320
const spool = 500_000

type Key = { code: string; hundredths: number }

describeOnEachEngine('a project from start to finish', ({ open }) => {
  const owner = { id: newId(), name: 'Hanne Drewitt' }
  const threads: Record<string, { id: string; putUp: number; strands: number }> = {}
  const drawers = { 'T10.1-03': '', 'T4.3-01': '', 'T2.2-05': '', 'T2.1-14': '', 'T3.1-22': '', R1: '' }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: { ...owner, nameKey: 'hanne drewitt' } })
    for (const label of Object.keys(drawers) as (keyof typeof drawers)[]) {
      const id = newId()
      drawers[label] = id
      const kind = label === 'R1' ? 'rack' : 'compartment'
      await prisma.place.create({ data: aPlace(id, label, kind) })
    }
    const lines = [
      {
        maker: 'Larkholm',
        name: 'stranded',
        strands: 6,
        putUp: skein,
        lotsMatter: false,
        codes: ['0087', '0311', 'Ecru', '1204'],
      },
      { maker: 'Oddny Loft', name: 'hand-dyed', strands: 6, putUp: handDyed, lotsMatter: true, codes: ['Tarn Blue'] },
      { maker: 'Quillwater', name: 'metallic', strands: 1, putUp: spool, lotsMatter: false, codes: ['12'] },
    ]
    for (const { maker, name, strands, putUp, lotsMatter, codes } of lines) {
      const makerId = newId()
      const lineId = newId()
      await prisma.maker.create({ data: { id: makerId, name: maker, nameKey: maker.toLowerCase() } })
      await prisma.threadLine.create({
        data: { id: lineId, makerId, name, nameKey: name, strands, putUpStrandTenths: putUp, lotsMatter },
      })
      for (const code of codes) {
        const id = newId()
        threads[code] = { id, putUp, strands }
        await prisma.thread.create({ data: { id, lineId, code } })
      }
    }
  })

  // Each test starts from empty drawers: what earlier ones left is taken over by an owner nobody asks about.
  beforeEach(async () => {
    const { prisma } = open()
    const id = newId()
    await prisma.owner.create({ data: { id, name: id, nameKey: id } })
    await prisma.batch.updateMany({ where: { ownerId: owner.id }, data: { ownerId: id } })
  })

  const threadOf = (code: string) => threads[code] as { id: string; putUp: number; strands: number }

  /** A chart in rack R1 with one design and, where a key is given, one list of it; one strand each, amounts in put-ups. */
  async function addDesign(key: Key[], title = `Design ${randomUUID().slice(0, 8)}`) {
    const { prisma } = open()
    const [chartId, designId, listId] = [newId(), newId(), newId()]
    const titleKey = title.toLowerCase()
    const places = { homePlaceId: drawers.R1, currentPlaceId: drawers.R1 }
    await prisma.chart.create({ data: { id: chartId, title, titleKey, ownerId: owner.id, ...places } })
    await prisma.movement.create({
      data: { id: newId(), revision: 0, at: new Date(), kind: 'receive', chartId, wholeDelta: 1, toPlaceId: drawers.R1 },
    })
    await prisma.design.create({
      data: {
        ...{ id: designId, chartId, title, titleKey, widthStitches: 140, heightStitches: 98 },
        ...{ advisedThreads: 28, advisedPerUm: 25_400, advisedOver: 2, advisedWeave: 'single' },
      },
    })
    const keyed = key.map(({ code, hundredths }) => {
      const { id: threadId, putUp, strands } = threadOf(code)
      return { threadId, strands: 2, statedHundredths: hundredths, statedPutUpTenths: putUp / strands }
    })
    await addKey(open(), { id: listId, designId, name: 'cotton', keyed })
    return { chartId, designId, listId, title }
  }

  async function receive(code: string, wholePutUps: number, label: keyof typeof drawers, lot: string | null = null) {
    const received = { threadId: threadOf(code).id, ownerId: owner.id, lot, wholePutUps, homePlaceId: drawers[label] }
    return granted(await receiveThread(goods(received))).batchId
  }

  async function addCloth(label: string) {
    const id = newId()
    await open().prisma.clothPiece.create({
      data: {
        ...{ id, ownerId: owner.id, label, labelKey: label.toLowerCase(), name: 'Harrowmere linen', weave: 'single' },
        ...{ endsThreads: 28, endsPerUm: 25_400, picksThreads: 28, picksPerUm: 25_400 },
        ...{ widthUm: 18 * 25_400, heightUm: 27 * 25_400, isSquared: true, sizeCertainty: 'measured' },
        ...{ homePlaceId: drawers.R1, currentPlaceId: drawers.R1 },
      },
    })
    await open().prisma.movement.create({
      data: { id: newId(), revision: 0, at: new Date(), kind: 'receive', clothPieceId: id, wholeDelta: 1 },
    })
    return id
  }

  const start = async (design: { designId: string; listId: string }, more: Partial<StartProject> = {}) => {
    const of = { designId: design.designId, threadListId: design.listId, ownerId: owner.id }
    return granted(await startProject(aStart({ ...of, ...more })))
  }

  const finishWith = (projectId: string, more: Partial<FinishProject> = {}): FinishProject => ({
    ...{ projectId, finishedOn: '2026-11-20', hoursTenths: 405, stitchesDone: 8_000, used: [], missingBatchIds: [] },
    ...{ cloth: { kind: 'used', offcuts: [] }, finishing: null, forWhom: null, placeLabel: null, note: null, photo: null },
    ...more,
  })

  /** What the owner has of each thread, in strand tenths, and that of the journal, which must be the same. */
  async function held() {
    const { prisma } = open()
    const batches = await prisma.batch.findMany({ where: { ownerId: owner.id }, include: { movements: true, thread: true } })
    const byCode: Record<string, number> = {}
    for (const batch of batches) {
      const whole = batch.movements.reduce((sum, { wholeDelta }) => sum + wholeDelta, 0)
      const part = batch.movements.reduce((sum, { partDeltaStrandTenths }) => sum + partDeltaStrandTenths, 0)
      expect([batch.wholePutUps, batch.partStrandTenths], `journal of ${batch.thread.code}`).toEqual([whole, part])
      if (batch.goneAt) expect([whole, part]).toEqual([0, 0])
      byCode[batch.thread.code] = (byCode[batch.thread.code] ?? 0) + whole * batch.putUpStrandTenths + part
    }
    return byCode
  }

  const kitAndStart = async (projectId: string, bagLabel: string) => {
    const kitted = await kitProject({ projectId, bagLabel, takesChart: true })
    if (!kitted.ok) throw new Error(kitted.error.kind)
    const begun = await moveProject({ projectId, to: 'stitching', today: '2026-10-01' })
    if (!begun.ok) throw new Error(begun.error.kind)
    return kitted.value
  }

  /** Larkholm 0311 1.2, 0087 0.3, Ecru 1, Tarn Blue 1.5 of one lot, Quillwater 12 a quarter, 1204 a half: eight put-ups to pull. */
  const kettleKey: Key[] = [
    { code: '0311', hundredths: 120 },
    { code: '0087', hundredths: 30 },
    { code: 'Ecru', hundredths: 100 },
    { code: 'Tarn Blue', hundredths: 150 },
    { code: '12', hundredths: 25 },
    { code: '1204', hundredths: 50 },
  ]

  async function fillDrawers() {
    return {
      '0087': await receive('0087', 1, 'T2.1-14'),
      '0311': await receive('0311', 5, 'T2.2-05'),
      Ecru: await receive('Ecru', 1, 'T2.2-05'),
      'Tarn Blue': await receive('Tarn Blue', 2, 'T10.1-03', '18'),
      '12': await receive('12', 1, 'T4.3-01'),
      '1204': await receive('1204', 1, 'T3.1-22'),
    }
  }

  it('promises exact batches on starting, and says what is short instead of refusing', async () => {
    await receive('0087', 1, 'T2.1-14')
    const tarn18 = await receive('Tarn Blue', 1, 'T10.1-03', '18')
    await receive('Tarn Blue', 1, 'T10.1-03', '22')
    const design = await addDesign(kettleKey)
    const started = await start(design, { bagLabel: 'K-01' })
    const tarn = threadOf('Tarn Blue').id
    expect(started.promised.find(({ threadId }) => threadId === tarn)).toEqual({
      threadId: tarn,
      batchId: tarn18,
      strandTenths: handDyed,
    })
    expect(started.short.find(({ threadId }) => threadId === tarn)?.shortStrandTenths).toBe(handDyed / 2)
    expect(started.short.map(({ threadId }) => threadId)).toContain(threadOf('0311').id)
    const project = await findProject(started.projectId)
    expect(project).toMatchObject({ status: 'planned', place: { label: 'K-01', kind: 'bag' } })
    expect(await open().prisma.change.count({ where: { noun: 'batch', nounId: tarn18 } })).toBeGreaterThanOrEqual(2)
  })

  it('goes the whole way: promised, pulled in walking order, stitched, put back, and stock is less by what was used', async () => {
    const batches = await fillDrawers()
    const design = await addDesign(kettleKey, 'Kettle at Wend Cross')
    const clothPieceId = await addCloth('L-9')
    const choices = await readStartChoices(design.designId, owner.id, await getSettings())
    expect(choices?.lists.map(({ name, cover }) => [name, cover.isStitchable])).toEqual([['cotton', true]])
    expect(choices?.cloth.advised.map(({ piece }) => piece.label)).toContain('L-9')
    const { projectId, short } = await start(design, { clothPieceId, bagLabel: 'K-07', forWhom: 'Ines Coldwell' })
    expect(short).toEqual([])
    const other = await addDesign([{ code: '1204', hundredths: 100 }])
    expect((await start(other)).short).toEqual([{ threadId: threadOf('1204').id, shortStrandTenths: skein / 2 }])
    await open().prisma.stockPromise.deleteMany({ where: { project: { designId: other.designId } } })

    const before = await readPullList(projectId)
    expect(before?.lines.map(({ thread, place, pull }) => [place?.label, thread.code, pull.wholePutUps])).toEqual([
      ['T2.1-14', '0087', 1],
      ['T2.2-05', '0311', 2],
      ['T2.2-05', 'Ecru', 1],
      ['T3.1-22', '1204', 1],
      ['T4.3-01', '12', 1],
      ['T10.1-03', 'Tarn Blue', 2],
    ])
    const stockBefore = await held()
    expect(await kitAndStart(projectId, 'K-07')).toEqual({ takenCount: 6, leftThere: [] })
    expect(await held()).toEqual(stockBefore)
    expect((await readPullList(projectId))?.lines.every((line) => line.isInBag && !line.broken !== null)).toBe(true)
    expect(await findProject(projectId)).toMatchObject({
      startedOn: '2026-10-01',
      chart: { place: { label: 'K-07' }, home: { label: 'R1' } },
      clothPiece: { place: { label: 'K-07' } },
    })

    const said = { day: '2026-10-19', today: '2026-10-20', stitches: 3_000, minutes: 750, donePerMille: null, note: null }
    await logWork({ projectId, ...said })
    await moveProject({ projectId, to: 'resting', today: '2026-10-20' })
    await moveProject({ projectId, to: 'stitching', today: '2026-11-01' })
    expect(await findProject(projectId)).toMatchObject({ startedOn: '2026-10-01', hoursTenths: 125, stitchesDone: 3_000 })

    const sheet = await readFinishSheet(projectId)
    expect(sheet?.threads.map(({ thread }) => thread.code)).toEqual(['0087', '0311', 'Ecru', '1204', '12', 'Tarn Blue'])
    // 140 × 98 over two on 28 is 10 × 7 in, 16 × 13 with 3 in all round; out of 18 × 27 that leaves 18 × 14.
    expect(sheet?.expectedOffcuts[0]).toEqual({ widthUm: 18 * 25_400, heightUm: 14 * 25_400 })

    const finished = await finishProject(
      finishWith(projectId, {
        missingBatchIds: [batches['1204']],
        cloth: {
          kind: 'used',
          offcuts: [{ label: 'L-9b', widthUm: 18 * 25_400, heightUm: 14 * 25_400, placeLabel: 'Offcut box' }],
        },
        placeLabel: 'Framer, Marl Street',
      }),
    )
    if (!finished.ok) throw new Error(finished.error.kind)
    expect(finished.value.check).toEqual({ pulled: 8, back: 4, usedUp: 3, missing: 1 })

    const after = await held()
    const used = Object.fromEntries(Object.entries(stockBefore).map(([code, tenths]) => [code, tenths - (after[code] ?? 0)]))
    expect(used).toEqual({
      '0087': 0.3 * skein,
      '0311': 1.2 * skein,
      Ecru: skein,
      'Tarn Blue': 1.5 * handDyed,
      '12': 0.25 * spool,
      '1204': 0,
    })

    const list = await readPutBackList(projectId)
    expect(
      list?.back.map((line) => [line.thread.code, line.lot, line.wholePutUps, line.partStrandTenths, line.place?.label]),
    ).toEqual([
      ['0087', null, 0, 0.7 * skein, 'T2.1-14'],
      ['0311', null, 0, 0.8 * skein, 'T2.2-05'],
      ['12', null, 0, 0.75 * spool, 'T4.3-01'],
      ['Tarn Blue', '18', 0, 0.5 * handDyed, 'T10.1-03'],
    ])
    expect(list?.usedUp.map(({ thread, putUps }) => [thread.code, putUps]).sort()).toEqual([
      ['0311', 1],
      ['Ecru', 1],
      ['Tarn Blue', 1],
    ])
    expect(list?.missing.map(({ thread, lastSeen }) => [thread.code, lastSeen?.label])).toEqual([['1204', 'K-07']])
    const home = await open().prisma.batch.findUniqueOrThrow({ where: { id: batches['0311'] } })
    expect(home).toMatchObject({ wholePutUps: 3, partStrandTenths: 0.8 * skein, currentPlaceId: drawers['T2.2-05'] })
    const lost = await open().prisma.batch.findUniqueOrThrow({ where: { id: batches['1204'] } })
    expect(lost).toMatchObject({ wholePutUps: 1, homePlaceId: drawers['T3.1-22'], goneAt: null })
    expect(lost.outSince).not.toBeNull()

    const cloth = await open().prisma.clothPiece.findMany({
      where: { OR: [{ id: clothPieceId }, { parentId: clothPieceId }] },
      include: { movements: true, homePlace: true },
      orderBy: { id: 'asc' },
    })
    expect(
      cloth.map((piece) => [piece.goneAt === null, piece.movements.reduce((sum, { wholeDelta }) => sum + wholeDelta, 0)]),
    ).toEqual([
      [false, 0],
      [true, 1],
    ])
    expect(cloth[1]).toMatchObject({ label: 'L-9b', homePlace: { label: 'Offcut box' }, sizeCertainty: 'measured' })
    expect(await findProject(projectId)).toMatchObject({
      ...{ status: 'finished', finishedOn: '2026-11-20', place: { label: 'Framer, Marl Street' }, forWhom: null },
      chart: { place: { label: 'R1' } },
    })
    expect(await open().prisma.stockPromise.count({ where: { projectId } })).toBe(0)
    const finishes = await listFinishes({ ownerIds: [owner.id], page: 1, perPage: 50 })
    expect(finishes.years).toEqual([{ year: '2026', pieces: 1, hoursTenths: 405, stitches: 8_000 }])
    expect(finishes.rows.map((row) => row.design.title)).toEqual(['Kettle at Wend Cross'])
  })

  it('uses exactly what was said, all of it where that was said, and refuses more than there was', async () => {
    await receive('0311', 3, 'T2.2-05')
    await receive('Ecru', 2, 'T2.1-14')
    const design = await addDesign([
      { code: '0311', hundredths: 120 },
      { code: 'Ecru', hundredths: 50 },
    ])
    const { projectId } = await start(design)
    await kitAndStart(projectId, 'K-11')
    const [red, ecru] = [threadOf('0311').id, threadOf('Ecru').id]
    const before = await held()
    const tooMuch = await finishProject(finishWith(projectId, { used: [{ threadId: red, strandTenths: 2 * skein + 1 }] }))
    expect(tooMuch).toEqual({
      ok: false,
      error: { kind: 'not-enough', threadId: red, heldStrandTenths: 2 * skein, requestedStrandTenths: 2 * skein + 1 },
    })
    expect(await held()).toEqual(before)
    expect(await findProject(projectId)).toMatchObject({ status: 'stitching' })
    const finished = await finishProject(
      finishWith(projectId, {
        used: [
          { threadId: red, strandTenths: 'all' },
          { threadId: ecru, strandTenths: 123_456 },
        ],
      }),
    )
    expect(finished.ok).toBe(true)
    expect(await held()).toEqual({ '0311': skein, Ecru: 2 * skein - 123_456 })
  })

  it('lets one of two people finish, and tells the other', async () => {
    await receive('0311', 2, 'T2.2-05')
    const { projectId } = await start(await addDesign([{ code: '0311', hundredths: 60 }]))
    await kitAndStart(projectId, 'K-12')
    const version = (await findProject(projectId))?.version as number
    const both = await Promise.all([
      finishProject({ ...finishWith(projectId), version }),
      finishProject({ ...finishWith(projectId), version }),
    ])
    expect(both.filter((result) => result.ok)).toHaveLength(1)
    expect(both.find((result) => !result.ok)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await held()).toEqual({ '0311': 2 * skein - 0.6 * skein })
    expect(await finishProject(finishWith(projectId))).toMatchObject({
      ok: false,
      error: { kind: 'not-from-here', from: 'finished' },
    })
  })

  it('puts everything back when a project is given up, as if it had never been pulled', async () => {
    await fillDrawers()
    const clothPieceId = await addCloth(`L-${randomUUID().slice(0, 6)}`)
    const design = await addDesign(kettleKey)
    const where = async () => {
      const batches = await open().prisma.batch.findMany({ where: { ownerId: owner.id, goneAt: null }, orderBy: { id: 'asc' } })
      return batches.map(({ id, wholePutUps, partStrandTenths, currentPlaceId, outSince }) => ({
        ...{ id, wholePutUps, partStrandTenths, currentPlaceId, outSince },
      }))
    }
    const before = await where()
    const { projectId } = await start(design, { clothPieceId })
    await kitAndStart(projectId, 'K-13')
    expect((await where()).length).toBeGreaterThan(before.length)
    expect((await abandonProject({ projectId })).ok).toBe(true)
    expect(await where()).toEqual(before)
    expect(await open().prisma.stockPromise.count({ where: { projectId } })).toBe(0)
    expect(await open().prisma.clothPiece.findUniqueOrThrow({ where: { id: clothPieceId } })).toMatchObject({
      ...{ currentPlaceId: drawers.R1, outSince: null, goneAt: null },
    })
    expect(await open().prisma.chart.findUniqueOrThrow({ where: { id: design.chartId } })).toMatchObject({
      ...{ currentPlaceId: drawers.R1, outSince: null },
    })
    expect(await findProject(projectId)).toMatchObject({ status: 'abandoned', place: null })
  })

  it('empties the bag of what is only kitted and plans it again, its bag and cloth still its own', async () => {
    await fillDrawers()
    const clothPieceId = await addCloth(`L-${randomUUID().slice(0, 6)}`)
    const design = await addDesign(kettleKey)
    const { projectId } = await start(design, { clothPieceId })
    expect((await kitProject({ projectId, bagLabel: 'K-21', takesChart: true })).ok).toBe(true)
    expect((await releaseProject({ projectId })).ok).toBe(true)
    expect(await findProject(projectId)).toMatchObject({
      ...{ status: 'planned', place: { label: 'K-21' }, clothPiece: { id: clothPieceId, place: { label: 'R1' } } },
      chart: { place: { label: 'R1' } },
    })
    expect(await open().prisma.stockPromise.count({ where: { projectId } })).toBe(0)
    expect(await open().prisma.batch.count({ where: { ownerId: owner.id, goneAt: null, outSince: { not: null } } })).toBe(0)
    expect(await promiseAgain({ projectId })).toMatchObject({ ok: true, value: { short: [] } })
  })

  it('carries the kit to another bag, thread, cloth and chart', async () => {
    await receive('0311', 2, 'T2.2-05')
    const clothPieceId = await addCloth(`L-${randomUUID().slice(0, 6)}`)
    const { projectId } = await start(await addDesign([{ code: '0311', hundredths: 60 }]), { clothPieceId })
    await kitAndStart(projectId, 'K-14')
    expect(await changeBag({ projectId, bagLabel: 'K-15' })).toEqual({ ok: true, value: { movedCount: 1 } })
    const project = await findProject(projectId)
    expect(project).toMatchObject({
      place: { label: 'K-15' },
      clothPiece: { place: { label: 'K-15' } },
      chart: { place: { label: 'K-15' } },
    })
    expect((await readPullList(projectId))?.lines.map((line) => [line.place?.label, line.isInBag])).toEqual([['K-15', true]])
    expect((await held())['0311']).toBe(2 * skein)
  })

  it('promises what has come in since, keeps what is in the bag, and shows a promise the drawer cannot keep', async () => {
    const batchId = await receive('0311', 1, 'T2.2-05')
    const { projectId, short } = await start(await addDesign([{ code: '0311', hundredths: 150 }]))
    expect(short).toEqual([{ threadId: threadOf('0311').id, shortStrandTenths: skein / 2 }])
    await kitAndStart(projectId, 'K-16')
    await receive('0311', 2, 'T2.2-05')
    expect((await readPullList(projectId))?.threads).toMatchObject([{ promisedStrandTenths: skein, moreStrandTenths: 2 * skein }])
    const again = await promiseAgain({ projectId })
    expect(again).toMatchObject({ ok: true, value: { promised: [{ strandTenths: skein / 2 }], short: [] } })
    const promises = await open().prisma.stockPromise.findMany({
      where: { projectId },
      select: { batchId: true, strandTenths: true },
    })
    expect(promises).toContainEqual({ batchId, strandTenths: skein })
    const shelf = promises.find((promise) => promise.batchId !== batchId)?.batchId as string
    const corrected = await correctBatch({
      ...{ batchId: shelf, wholePutUps: 0, partStrandTenths: 0, partCertainty: 'none', reason: 'counted' },
    })
    expect(corrected.ok).toBe(true)
    const lines = (await readPullList(projectId))?.lines ?? []
    expect(lines.filter((line) => line.broken !== null).map((line) => line.batch.id)).toEqual([shelf])
    expect(await kitProject({ projectId, bagLabel: 'K-16', takesChart: false })).toMatchObject({
      value: { takenCount: 0, leftThere: [{ batchId: shelf }] },
    })
    expect((await releaseProject({ projectId })).ok).toBe(true)
    expect(await open().prisma.stockPromise.count({ where: { projectId } })).toBe(0)
  })

  it('keeps a piece of cloth for one project; a wish keeps none', async () => {
    const clothPieceId = await addCloth(`L-${randomUUID().slice(0, 6)}`)
    const [rooks, lanterns] = [await addDesign([], `Rook Hill ${randomUUID()}`), await addDesign([])]
    const wish = await start(lanterns, { clothPieceId, isWish: true })
    await start(rooks, { clothPieceId })
    const refused = { ok: false, error: { kind: 'cloth-reserved', clothPieceId, title: rooks.title } }
    expect(await promiseAgain({ projectId: wish.projectId })).toEqual(refused)
    const under = await listProjectsUnderWay({ ownerIds: [owner.id], page: 1, perPage: 200 })
    expect(under.rows.find(({ id }) => id === wish.projectId)?.status).toBe('wanted')
  })

  it('chooses promises anew when the quantity changes, until it is kitted', async () => {
    await receive('0311', 5, 'T2.2-05')
    const design = await addDesign([{ code: '0311', hundredths: 100 }])
    const { projectId } = await start(design)
    const details = {
      ...{ projectId, threadListId: design.listId, clothPieceId: null, over: null, forWhom: null, dueOn: '2026-12-01' },
      ...{ finishing: null, note: null, hoursTenths: 0, stitchesDone: 0 },
    }
    expect(await editProject({ ...details, quantity: 3 })).toEqual({ ok: true, value: null })
    const promised = () => open().prisma.stockPromise.aggregate({ where: { projectId }, _sum: { strandTenths: true } })
    expect((await promised())._sum.strandTenths).toBe(3 * skein)
    await kitAndStart(projectId, 'K-17')
    expect(await editProject({ ...details, quantity: 4 })).toEqual({ ok: false, error: { kind: 'already-kitted' } })
    expect(await editProject({ ...details, quantity: 3, version: 0 })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
  })
})
