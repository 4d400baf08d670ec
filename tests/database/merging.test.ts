import { beforeAll, expect, it } from 'vitest'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listBulkEdits } from '#lib/db/bulk-edit/queries'
import { addChart } from '#lib/db/chart/add-chart'
import { findChart } from '#lib/db/chart/queries'
import { restoreChart } from '#lib/db/chart/restore-chart'
import { saveThreadList } from '#lib/db/chart/save-thread-list'
import type { Database } from '#lib/db/client'
import { findScanned } from '#lib/db/label/find-scanned'
import { lendThings } from '#lib/db/loan/lend'
import { mergedTables } from '#lib/db/merging/keep-steps'
import { mergeCharts } from '#lib/db/merging/merge-charts'
import { mergeDesigners } from '#lib/db/merging/merge-designers'
import { mergeLines } from '#lib/db/merging/merge-lines'
import { mergeMakers } from '#lib/db/merging/merge-makers'
import { mergeThreads } from '#lib/db/merging/merge-threads'
import { findMergedInto, findMerging, listMergings } from '#lib/db/merging/merging'
import { previewCharts } from '#lib/db/merging/preview-charts'
import { listChartDoubles, listDesignerDoubles, listMakerDoubles, listThreadDoubles } from '#lib/db/merging/suggested'
import { forgetTellingApart, tellApart } from '#lib/db/merging/tell-apart'
import { undoMerging } from '#lib/db/merging/undo-merging'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { addThread } from '#lib/db/thread/add-thread'
import { ensureMaker } from '#lib/db/thread/ensure-maker'
import { listThreadsCalled } from '#lib/db/thread/find-thread'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addSmallWorld, type SmallWorld } from './small-world'
import { faultsInBooks } from './stock-books'
import { aDesign, addKey, aLeaflet, aThread, goods, skein, stranded, theShop } from './things'

/** Every row a merge may touch, but for versions and the order rows come in. */
async function readMergedTables({ prisma }: Database): Promise<Record<string, string[]>> {
  const rows: Record<string, string[]> = {}
  for (const table of [...mergedTables, 'stockPromise', 'keyLine', 'loan', 'kitBag'] as const) {
    const found: object[] = await (prisma[table] as unknown as { findMany(): Promise<object[]> }).findMany()
    rows[table] = found.map((row) => JSON.stringify({ ...row, version: 0 })).sort()
  }
  return rows
}

/** All stock there is, whoever's and whichever thread's: whole put-ups, part lengths, copies. */
async function readSums({ prisma }: Database) {
  const held = { goneAt: null }
  const [batches, charts] = [
    await prisma.batch.aggregate({ where: held, _sum: { wholePutUps: true, partStrandTenths: true } }),
    await prisma.chart.aggregate({ where: held, _sum: { copies: true } }),
  ]
  return { ...batches._sum, ...charts._sum }
}

describeOnEachEngine('doubles merged in a small world', ({ open }) => {
  let world: SmallWorld
  beforeAll(async () => {
    world = await addSmallWorld(open())
  })

  const threadId = (turn: number) => world.threadIds[turn] as string
  const putUpsInMemory = async () =>
    [...(await getAnswers()).world.stock.batches.values()].flat().reduce((sum, { wholePutUps }) => sum + wholePutUps, 0)
  const coverOf = async (designId: string) => (await getAnswers()).coverage(world.ownerIds).answerFor(designId)

  it('gives up a thread for its double and takes it back: all is as before, and no stock is lost in between', async () => {
    const before = await readMergedTables(open())
    const sums = await readSums(open())
    const movements = await open().prisma.movement.count()
    expect(await putUpsInMemory()).toBe(sums.wholePutUps)
    // 0017 and 17, and 0087 that stands in for 1204 and is named by keys, promised and in a bag.
    for (const [keptTurn, goneTurn] of [
      [3, 4],
      [2, 0],
      [1, 3],
    ] as const) {
      const merged = granted(await mergeThreads({ keptId: threadId(keptTurn), goneId: threadId(goneTurn), who: 'Nell Oxtoby' }))
      expect(await readSums(open())).toEqual(sums)
      expect(await faultsInBooks(open().prisma)).toEqual([])
      expect(await open().prisma.thread.count({ where: { id: threadId(goneTurn) } })).toBe(0)
      expect(await putUpsInMemory()).toBe(sums.wholePutUps)
      expect(await findMergedInto('thread', threadId(goneTurn))).toMatchObject({ keptId: threadId(keptTurn) })
      granted(await undoMerging({ mergingId: merged.mergingId }))
      expect(await putUpsInMemory()).toBe(sums.wholePutUps)
      expect(await readMergedTables(open())).toEqual(before)
      expect(await readSums(open())).toEqual(sums)
      expect(await undoMerging({ mergingId: merged.mergingId })).toMatchObject({ error: { kind: 'already-undone' } })
    }
    expect(await faultsInBooks(open().prisma)).toEqual([])
    // The journal only grew: a line for each batch that went over and came back.
    expect(await open().prisma.movement.count()).toBeGreaterThan(movements)
    expect(await listBulkEdits(10)).toEqual([])
    expect(await listMergings(['thread'], 10)).toHaveLength(3)
  })

  it('answers from the stock of both, whichever was merged first', async () => {
    const answered = async (order: readonly (readonly [number, number])[]) => {
      const ids: string[] = []
      for (const [kept, gone] of order)
        ids.push(granted(await mergeThreads({ keptId: threadId(kept), goneId: threadId(gone) })).mergingId)
      const covers = []
      for (const { designId } of world.designs) covers.push(await coverOf(designId))
      const free = (await getAnswers()).freeOf(threadId(1), world.ownerIds)
      for (const mergingId of ids.toReversed()) granted(await undoMerging({ mergingId }))
      return JSON.stringify({ covers, owned: free.ownedStrandTenths, free: free.freeStrandTenths })
    }
    const before = await readMergedTables(open())
    const oneWay = await answered([
      [1, 3],
      [1, 4],
    ])
    expect(
      await answered([
        [1, 4],
        [1, 3],
      ]),
    ).toBe(oneWay)
    expect(
      await answered([
        [3, 4],
        [1, 3],
      ]),
    ).toBe(oneWay)
    expect(await readMergedTables(open())).toEqual(before)
  })

  it('unites charts with their designs, lists, projects and copies, and parts them again', async () => {
    const { prisma } = open()
    const [lanterns] = world.designs as [SmallWorld['designs'][number]]
    const chart = await prisma.chart.findFirstOrThrow({ where: { title: 'Seven Lanterns' } })
    const wrens = await prisma.chart.findFirstOrThrow({ where: { title: 'Nine Wrens' } })
    const before = await readMergedTables(open())
    const sums = await readSums(open())
    const merged = granted(await mergeCharts({ keptId: wrens.id, goneId: chart.id }))
    expect(await readSums(open())).toEqual(sums)
    expect(await faultsInBooks(prisma)).toEqual([])
    const kept = await findChart(wrens.id)
    expect(kept).toMatchObject({ copies: 7, designs: [{}, {}, { design: { id: lanterns.designId }, projectCount: 1 }] })
    // The history of both is read from the one that is kept.
    expect(kept?.movements.filter(({ kind }) => kind === 'receive')).toHaveLength(2)
    expect((await getAnswers()).world.designs.get(lanterns.designId)).toMatchObject({ chartTitle: 'Nine Wrens' })
    expect((await getAnswers()).search.search('lanterns', { limit: 5 }).hits[0]).toMatchObject({ title: 'Seven Lanterns' })
    // The label on its paper leads to the kept one, and it cannot be brought back beside it.
    expect(await findScanned(`http://larder.local/charts/${chart.id}`)).toMatchObject({ things: [{ id: wrens.id }] })
    const { version } = await prisma.chart.findUniqueOrThrow({ where: { id: chart.id } })
    expect(await restoreChart({ id: chart.id, version })).toMatchObject({ error: { kind: 'merged-into', chartId: wrens.id } })
    granted(await undoMerging({ mergingId: merged.mergingId }))
    expect(await readMergedTables(open())).toEqual(before)
    expect(await faultsInBooks(prisma)).toEqual([])
  })

  it('keeps goods of two owners apart, and says no to a chart with itself', async () => {
    const { prisma } = open()
    const mine = await prisma.chart.findFirstOrThrow({ where: { title: 'Acorn Reckoner' } })
    const shops = await prisma.chart.findFirstOrThrow({ where: { title: 'Nine Wrens' } })
    expect(await mergeCharts({ keptId: shops.id, goneId: mine.id })).toMatchObject({ error: { kind: 'other-owner' } })
    expect(await mergeCharts({ keptId: shops.id, goneId: shops.id })).toMatchObject({ error: { kind: 'same-thing' } })
    expect(await mergeCharts({ keptId: shops.id, goneId: newId() })).toMatchObject({ error: { kind: 'no-such-thing' } })
    expect(await mergeCharts({ keptId: shops.id, goneId: mine.id, keptVersion: 99 })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
  })
})

describeOnEachEngine('doubles', ({ open }) => {
  const shop = theShop()
  beforeAll(async () => {
    await open().prisma.owner.create({ data: shop })
  })

  const leaflet = (title: string, over: object = {}, design: object = {}) =>
    addChart({ ...aLeaflet(title, shop.id), isAnother: true, design: aDesign(title, design), ...over })
  const size = { kind: 'stitches' as const, width: 140, height: 98 }

  it('are suggested with their reasons, until somebody says they are two', async () => {
    const one = granted(await leaflet('Rook Hill in Snow', { designers: ['Mirabel Stoat'] }, { size }))
    const two = granted(await leaflet('Rook Hill in the Snow', { designers: ['Mirabel Stoat'] }, { size }))
    granted(await leaflet('The Salt Road', { designers: ['Mirabel Stoat'] }, { size: { ...size, width: 90 } }))
    const pairs = await listChartDoubles([shop.id])
    expect(pairs).toMatchObject([{ first: { id: one.chartId }, second: { id: two.chartId } }])
    expect(pairs[0]?.pair.reasons.map(({ kind }) => kind)).toEqual(['same-title', 'same-designer', 'same-size'])
    expect(await listChartDoubles([])).toEqual([])
    granted(await tellApart({ noun: 'chart', firstId: two.chartId, secondId: one.chartId }))
    granted(await tellApart({ noun: 'chart', firstId: one.chartId, secondId: two.chartId }))
    expect(await listChartDoubles([shop.id])).toEqual([])
    granted(await forgetTellingApart({ firstId: two.chartId, secondId: one.chartId }))
    expect(await listChartDoubles([shop.id])).toHaveLength(1)
    expect(await tellApart({ noun: 'chart', firstId: newId(), secondId: one.chartId })).toMatchObject({ ok: false })
  })

  it('become one chart by what was chosen; a list that says the same is one list, and the title given up finds it', async () => {
    const { prisma } = open()
    const rust = granted(await addThread({ ...aThread('0017'), line: stranded() })).threadId
    const { lineId } = await prisma.thread.findUniqueOrThrow({ where: { id: rust } })
    const pine = granted(await addThread({ ...aThread('0311'), line: { id: lineId } })).threadId
    const place = (label: string) => ({ placeLabel: label })
    const kept = granted(await leaflet('Kettle at Wend Cross', { designers: ['Corvin Ashdale'], note: 'a gift', ...place('R1') }))
    const gone = granted(
      await leaflet(
        'The Kettle, Wend Cross',
        {
          designers: ['Corvin Ashdale', 'Wilf Sarratt'],
          note: 'second printing',
          edition: '2nd',
          priceMinor: 900,
          copies: 2,
          ...place('R2'),
        },
        { size },
      ),
    )
    const keyed = (threadId: string) => ({ threadId, strands: 2, statedHundredths: 100 })
    await addKey(open(), { id: newId(), designId: kept.designId, name: 'Cotton', keyed: [keyed(rust), keyed(pine)] })
    const [same, other] = [newId(), newId()]
    await addKey(open(), { id: same, designId: gone.designId, name: 'As charted', keyed: [keyed(pine), keyed(rust)] })
    await addKey(open(), { id: other, designId: gone.designId, name: 'Cotton', keyed: [keyed(rust)] })
    const projectId = newId()
    await prisma.project.create({
      data: {
        id: projectId,
        designId: gone.designId,
        threadListId: same,
        ownerId: shop.id,
        status: 'finished',
        finishedOn: '2025-11-02',
      },
    })
    granted(
      await lendThings({
        things: [{ noun: 'chart', id: gone.chartId, count: 2 }],
        ...{ withLabel: 'Ines Coldwell', withKind: 'person', ownerId: shop.id, reason: 'to choose from', note: null },
        ...{ fromOn: '2026-03-03', dueOn: '2027-03-03' },
      }),
    )

    const preview = await previewCharts({ keptId: kept.chartId, goneId: gone.chartId })
    expect(preview).toMatchObject({
      refusal: null,
      copies: 3,
      differing: [
        { field: 'title', unasked: 'kept' },
        { field: 'designers', unasked: 'kept' },
        { field: 'place', unasked: 'kept' },
        { field: 'note', unasked: 'both' },
      ],
      filled: ['edition', 'price'],
      united: [{ otherTitle: 'The Kettle, Wend Cross', keptTitle: 'Kettle at Wend Cross' }],
    })
    const before = await readMergedTables(open())
    const { mergingId } = granted(
      await mergeCharts({ keptId: kept.chartId, goneId: gone.chartId, choices: { designers: 'both', place: 'other' } }),
    )
    const row = await prisma.chart.findUniqueOrThrow({
      where: { id: kept.chartId },
      include: { homePlace: true, currentPlace: true, formerTitles: true, loanLines: true, designers: true },
    })
    // A copy is at home still, so that is where the chart lies; those that are lent are on their loan.
    expect(row).toMatchObject({
      title: 'Kettle at Wend Cross',
      ...{ copies: 3, edition: '2nd', priceMinor: 900, note: 'a gift\nsecond printing', outSince: null },
      homePlace: { label: 'R2' },
      currentPlace: { label: 'R2' },
      formerTitles: [{ title: 'The Kettle, Wend Cross' }],
      loanLines: [{ count: 2, backOn: null }],
    })
    expect(row.designers).toHaveLength(2)
    const design = await prisma.design.findUniqueOrThrow({ where: { id: kept.designId }, include: { threadLists: true } })
    expect(design.widthStitches).toBe(140)
    expect(design.threadLists.map(({ name }) => name).sort()).toEqual(['Cotton', 'Cotton (The Kettle, Wend Cross)'])
    const project = await prisma.project.findUniqueOrThrow({ where: { id: projectId } })
    expect(project.designId).toBe(kept.designId)
    expect(project.threadListId).not.toBe(same)
    expect(
      await addChart({ ...aLeaflet('the kettle, wend cross', shop.id), isAnother: false, design: aDesign('x') }),
    ).toMatchObject({
      error: { kind: 'title-held', charts: [{ id: kept.chartId }] },
    })
    expect((await getAnswers()).search.search('the kettle wend cross', { limit: 3 }).hits[0]?.id).toBe(`design:${kept.designId}`)
    // Its version went on meanwhile by other ways; what the merge wrote stands, and so it can be taken back.
    await prisma.chart.update({ where: { id: kept.chartId }, data: { isOutOfPrint: true, version: { increment: 1 } } })
    granted(await undoMerging({ mergingId }))
    await prisma.chart.update({ where: { id: kept.chartId }, data: { isOutOfPrint: false } })
    expect(await readMergedTables(open())).toEqual(before)
  })

  it('are not taken apart when what the merge wrote was changed since', async () => {
    const one = granted(await leaflet('Little Barge'))
    const two = granted(await leaflet('Little Barges'))
    const { mergingId } = granted(await mergeCharts({ keptId: one.chartId, goneId: two.chartId }))
    await open().prisma.chart.update({ where: { id: one.chartId }, data: { copies: 5 } })
    expect(await undoMerging({ mergingId })).toEqual({ ok: false, error: { kind: 'changed-since', table: 'chart' } })
    expect(await findMerging(mergingId)).toMatchObject({ isUndone: false, kept: { merged: { goneName: 'Little Barges' } } })
    await open().prisma.chart.update({ where: { id: one.chartId }, data: { copies: 2 } })
  })

  it('make one designer of two spellings, who is found by both', async () => {
    const { prisma } = open()
    const one = granted(await leaflet('Nine Wrens', { designers: ['Hester Pindar', 'Tilda Quennell'] }))
    const two = granted(await leaflet('Moth and Candle', { designers: ['Hester Pinder', 'Hester Pindar'] }))
    const kept = await prisma.designer.findUniqueOrThrow({ where: { nameKey: 'hester pindar' } })
    const gone = await prisma.designer.findUniqueOrThrow({ where: { nameKey: 'hester pinder' } })
    expect(await listDesignerDoubles()).toMatchObject([{ reason: 'near-name' }])
    const before = await readMergedTables(open())
    const { mergingId } = granted(await mergeDesigners({ keptId: kept.id, goneId: gone.id }))
    const rows = await prisma.chartDesigner.findMany({ where: { chartId: two.chartId } })
    expect(rows.map(({ designerId }) => designerId)).toEqual([kept.id])
    // Typed later in either spelling it is the one, once.
    const three = granted(await leaflet('Plum Stone Rhyme', { designers: ['hester pinder', 'Hester Pindar'] }))
    expect(
      (await prisma.chartDesigner.findMany({ where: { chartId: three.chartId } })).map(({ designerId }) => designerId),
    ).toEqual([kept.id])
    expect(await prisma.designer.count({ where: { nameKey: 'hester pinder' } })).toBe(0)
    expect((await getAnswers()).world.designers.has(gone.id)).toBe(false)
    await prisma.design.deleteMany({ where: { chartId: three.chartId } })
    await prisma.chartDesigner.deleteMany({ where: { chartId: three.chartId } })
    granted(await undoMerging({ mergingId }))
    const after = await readMergedTables(open())
    for (const table of ['designer', 'chartDesigner', 'formerDesignerName']) expect(after[table]).toEqual(before[table])
    expect(one.chartId).not.toBe(two.chartId)
  })

  it('make one thread of two, found by the code given up wherever it is typed or brought in', async () => {
    const { prisma } = open()
    const line = stranded({ makerName: 'Brindlequay' })
    const { threadId: keptId } = granted(await addThread({ ...aThread('0742', { name: 'Pine' }), line }))
    const lineId = (await prisma.thread.findUniqueOrThrow({ where: { id: keptId } })).lineId
    const { threadId: goneId } = granted(await addThread({ ...aThread('742'), line: { id: lineId } }))
    expect(await listThreadDoubles()).toMatchObject([{ reasons: ['codes-read-alike'] }])
    for (const [threadId, wholePutUps] of [
      [keptId, 2],
      [goneId, 3],
    ] as const)
      granted(await receiveThread(goods({ threadId, ownerId: shop.id, wholePutUps, homePlaceId: null })))
    granted(await mergeThreads({ keptId, goneId }))
    expect((await getAnswers()).freeOf(keptId, [shop.id]).ownedStrandTenths).toBe(5 * skein)
    expect((await listThreadsCalled('Brindlequay 742')).map(({ id }) => id)).toEqual([keptId])
    expect(await addThread({ ...aThread('742'), line: { id: lineId } })).toMatchObject({
      error: { kind: 'code-taken', threadId: keptId },
    })
    const chart = granted(await leaflet('Bees for Bettony'))
    const key = { makerName: 'brindlequay', code: '742', name: null, strands: 2, statedHundredths: 100, putUpTenths: null }
    for (const [at, lineName] of ['stranded', null].entries())
      granted(
        await saveThreadList({
          designId: chart.designId,
          list: null,
          name: `List ${at}`,
          keyLines: [{ symbol: null, note: null, tally: null, threads: [{ ...key, lineName }] }],
          mayAdd: new Set(),
        }),
      )
    expect(await prisma.keyLineThread.count({ where: { threadId: keptId } })).toBe(2)
  })

  it('make one maker of two spellings, line by line and thread by thread', async () => {
    const { prisma } = open()
    const add = async (makerName: string, name: string, code: string) => {
      const maker = await prisma.threadLine.findFirst({ where: { name, maker: { name: makerName } } })
      const line = maker
        ? { id: maker.id }
        : stranded({ makerName, name, ...(makerName === 'Dun Marrow' && { putUpWord: 'hank' }) })
      return granted(await addThread({ ...aThread(code), line })).threadId
    }
    const kept = await add('Dunmarrow', 'wool', '9')
    const same = await add('Dun Marrow', 'wool', '9')
    const only = await add('Dun Marrow', 'wool', '10')
    const braid = await add('Dun Marrow', 'braid', 'B1')
    granted(await receiveThread(goods({ threadId: only, ownerId: shop.id, wholePutUps: 4, homePlaceId: null })))
    granted(await receiveThread(goods({ threadId: same, ownerId: shop.id, wholePutUps: 1, homePlaceId: null })))
    const makers = await prisma.maker.findMany({
      where: { nameKey: { in: ['dunmarrow', 'dun marrow'] } },
      orderBy: { name: 'desc' },
    })
    const [keptMaker, goneMaker] = makers as [(typeof makers)[0], (typeof makers)[0]]
    expect((await listMakerDoubles()).makers).toMatchObject([{ reason: 'same-name' }])
    const before = await readMergedTables(open())
    const sums = await readSums(open())
    const { mergingId } = granted(await mergeMakers({ keptId: keptMaker.id, goneId: goneMaker.id }))
    expect(await readSums(open())).toEqual(sums)
    expect(await prisma.maker.count({ where: { id: goneMaker.id } })).toBe(0)
    expect(await prisma.thread.count({ where: { id: same } })).toBe(0)
    // What was called a hank is called so still.
    expect(await prisma.batch.findFirst({ where: { threadId: kept } })).toMatchObject({ wholePutUps: 1, putUpWord: 'hank' })
    expect((await getAnswers()).freeOf(only, [shop.id]).ownedStrandTenths).toBe(4 * skein)
    expect(
      (await getAnswers()).world.lines.get((await prisma.thread.findUniqueOrThrow({ where: { id: braid } })).lineId),
    ).toMatchObject({
      makerName: 'Dunmarrow',
    })
    for (const [text, id] of [
      ['Dun Marrow 10', only],
      ['Dun Marrow wool 9', kept],
      ['Dun Marrow B1', braid],
    ] as const)
      expect(
        (await listThreadsCalled(text)).map((thread) => thread.id),
        text,
      ).toContain(id)
    // Typed as the maker of a new line, the old spelling is the kept one's too.
    expect(granted(await write(async (writing) => ok(await ensureMaker(writing, 'dun marrow')))).id).toBe(keptMaker.id)
    granted(await undoMerging({ mergingId }))
    expect(await readMergedTables(open())).toEqual(before)
    expect(await faultsInBooks(prisma)).toEqual([])
  })

  it('do not make one line of two that are worked in other strands', async () => {
    const { prisma } = open()
    const six = granted(await addThread({ ...aThread('1'), line: stranded({ makerName: 'Varnaby', name: 'six' }) }))
    const four = granted(await addThread({ ...aThread('1'), line: stranded({ makerName: 'Varnaby', name: 'four', strands: 4 }) }))
    const lineOf = async ({ threadId }: { threadId: string }) =>
      (await prisma.thread.findUniqueOrThrow({ where: { id: threadId } })).lineId
    expect(await mergeLines({ keptId: await lineOf(six), goneId: await lineOf(four) })).toEqual({
      ok: false,
      error: { kind: 'strands-differ', strands: 6, otherStrands: 4 },
    })
    expect(await mergeThreads({ keptId: six.threadId, goneId: four.threadId })).toMatchObject({
      error: { kind: 'strands-differ' },
    })
  })
})
