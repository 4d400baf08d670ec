import { beforeAll, expect, it } from 'vitest'
import { listProjectClashesOperation, loanOperations } from '#api/loans'
import { planProjectDayOperation } from '#api/projects'
import { addChart } from '#lib/db/chart/add-chart'
import { addDesign } from '#lib/db/chart/add-design'
import { findChart } from '#lib/db/chart/queries'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { borrowThings } from '#lib/db/loan/borrow'
import { clashesOfPlan } from '#lib/db/loan/clashes'
import { closeLoan } from '#lib/db/loan/close-loan'
import { extendLoan } from '#lib/db/loan/extend-loan'
import type { LoanThing } from '#lib/db/loan/hand-over'
import { lendThings } from '#lib/db/loan/lend'
import type { LoanInput } from '#lib/db/loan/open-loan'
import { askLending, findLoan, listLoans } from '#lib/db/loan/queries'
import { sendAway } from '#lib/db/loan/send'
import { takeBack } from '#lib/db/loan/take-back'
import { newId } from '#lib/db/new-id'
import { addNotion } from '#lib/db/notion/add-notion'
import { findPlaceByLabel } from '#lib/db/place/queries'
import { returnChart } from '#lib/db/place/return-chart'
import { readToday } from '#lib/db/planning/days/read-today'
import { editProject } from '#lib/db/project/edit-project'
import { kitProject } from '#lib/db/project/kit-project'
import { findProject } from '#lib/db/project/queries'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { dueAfterWeeks } from '#lib/loan/loan'
import { POST as close } from '../../app/api/v1/loans/[loanId]/close/route'
import { POST as extend } from '../../app/api/v1/loans/[loanId]/extend/route'
import { GET as get } from '../../app/api/v1/loans/[loanId]/route'
import { POST as takeIn } from '../../app/api/v1/loans/[loanId]/take-back/route'
import { POST as borrow } from '../../app/api/v1/loans/borrow/route'
import { POST as lendByApi } from '../../app/api/v1/loans/lend/route'
import { GET as mayLend } from '../../app/api/v1/loans/may-lend/route'
import { GET as list } from '../../app/api/v1/loans/route'
import { POST as send } from '../../app/api/v1/loans/send/route'
import { GET as clashes } from '../../app/api/v1/projects/[projectId]/clashes/route'
import { POST as plan } from '../../app/api/v1/projects/[projectId]/planned-on/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, addLarkholm, aLeaflet, aPlace, aStart, goods, hanneDrewitt, skein, theShop } from './things'

describeOnEachEngine('loans', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  const ids = { rack: newId(), drawer: newId(), line: newId(), thread: newId() }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    await prisma.place.createMany({ data: [aPlace(ids.rack, 'R2-3', 'rack'), aPlace(ids.drawer, 'T2.1-14', 'compartment')] })
    const makerId = await addLarkholm(open())
    const line = { name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein }
    await prisma.threadLine.create({ data: { id: ids.line, makerId, ...line } })
    await prisma.thread.create({ data: { id: ids.thread, lineId: ids.line, code: '0311' } })
  })

  const loansToday = async (today: string) =>
    (await readToday({ ownerIds: [hanne.id], today })).filter(({ kind }) => kind.startsWith('loan'))

  const chart = async (title: string, over: object = {}) => {
    const made = await addChart({
      ...{ ...aLeaflet(title, hanne.id), placeLabel: 'R2-3', isAnother: true, design: aDesign(title) },
      ...over,
    })
    return granted(made)
  }
  const terms = (over: Partial<LoanInput> = {}): LoanInput & { dueOn: string } => ({
    ...{ withLabel: 'Ines Coldwell', withKind: 'person', ownerId: hanne.id, reason: 'to stitch the alphabet', note: null },
    ...{ fromOn: '2026-03-03', things: [] },
    ...over,
    dueOn: over.dueOn ?? '2026-04-28',
  })
  const lend = (things: LoanThing[], over: Partial<LoanInput> = {}) => lendThings(terms({ things, ...over }))
  const back = (loanId: string, over: object = {}) =>
    takeBack({ loanId, lineIds: null, on: '2026-04-20', note: null, placeLabel: null, ...over })
  const chartOf = async (id: string) => (await findChart(id)) as NonNullable<Awaited<ReturnType<typeof findChart>>>

  it('A15: a booklet of five designs, lent over a plan', async () => {
    // Trade notes, A15, worked by hand.
    const title = 'Hollin Staithe Alphabets'
    const { chartId, designId } = await chart(title, { kind: 'booklet', design: aDesign('Alphabet one') })
    const designs = [designId]
    for (const word of ['two', 'three', 'four', 'five'])
      designs.push(granted(await addDesign({ chartId, design: aDesign(`Alphabet ${word}`) })).id)
    const start = async (designId: string) =>
      granted(await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id }))).projectId
    const finished = await start(designs[1] as string)
    await open().prisma.project.update({ where: { id: finished }, data: { status: 'finished', finishedOn: '2026-01-10' } })
    const planned = granted(
      await startProject(
        aStart({ designId: designs[3] as string, threadListId: null, ownerId: hanne.id, plannedOn: '2026-04-20' }),
      ),
    ).projectId

    const dueOn = dueAfterWeeks('2026-03-03', 8)
    expect(dueOn).toBe('2026-04-28')
    const things: LoanThing[] = [{ noun: 'chart', id: chartId, count: 1 }]
    const clash = { fromOn: '2026-04-20', untilOn: '2026-04-28', days: 9 }
    expect(await lend(things, { dueOn })).toMatchObject({
      error: { kind: 'clash', clashes: [{ projectId: planned, title: 'Alphabet four', plannedOn: '2026-04-20', clash }] },
    })
    expect((await chartOf(chartId)).outSince).toBeNull()
    const { loanId } = granted(await lend(things, { dueOn, acceptsClash: true }))

    // Planning over the loan says the same.
    for (const designId of designs)
      expect(await clashesOfPlan({ designId, plannedOn: '2026-04-20' }, '2026-03-10')).toMatchObject([
        { loanId, placeLabel: 'Ines Coldwell', dueOn, clash },
      ])
    expect(await clashesOfPlan({ designId, plannedOn: '2026-04-29' }, '2026-03-10')).toEqual([])
    // Overdue, nobody knows when it will be back.
    expect(await clashesOfPlan({ designId, plannedOn: '2026-05-20' }, '2026-05-01')).toMatchObject([
      { clash: { fromOn: '2026-05-20', untilOn: null, days: null } },
    ])
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'Ines Coldwell' }, designs: { length: 5 } })
    // Written down later than it went: out since the day it went.
    expect((await chartOf(chartId)).outSince).toEqual(new Date('2026-03-03T12:00:00'))
    expect((await findProject(finished))?.status).toBe('finished')

    expect(await findLoan(loanId, '2026-04-29')).toMatchObject({
      standing: { kind: 'overdue', daysOver: 1 },
      lines: [{ thing: { noun: 'chart', title }, count: 1, backOn: null, isElsewhere: false }],
    })
    expect(await loansToday('2026-04-29')).toMatchObject([
      { kind: 'loan-overdue', count: 1, names: ['Ines Coldwell'], on: '2026-04-28' },
    ])
    expect(granted(await back(loanId))).toEqual({ left: 0 })
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'R2-3' }, outSince: null })
    expect(await findLoan(loanId, '2026-04-29')).toMatchObject({ closedOn: '2026-04-20', standing: { kind: 'closed' } })
    expect(await loansToday('2026-04-29')).toEqual([])
  })

  it('lends no file, and says what there is on paper', async () => {
    const paper = await chart('Wick Lane')
    const { chartId } = await chart('Wick Lane', { kind: 'file', placeLabel: null })
    expect(await lend([{ noun: 'chart', id: chartId, count: 1 }])).toEqual({
      ok: false,
      error: { kind: 'is-a-file', name: 'Wick Lane' },
    })
    const ask = { chartId, count: 1, fromOn: '2026-03-03', untilOn: '2026-04-28' }
    expect(await askLending(ask, '2026-03-03')).toMatchObject({
      because: 'is-a-file',
      onPaper: [{ id: paper.chartId, placeLabel: 'R2-3' }],
    })
  })

  it('lets one of two lend the same chart', async () => {
    const { chartId } = await chart('The Salt Road')
    const both = await Promise.all(
      ['Ines Coldwell', 'Petra Lisle'].map((withLabel) => lend([{ noun: 'chart', id: chartId, count: 1 }], { withLabel })),
    )
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true])
    expect(both.find(({ ok }) => !ok)).toMatchObject({ error: { kind: 'is-out', name: 'The Salt Road' } })
    expect(await open().prisma.loanLine.count({ where: { chartId, backOn: null } })).toBe(1)
    const seen = { version: (await chartOf(chartId)).version - 1 }
    expect(await lend([{ noun: 'chart', id: chartId, count: 1, ...seen }])).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
  })

  it('lends copies one by one; only the last leaves none at home', async () => {
    const { chartId, designId } = await chart('Nine Wrens', { copies: 2 })
    const one: LoanThing[] = [{ noun: 'chart', id: chartId, count: 1 }]
    const first = granted(await lend(one))
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'R2-3' }, outSince: null })
    expect(await clashesOfPlan({ designId, plannedOn: '2026-04-01' }, '2026-03-10')).toEqual([])
    expect(await lend([{ noun: 'chart', id: chartId, count: 2 }])).toMatchObject({ error: { kind: 'not-so-many', atHome: 1 } })
    const second = granted(await lend(one, { withLabel: 'Petra Lisle' }))
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'Petra Lisle' } })
    expect(await clashesOfPlan({ designId, plannedOn: '2026-04-01' }, '2026-03-10')).toHaveLength(2)
    granted(await back(first.loanId))
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'R2-3' }, outSince: null })
    // The other never comes back: there is one copy from then on.
    granted(await closeLoan({ loanId: second.loanId, on: '2026-05-01', note: 'lost in the post' }))
    expect(await chartOf(chartId)).toMatchObject({ copies: 1, current: { label: 'R2-3' } })
    const moved = await open().prisma.movement.aggregate({ where: { chartId }, _sum: { wholeDelta: true } })
    expect(moved._sum.wholeDelta).toBe(1)
  })

  it('is ticked off when a chart is put back by its own button', async () => {
    const { chartId } = await chart('Three Jugs')
    const { loanId } = granted(await lend([{ noun: 'chart', id: chartId, count: 1 }]))
    granted(await returnChart({ id: chartId, version: (await chartOf(chartId)).version }))
    const loan = await findLoan(loanId, '2026-04-01')
    expect(loan?.lines[0]?.backOn).not.toBeNull()
    expect(loan?.closedOn).not.toBeNull()
  })

  it('keeps every skein it lends, and merges what comes back with what stayed', async () => {
    const received = granted(
      await receiveThread(goods({ threadId: ids.thread, ownerId: hanne.id, wholePutUps: 5, homePlaceId: ids.drawer })),
    )
    const lent = (wholePutUps: number): LoanThing => ({ noun: 'batch', id: received.batchId, wholePutUps, takesPart: false })
    const sum = async () =>
      (await open().prisma.batch.aggregate({ where: { goneAt: null, threadId: ids.thread }, _sum: { wholePutUps: true } }))._sum
        .wholePutUps
    expect(await lend([lent(6)])).toMatchObject({ error: { kind: 'not-so-many', atHome: 5 } })
    const { loanId } = granted(await lend([lent(2)]))
    expect(await sum()).toBe(5)
    const loan = await findLoan(loanId, '2026-03-10')
    expect(loan?.lines).toMatchObject([{ thing: { noun: 'batch', thread: { code: '0311' }, wholePutUps: 2 }, count: 2 }])
    granted(await back(loanId))
    expect(await sum()).toBe(5)
    const rows = await open().prisma.batch.findMany({ where: { threadId: ids.thread, goneAt: null } })
    expect(rows).toMatchObject([{ id: received.batchId, wholePutUps: 5, currentPlaceId: ids.drawer, outSince: null }])
    const journal = await open().prisma.movement.groupBy({
      by: ['batchId'],
      where: { batchId: received.batchId },
      _sum: { wholeDelta: true },
    })
    expect(journal[0]?._sum.wholeDelta).toBe(5)

    // What is promised stays.
    const { designId } = await chart('Orchard Gate')
    const { projectId } = granted(await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id })))
    await open().prisma.stockPromise.create({
      data: { id: newId(), projectId, batchId: received.batchId, strandTenths: 4 * skein },
    })
    expect(await lend([lent(2)])).toMatchObject({ error: { kind: 'promised', name: 'Larkholm 0311' } })
    granted(await lend([lent(1)]))
  })

  it('lends cloth that is kept for nothing, and notions in part', async () => {
    const piece = granted(
      await addCloth({
        ...{ ownerId: hanne.id, label: 'C-9', makerName: null, name: 'Linen', colourName: null, lab: null, weave: 'single' },
        ...{ ends: { threads: 32, perUm: 25_400 }, picks: { threads: 32, perUm: 25_400 }, widthUm: 400_000, heightUm: 400_000 },
        ...{ isSquared: false, sizeCertainty: 'label', isTurnable: true, note: null, placeLabel: 'Cloth box' },
        ...{ oneWayBecause: null, dyeing: null, countCertainty: 'label', washState: 'unknown', washedOn: null },
      } as Parameters<typeof addCloth>[0]),
    )
    const { designId, chartId } = await chart('Harbour Band Sampler')
    const { projectId } = granted(
      await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id, clothPieceId: piece.id })),
    )
    expect(await lend([{ noun: 'cloth', id: piece.id }])).toMatchObject({
      error: { kind: 'kept', title: 'Harbour Band Sampler' },
    })
    await open().prisma.project.update({ where: { id: projectId }, data: { clothPieceId: null } })
    const hoops = granted(
      await addNotion({
        ...{ kind: 'hoop', name: 'Hoop', size: '8 in', minimum: 2, packOf: null, priceMinor: null, note: null },
        ...{ ownerId: hanne.id, count: 3, placeLabel: 'Shelf N9' },
      }),
    )
    const things: LoanThing[] = [
      { noun: 'cloth', id: piece.id },
      { noun: 'notion', id: hoops.id, count: 2 },
      { noun: 'text', text: 'the big lamp', count: 1 },
    ]
    const { loanId } = granted(await lend(things))
    expect(await open().prisma.notion.findUnique({ where: { id: hoops.id } })).toMatchObject({ count: 1, minimum: 2 })
    const lines = (await findLoan(loanId, '2026-03-10'))?.lines ?? []
    expect(lines.map(({ thing, count }) => [thing.noun, count])).toEqual([
      ['cloth', 1],
      ['notion', 2],
      ['text', 1],
    ])
    const clothLine = lines[0]?.id as string
    expect(granted(await back(loanId, { lineIds: [clothLine], note: 'a little creased' }))).toEqual({ left: 2 })
    expect(await back(loanId, { lineIds: [clothLine] })).toMatchObject({ error: { kind: 'no-such-line' } })
    expect(await back(loanId, { on: '2026-03-01' })).toMatchObject({ error: { kind: 'back-before', fromOn: '2026-03-03' } })
    granted(await back(loanId))
    expect(await open().prisma.notion.findUnique({ where: { id: hoops.id } })).toMatchObject({ count: 3 })
    // One thing refused: nothing goes.
    const before = await open().prisma.loan.count()
    const both: LoanThing[] = [
      { noun: 'chart', id: chartId, count: 1 },
      { noun: 'notion', id: hoops.id, count: 4 },
    ]
    expect(await lend(both)).toMatchObject({ error: { kind: 'not-so-many', atHome: 3 } })
    expect(await open().prisma.loan.count()).toBe(before)
    expect((await chartOf(chartId)).outSince).toBeNull()
  })

  it('sends a kit to a model stitcher with all that lies in its bag, and has it back in the bag', async () => {
    const { chartId, designId } = await chart('Kettle at Wend Cross')
    const { projectId } = granted(
      await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id, bagLabel: 'Bag K-07' })),
    )
    const bag = (await findPlaceByLabel('Bag K-07'))?.id as string
    await open().prisma.chart.update({ where: { id: chartId }, data: { currentPlaceId: bag, outSince: new Date(0) } })
    const input = { ...terms({ withLabel: 'Petra Lisle', withKind: 'model stitcher', reason: 'shop model' }), projectId }
    const things: LoanThing[] = [
      { noun: 'chart', id: chartId, count: 1 },
      { noun: 'text', text: '2 needles, size 26', count: 1 },
    ]
    // In the bag of a kit it is out, so that nobody else can have it.
    expect(await lend([{ noun: 'chart', id: chartId, count: 1 }])).toMatchObject({
      error: { kind: 'is-out', placeLabel: 'Bag K-07' },
    })
    const { loanId } = granted(await sendAway({ ...input, things, priceMinor: 4500 }))
    expect((await findProject(projectId))?.place?.label).toBe('Petra Lisle')
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'Petra Lisle' }, home: { label: 'R2-3' } })
    expect(await findLoan(loanId, '2026-03-10')).toMatchObject({
      priceMinor: 4500,
      project: { id: projectId },
      lines: [
        { thing: { noun: 'project' } },
        { thing: { noun: 'chart' } },
        { thing: { noun: 'text', text: '2 needles, size 26' } },
      ],
    })
    expect(await sendAway({ ...input, things: [], priceMinor: null })).toMatchObject({ error: { kind: 'is-out' } })
    granted(await back(loanId))
    expect((await findProject(projectId))?.place?.label).toBe('Bag K-07')
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'Bag K-07' }, home: { label: 'R2-3' } })
    expect((await listLoans({ ownerIds: [hanne.id], state: 'closed', projectId }, '2026-05-01')).total).toBe(1)
  })

  it('has work in hand back where its kit was carried last, though nothing of that went along', async () => {
    const { chartId, designId } = await chart('Lamp over the Weir')
    const { projectId } = granted(await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id })))
    granted(await kitProject({ projectId, bagLabel: 'Bag K-41', takesChart: true }))
    expect((await chartOf(chartId)).current?.label).toBe('Bag K-41')
    const input = { ...terms({ withLabel: 'Petra Lisle', withKind: 'model stitcher', reason: 'shop model' }), projectId }
    const { loanId } = granted(await sendAway({ ...input, things: [], priceMinor: null }))
    granted(await back(loanId))
    expect((await findProject(projectId))?.place?.label).toBe('Bag K-41')
  })

  it('knows at which framer a finished piece is, and has it back where one says', async () => {
    const { designId } = await chart('Winter Post')
    const { projectId } = granted(await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id })))
    await open().prisma.project.update({ where: { id: projectId }, data: { status: 'finished', finishedOn: '2026-02-01' } })
    const { dueOn: _dueOn, ...input } = terms({ withLabel: 'Maud Ferriby', withKind: 'framer', reason: 'to be framed' })
    const { loanId } = granted(await sendAway({ ...input, dueOn: null, projectId, priceMinor: 14_000 }))
    expect(await findPlaceByLabel('Maud Ferriby')).toMatchObject({ kind: 'framer' })
    expect((await findProject(projectId))?.place).toMatchObject({ label: 'Maud Ferriby', kind: 'framer' })
    expect((await findLoan(loanId, '2027-01-01'))?.standing).toEqual({ kind: 'no-day' })
    // Nothing says where it was before, and a finished piece does not go into a bag.
    expect(await back(loanId)).toMatchObject({ error: { kind: 'where-is-work', name: 'Winter Post' } })
    granted(await back(loanId, { placeLabel: 'Hall wall' }))
    expect((await findProject(projectId))?.place?.label).toBe('Hall wall')
  })

  it('sets down what is borrowed in words, and marks a thing of another owner out', async () => {
    const words: LoanThing = { noun: 'text', text: 'her 12 in scroll frame', count: 1 }
    const { dueOn: _dueOn, ...input } = terms({ things: [words], reason: 'too big a piece for mine' })
    const { loanId } = granted(await borrowThings({ ...input, dueOn: null, keptInLabel: null }))
    expect((await listLoans({ ownerIds: [hanne.id], state: 'open', kind: 'borrow' }, '2026-03-10')).loans[0]?.id).toBe(loanId)
    const { chartId } = await chart('Fourth Sunday', { ownerId: shop.id })
    const theirs = terms({ things: [{ noun: 'chart', id: chartId, count: 1 }] })
    expect(await borrowThings({ ...theirs, ownerId: shop.id, keptInLabel: 'Home shelf' })).toMatchObject({
      error: { kind: 'own-thing' },
    })
    expect(await borrowThings({ ...theirs, keptInLabel: null })).toMatchObject({ error: { kind: 'not-kept-anywhere' } })
    expect(await lend([{ noun: 'chart', id: chartId, count: 1 }])).toMatchObject({ error: { kind: 'other-owner' } })
    const borrowed = granted(await borrowThings({ ...theirs, withLabel: 'Joss Tarrow', keptInLabel: 'Home shelf' }))
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'Home shelf' }, home: { label: 'R2-3' } })
    granted(await back(borrowed.loanId))
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'R2-3' }, outSince: null })
  })

  it('extends to a day that gets in nobody’s way, and not unseen', async () => {
    const { chartId, designId } = await chart('Quince and Compass')
    const { projectId } = granted(await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id })))
    const { loanId } = granted(await lend([{ noun: 'chart', id: chartId, count: 1 }]))
    const { version } = (await findProject(projectId)) as { version: number }
    const details = { threadListId: null, clothPieceId: null, over: null, quantity: 1, forWhom: null, dueOn: null }
    const rest = { finishing: null, note: null, hoursTenths: 0, stitchesDone: 0 }
    granted(
      await editProject({ projectId, version, ...details, ...rest, plannedOn: '2026-05-10' } as Parameters<
        typeof editProject
      >[0]),
    )
    granted(await extendLoan({ loanId, dueOn: '2026-05-09' }))
    expect(await extendLoan({ loanId, dueOn: '2026-05-12' })).toMatchObject({
      error: { kind: 'clash', clashes: [{ projectId, clash: { days: 3 } }] },
    })
    expect(await extendLoan({ loanId, dueOn: '2026-03-01' })).toMatchObject({ error: { kind: 'due-before' } })
    expect(await extendLoan({ loanId, dueOn: null })).toMatchObject({ error: { kind: 'no-due-day' } })
    granted(await extendLoan({ loanId, dueOn: '2026-05-12', acceptsClash: true }))
    expect(await findLoan(loanId, '2026-05-01')).toMatchObject({
      dueOn: '2026-05-12',
      note: 'was due 2026-04-28, now 2026-05-09; was due 2026-05-09, now 2026-05-12',
    })
    granted(await back(loanId))
    expect(await extendLoan({ loanId, dueOn: '2026-06-01' })).toMatchObject({ error: { kind: 'closed' } })
    expect(await takeBack({ loanId, version: 0, lineIds: null, on: '2026-05-01', note: null, placeLabel: null })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
  })

  it('wants something to lend, a person to lend it to, and a day', async () => {
    const { chartId } = await chart('Little Barge')
    const things: LoanThing[] = [{ noun: 'chart', id: chartId, count: 1 }]
    expect(await lend([])).toMatchObject({ error: { kind: 'nothing-in-it' } })
    expect(await lend(things, { withLabel: 'R2-3' })).toMatchObject({ error: { kind: 'not-a-person', label: 'R2-3' } })
    expect(await lend(things, { dueOn: '2026-03-02' })).toMatchObject({ error: { kind: 'due-before' } })
    expect(await lend([...things, ...things])).toMatchObject({ error: { kind: 'is-out' } })
    expect(await lend([{ noun: 'chart', id: newId(), count: 1 }])).toMatchObject({ error: { kind: 'no-such-thing' } })
    expect((await chartOf(chartId)).outSince).toBeNull()
    await expect(
      open().prisma.loan.create({
        data: { id: newId(), kind: 'lend', placeId: ids.rack, ownerId: hanne.id, reason: 'x', fromOn: '2026-03-03' },
      }),
    ).rejects.toThrow()
  })

  it('is asked and written through the API', async () => {
    const { chartId, designId } = await chart('The Weighhouse')
    const { projectId } = granted(await startProject(aStart({ designId, threadListId: null, ownerId: hanne.id })))
    const planned = { parts: { projectId }, body: { plannedOn: '2026-04-20' } }
    expect(await answer(planProjectDayOperation, plan, planned)).toMatchObject({ plannedOn: '2026-04-20' })
    const may = `loans/may-lend?chart=${chartId}&from=2026-03-03&until=2026-04-28`
    expect(await answer(loanOperations.mayLend, mayLend, { path: may })).toMatchObject({
      because: null,
      leavesNone: true,
      clashes: [{ projectId, days: 9 }],
    })
    const body = {
      ...{ with: 'Ines Coldwell', ownerId: hanne.id, reason: 'to look at', fromOn: '2026-03-03', dueOn: '2026-04-28' },
      things: [
        { noun: 'chart', id: chartId },
        { noun: 'text', text: 'a page of notes' },
      ],
    }
    expect(await problem(lendByApi, { body })).toMatchObject({ status: 409, detail: expect.stringContaining('9 days') })
    const loan = await answer({ ...loanOperations.lend, answerStatus: 201 }, lendByApi, { body: { ...body, acceptsClash: true } })
    expect(loan).toMatchObject({ kind: 'lend', with: { label: 'Ines Coldwell' }, lines: [{ noun: 'chart' }, { noun: 'text' }] })
    const parts = { loanId: loan.loanId }
    expect(await answer(listProjectClashesOperation, clashes, { parts: { projectId } })).toMatchObject({
      plannedOn: '2026-04-20',
      clashes: [{ loanId: loan.loanId, with: { label: 'Ines Coldwell' } }],
    })
    const listed = await answer(loanOperations.list, list, { path: `loans?owner=${hanne.id}&chart=${chartId}` })
    expect(listed.loans.map(({ loanId }) => loanId)).toEqual([loan.loanId])
    const extended = { parts, body: { dueOn: '2026-05-12', acceptsClash: true } }
    expect(await answer(loanOperations.extend, extend, extended)).toMatchObject({ dueOn: '2026-05-12' })
    const lineIds = [loan.lines[1]?.lineId as string]
    const back = await answer(loanOperations.takeBack, takeIn, { parts, body: { lineIds, on: '2026-04-01' } })
    expect(back).toMatchObject({ closedOn: null, lines: [{ backOn: null }, { backOn: '2026-04-01' }] })
    expect(await problem(takeIn, { parts, body: { version: 0, on: '2026-04-02' } })).toMatchObject({ status: 409 })
    expect(await answer(loanOperations.close, close, { parts, body: { on: '2026-06-01', note: 'she keeps it' } })).toMatchObject({
      closedOn: '2026-06-01',
      standing: { kind: 'closed' },
    })
    expect(await answer(loanOperations.get, get, { parts })).toMatchObject({ lines: [{ backNote: 'she keeps it' }, {}] })
    expect(await problem(get, { parts: { loanId: newId() } })).toMatchObject({ status: 404 })
    const sent = await answer({ ...loanOperations.send, answerStatus: 201 }, send, {
      body: { with: 'Abel Crome', withKind: 'finisher', ownerId: hanne.id, reason: 'a pillow', fromOn: '2026-03-03', projectId },
    })
    expect(sent).toMatchObject({ kind: 'send', project: { projectId }, standing: { kind: 'no-day' } })
    const words = { with: 'Ines Coldwell', ownerId: hanne.id, reason: 'big', fromOn: '2026-03-03' }
    expect(
      await answer({ ...loanOperations.borrow, answerStatus: 201 }, borrow, {
        body: { ...words, things: [{ noun: 'text', text: 'a frame' }] },
      }),
    ).toMatchObject({ kind: 'borrow', lines: [{ name: 'a frame' }] })
  })
})
