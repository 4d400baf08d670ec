import { beforeAll, expect, it } from 'vitest'
import { bulkInsert, timestamp } from '#lib/db/bulk-insert'
import { listChartOptions } from '#lib/db/chart/queries'
import { listCloth, listClothPieces } from '#lib/db/cloth/queries'
import { readYear } from '#lib/db/finish/read-finishes'
import { newId } from '#lib/db/new-id'
import { findPlaceContents } from '#lib/db/place/contents'
import { listOut } from '#lib/db/place/list-out'
import { countInPlaces } from '#lib/db/place/place-counts'
import { listPlaceOptions, listPlaces } from '#lib/db/place/queries'
import { readToday } from '#lib/db/planning/days/read-today'
import { readWeek } from '#lib/db/planning/days/read-week'
import { readPlots } from '#lib/db/plots/read-plots'
import { readFinishSheet } from '#lib/db/project/finish-sheet'
import { kitProject } from '#lib/db/project/kit-project'
import { readPullList } from '#lib/db/project/pull-list'
import { readPutBackList } from '#lib/db/project/put-back-list'
import { abandonProject } from '#lib/db/project/put-kit-back'
import { listFinishes, listProjectsUnderWay } from '#lib/db/project/queries'
import { readStartChoices } from '#lib/db/project/start-choices'
import { startProject } from '#lib/db/project/start-project'
import { getSettings } from '#lib/db/settings/settings'
import { listProjectChoices } from '#lib/db/stock/queries'
import { findThread } from '#lib/db/thread/find-thread'
import { listLines } from '#lib/db/thread/list-lines'
import { listThreads } from '#lib/db/thread/list-threads'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aStart, skein } from './things'

const threadCount = 2_500
const pieceCount = 1_200
const compartmentCount = 1_100
/** Threads in the one large key, each with two lots. */
const keyed = 600

const numbers = (count: number) => Array.from({ length: count }, (_, index) => index)

/** SQLite takes 999 parameters in a statement: no list may ask for its rows' relations id by id. */
describeOnEachEngine('lists of a shop’s size', ({ open }) => {
  const ids = { shop: newId(), drawer: newId(), bag: newId(), maker: newId(), line: newId(), chart: newId(), design: newId() }
  const listId = newId()
  const threadIds = numbers(threadCount).map(() => newId())
  const pieceIds = numbers(pieceCount).map(() => newId())
  const compartmentIds = numbers(compartmentCount).map(() => newId())
  const ownerIds = [ids.shop]

  beforeAll(async () => {
    const { prisma, engine } = open()
    await prisma.owner.create({ data: { id: ids.shop, name: 'The Oxmarsh Needle Room', nameKey: 'oxmarsh', kind: 'shop' } })
    for (const [id, label, kind] of [
      [ids.drawer, 'T2.1', 'drawer'],
      [ids.bag, 'K-07', 'bag'],
    ] as const)
      await prisma.place.create({ data: aPlace(id, label, kind) })
    await prisma.maker.create({ data: { id: ids.maker, name: 'Larkholm', nameKey: 'larkholm' } })
    await prisma.threadLine.create({
      data: { id: ids.line, makerId: ids.maker, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.chart.create({ data: { id: ids.chart, title: 'Nine Wrens', titleKey: 'nine wrens', ownerId: ids.shop } })
    await prisma.design.create({
      data: {
        ...{ id: ids.design, chartId: ids.chart, title: 'Nine Wrens', titleKey: 'nine wrens', widthStitches: 140 },
        ...{ heightStitches: 98, advisedThreads: 28, advisedPerUm: 25_400, advisedOver: 2, advisedWeave: 'single' },
      },
    })
    await prisma.threadList.create({ data: { id: listId, designId: ids.design, name: 'cotton', nameKey: 'cotton' } })
    const filled = await write<null, never>(async ({ tx }) => {
      const insert = (table: string, rows: Parameters<typeof bulkInsert>[3]) => bulkInsert(tx, engine, table, rows)
      await insert(
        'Place',
        compartmentIds.map((id, index) => ({
          ...{ id, label: `T2.1-${index}`, labelKey: `t2.1-${index}`, kind: 'compartment', parentId: ids.drawer },
          ...{ path: `/${ids.drawer}/${id}/`, version: 0 },
        })),
      )
      await insert(
        'Thread',
        threadIds.map((id, index) => ({ id, lineId: ids.line, code: String(index).padStart(4, '0'), version: 0 })),
      )
      // Half the threads lie in compartments of their own, half loose in the drawer; every seventh is in the bag, and out.
      const batches = threadIds.flatMap((threadId, index) =>
        ['A', 'B'].slice(0, index < keyed ? 2 : 1).map((lot) => {
          const homePlaceId = (index % 2 === 0 && compartmentIds[index / 2]) || ids.drawer
          return {
            ...{ id: newId(), threadId, ownerId: ids.shop, lot, putUpStrandTenths: skein, wholePutUps: 1 },
            ...{ partStrandTenths: 0, partCertainty: 'none', homePlaceId, version: 0 },
            currentPlaceId: index >= keyed && index % 7 === 0 ? ids.bag : homePlaceId,
          }
        }),
      )
      await insert('Batch', batches)
      const at = timestamp(new Date('2026-01-05T09:00:00Z'))
      await insert(
        'Movement',
        batches.map(({ id: batchId }) => ({
          ...{ id: newId(), revision: 0, at, kind: 'receive', batchId, wholeDelta: 1, partDeltaStrandTenths: 0 },
        })),
      )
      await insert(
        'ClothPiece',
        pieceIds.map((id, index) => ({
          ...{ id, ownerId: ids.shop, name: 'Linen', colourName: `Dye ${index}`, weave: 'single', endsThreads: 28 },
          ...{ endsPerUm: 25_400, picksThreads: 28, picksPerUm: 25_400, widthUm: 457_200, heightUm: 685_800 },
          ...{ isSquared: true, sizeCertainty: 'measured', isTurnable: true, version: 0 },
          ...{ homePlaceId: ids.drawer, currentPlaceId: ids.drawer },
        })),
      )
      await insert(
        'Project',
        pieceIds.map((clothPieceId, index) => ({
          ...{ id: newId(), designId: ids.design, ownerId: ids.shop, clothPieceId, placeId: ids.bag, version: 0 },
          ...{ status: index % 2 ? 'planned' : 'finished', quantity: 1, hoursTenths: 0, stitchesDone: 0 },
          finishedOn: index % 2 ? null : '2026-03-01',
        })),
      )
      await insert(
        'Chart',
        numbers(pieceCount).map((index) => ({
          ...{ id: newId(), title: `Leaf ${index}`, titleKey: `leaf ${index}`, kind: 'leaflet', ownerId: ids.shop },
          ...{ copies: 1, partsNeeded: 1, partsHeld: 1, homePlaceId: ids.drawer, currentPlaceId: ids.bag, version: 0 },
        })),
      )
      const lines = threadIds.slice(0, keyed).map((threadId) => ({ id: newId(), threadId }))
      const noTally = { full: 0, half: 0, quarter: 0, threeQuarter: 0, tent: 0, backstitch: 0, backstitchDiagonal: 0 }
      await insert(
        'KeyLine',
        lines.map(({ id }, position) => ({
          ...{ id, threadListId: listId, position, hasTally: false, ...noTally },
          ...{ doubleRunning: 0, knotOneWrap: 0, knotTwoWrap: 0, bead: 0 },
        })),
      )
      await insert(
        'KeyLineThread',
        lines.map(({ id, threadId }) => ({
          ...{ id: newId(), keyLineId: id, position: 0, threadId, strands: 2, statedHundredths: 150 },
          statedPutUpTenths: skein / 6,
        })),
      )
      return ok(null)
    }, 60_000)
    expect(filled.ok).toBe(true)
  })

  it('shows every list screen’s rows', async () => {
    const filter = { makerId: null, lineId: null, placeId: null, text: '', state: null, family: null }
    const page = { ownerIds, offset: 0, limit: 100 }
    expect(await listThreads(filter, page)).toMatchObject({ total: threadCount })
    expect(await listThreads({ ...filter, placeId: ids.drawer }, page)).toMatchObject({ total: threadCount })
    expect(await listLines()).toHaveLength(1)
    expect((await findThread(threadIds[0] as string, { ownerIds }))?.batches).toHaveLength(2)

    const cloth = await listCloth(ownerIds)
    expect(cloth).toHaveLength(pieceCount)
    expect(cloth.filter(({ reservedBy }) => reservedBy.length === 1)).toHaveLength(pieceCount / 2)
    expect((await listClothPieces(ownerIds)).filter(({ isReserved }) => isReserved)).toHaveLength(pieceCount / 2)

    const places = await listPlaces()
    expect(await listPlaceOptions()).toHaveLength(compartmentCount + 2)
    const { byPlace } = await countInPlaces(ownerIds, places)
    expect(byPlace.get(ids.drawer)).toMatchObject({ cloth: pieceCount })
    const contents = await findPlaceContents({ placeIds: [ids.drawer], compartmentsOf: ids.drawer, ownerIds })
    expect([contents.threads.length, contents.cloth.length, contents.charts.length, contents.chartCount]).toEqual([
      threadCount + keyed,
      pieceCount,
      100,
      pieceCount,
    ])
    const inBag = await findPlaceContents({ placeIds: [ids.bag], ownerIds })
    expect(inBag.projects).toHaveLength(pieceCount / 2)
    const out = await listOut({ ownerIds, insidePath: null }, { offset: 1_000, limit: 500 })
    expect([out.things.length, out.total]).toEqual([472, 1_472])

    expect(await listProjectsUnderWay({ ownerIds, page: 1, perPage: 100 })).toMatchObject({ total: pieceCount / 2 })
    expect(await listFinishes({ ownerIds, page: 1, perPage: 100 })).toMatchObject({ total: pieceCount / 2 })
    expect((await readYear(ownerIds, '2026')).sum).toMatchObject({ pieces: pieceCount / 2 })
    const { stash, cloth: counts, out: spans } = await readPlots({ ownerIds, today: '2026-01-31' })
    expect(stash.thread.at(-1)).toMatchObject({ month: '2026-01', in: threadCount + keyed })
    expect(counts).toMatchObject([{ label: '28', pieces: pieceCount }])
    // Nobody wrote down since when.
    expect(spans.at(-1)).toMatchObject({ upToDays: 'unknown', total: 1_472 })
    expect(await readToday({ ownerIds, today: '2026-01-31' })).toEqual([])
    expect((await readWeek({ ownerIds, day: '2026-01-07', today: '2026-01-31' })).past.sums.received.thread).toBe(
      threadCount + keyed,
    )
    expect(await listProjectChoices(ownerIds)).toHaveLength(300)
    expect((await listChartOptions()).designers).toEqual([])
  })

  it('promises, kits and puts back a key of six hundred threads', async () => {
    const choices = await readStartChoices(ids.design, ids.shop, await getSettings())
    expect(choices?.lists.map(({ cover }) => cover.threadCount)).toEqual([keyed])
    const start = aStart({ designId: ids.design, threadListId: listId, ownerId: ids.shop })
    const { projectId, promised } = granted(await startProject(start))
    expect(promised).toHaveLength(keyed * 2)
    expect(await kitProject({ projectId, bagLabel: 'K-99', takesChart: true })).toMatchObject({
      value: { takenCount: keyed * 2, leftThere: [] },
    })
    expect((await readPullList(projectId))?.lines).toHaveLength(keyed * 2)
    expect((await readFinishSheet(projectId))?.threads).toHaveLength(keyed)
    expect((await abandonProject({ projectId })).ok).toBe(true)
    expect((await readPutBackList(projectId))?.back).toHaveLength(keyed * 2)
    expect(await open().prisma.stockPromise.count()).toBe(0)
  })
})
