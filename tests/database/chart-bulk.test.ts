import { beforeAll, expect, it } from 'vitest'
import { listBulkEdits } from '#lib/db/bulk-edit/queries'
import { bulkInsert } from '#lib/db/bulk-insert'
import { editChart } from '#lib/db/chart/edit-chart'
import { applyChartBulk } from '#lib/db/chart-bulk/apply-chart-bulk'
import { findChartBulk, listChartBulks } from '#lib/db/chart-bulk/queries'
import { previewChartBulk } from '#lib/db/chart-bulk/read-chart-bulk'
import { undoChartBulk } from '#lib/db/chart-bulk/undo-chart-bulk'
import { applyNewHome } from '#lib/db/new-home/apply-new-home'
import { previewNewHome } from '#lib/db/new-home/read-new-home'
import { undoNewHome } from '#lib/db/new-home/undo-new-home'
import { newId } from '#lib/db/new-id'
import { listSavedFilters, moveSavedFilter, removeSavedFilter, saveFilter } from '#lib/db/settings/saved-filters'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, hanneDrewitt, theShop } from './things'

describeOnEachEngine('changing many charts at once', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), old: newId(), fresh: newId(), framer: newId() }
  // More than one statement takes, so that each change goes in several.
  const many = 1_000
  const chartIds = Array.from({ length: many }, () => newId())
  const designIds = Array.from({ length: many }, () => newId())
  const [first, second, third] = chartIds as [string, string, string]
  const [firstDesign, secondDesign] = designIds as [string, string]

  const chartOf = (id: string) =>
    open().prisma.chart.findUniqueOrThrow({
      where: { id },
      select: { homePlaceId: true, currentPlaceId: true, ownerId: true, goneAt: true, version: true },
    })
  const journalOf = (chartId: string) =>
    open().prisma.movement.findMany({ where: { chartId }, select: { kind: true, wholeDelta: true }, orderBy: { id: 'asc' } })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [aPlace(ids.old, 'B3', 'box'), aPlace(ids.fresh, 'B4', 'box'), aPlace(ids.framer, 'Framer', 'framer')],
    })
    granted(
      await write<null, never>(async ({ tx, engine }) => {
        const titled = (at: number) => ({ title: `Leaflet ${at}`, titleKey: `leaflet ${at}` })
        const placed = (at: number) => ({ homePlaceId: ids.old, currentPlaceId: at === 1 ? ids.framer : ids.old })
        await bulkInsert(
          tx,
          engine,
          'Chart',
          chartIds.map((id, at) => ({ id, ownerId: ids.shop, ...titled(at), ...placed(at) })),
        )
        await bulkInsert(
          tx,
          engine,
          'Design',
          designIds.map((id, at) => ({ id, chartId: chartIds[at] as string, ...titled(at) })),
        )
        return ok(null)
      }),
    )
  })

  it('gives all a new home in one write, with a line of the journal each, and takes it back', async () => {
    const change = { kind: 'home', toPlaceId: ids.fresh } as const
    const seen = await previewChartBulk({ designIds, change })
    expect(seen.lines.filter(({ isOut }) => isOut).map(({ chartId }) => chartId)).toEqual([second])
    const done = granted(
      await applyChartBulk({ designIds, change, what: 'New home B4', fingerprint: seen.fingerprint, who: 'Hanne Drewitt' }),
    )
    expect(done).toMatchObject({ changed: many, refused: 0, same: 0 })
    expect(await chartOf(first)).toMatchObject({ homePlaceId: ids.fresh, currentPlaceId: ids.fresh })
    // What is out stays out, and comes back to the new home.
    expect(await chartOf(second)).toMatchObject({ homePlaceId: ids.fresh, currentPlaceId: ids.framer })
    expect(await open().prisma.movement.count({ where: { kind: 'move', toPlaceId: ids.fresh } })).toBe(many)
    expect((await listChartBulks(5)).map(({ what }) => what)).toEqual(['New home B4'])
    // Changes of threads do not list it.
    expect(await listBulkEdits(5)).toEqual([])

    // One of them was written anew meanwhile: it is left alone, and named.
    const { version } = await chartOf(third)
    const anew = { title: 'Leaflet anew', kind: 'leaflet', ownerId: ids.shop, copies: 1, designers: [] } as const
    granted(
      await editChart({
        ...{ id: third, version, ...anew, edition: null, partsNeeded: 1, partsHeld: 1 },
        ...{ boughtOn: null, priceMinor: null, isOutOfPrint: false, note: null },
      } as Parameters<typeof editChart>[0]),
    )
    const undone = granted(await undoChartBulk({ bulkEditId: done.bulkEditId }))
    expect(undone).toMatchObject({ takenBack: many - 1, left: [{ chartId: third, why: 'changed-since' }] })
    expect(await chartOf(first)).toMatchObject({ homePlaceId: ids.old, currentPlaceId: ids.old })
    expect(await chartOf(second)).toMatchObject({ homePlaceId: ids.old, currentPlaceId: ids.framer })
    expect(await chartOf(third)).toMatchObject({ homePlaceId: ids.fresh })
    expect(await undoChartBulk({ bulkEditId: done.bulkEditId })).toMatchObject({ error: { kind: 'already-undone' } })
    expect((await findChartBulk(done.bulkEditId))?.left).toHaveLength(1)
  })

  it('does nothing when it would do something else than was seen', async () => {
    const change = { kind: 'owner', toOwnerId: ids.hanne } as const
    const { fingerprint } = await previewChartBulk({ designIds: [firstDesign], change })
    granted(await applyChartBulk({ designIds: [firstDesign], change: { kind: 'home', toPlaceId: ids.fresh }, what: 'New home' }))
    expect(await applyChartBulk({ designIds: [firstDesign], change, what: 'Passed on', fingerprint })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    expect((await chartOf(first)).ownerId).toBe(ids.shop)
  })

  it('passes charts to another owner and back', async () => {
    const change = { kind: 'owner', toOwnerId: ids.hanne } as const
    const done = granted(await applyChartBulk({ designIds: [firstDesign, secondDesign], change, what: 'Passed to Hanne' }))
    expect((await chartOf(second)).ownerId).toBe(ids.hanne)
    granted(await undoChartBulk({ bulkEditId: done.bulkEditId }))
    expect((await chartOf(second)).ownerId).toBe(ids.shop)
  })

  it('marks as gone what nobody works from; the copies in the journal come out even', async () => {
    const { prisma } = open()
    const projectId = newId()
    await prisma.project.create({ data: { id: projectId, designId: secondDesign, ownerId: ids.shop, status: 'stitching' } })
    const change = { kind: 'gone', ending: 'passed on' } as const
    const done = granted(await applyChartBulk({ designIds: [firstDesign, secondDesign], change, what: 'Sold' }))
    expect(done).toMatchObject({ changed: 1, refused: 1 })
    expect((await chartOf(first)).goneAt).not.toBeNull()
    expect((await chartOf(second)).goneAt).toBeNull()
    expect((await journalOf(first)).at(-1)).toEqual({ kind: 'transfer', wholeDelta: -1 })
    granted(await undoChartBulk({ bulkEditId: done.bulkEditId }))
    expect((await chartOf(first)).goneAt).toBeNull()
    expect((await journalOf(first)).at(-1)).toEqual({ kind: 'undo', wholeDelta: 1 })
  })

  it('puts a theme on all that lack it, and takes it off those alone', async () => {
    const { prisma } = open()
    const themeId = newId()
    await prisma.theme.create({ data: { id: themeId, axis: 'season', name: 'Midwinter', nameKey: 'midwinter' } })
    await prisma.designTheme.create({ data: { designId: firstDesign, themeId } })
    const change = { kind: 'add-theme', axis: 'season', name: 'Midwinter' } as const
    const done = granted(await applyChartBulk({ designIds, change, what: 'Theme Midwinter' }))
    expect(done).toMatchObject({ changed: many - 1, same: 1 })
    expect(await prisma.designTheme.count({ where: { themeId } })).toBe(many)
    granted(await undoChartBulk({ bulkEditId: done.bulkEditId }))
    expect(await prisma.designTheme.findMany({ where: { themeId }, select: { designId: true } })).toEqual([
      { designId: firstDesign },
    ])
    const taken = granted(await applyChartBulk({ designIds, change: { kind: 'take-theme', themeId }, what: 'Theme off' }))
    expect(taken).toMatchObject({ changed: 1 })
    granted(await undoChartBulk({ bulkEditId: taken.bulkEditId }))
    expect(await prisma.designTheme.count({ where: { themeId } })).toBe(1)
  })

  it('puts stars on wishes, and refuses what is no wish', async () => {
    const { prisma } = open()
    const projectId = newId()
    await prisma.project.create({ data: { id: projectId, designId: firstDesign, ownerId: ids.shop, status: 'wanted', stars: 2 } })
    const done = granted(
      await applyChartBulk({ designIds: [firstDesign, secondDesign], change: { kind: 'stars', stars: 5 }, what: '5 stars' }),
    )
    expect(done).toMatchObject({ changed: 1, refused: 1 })
    granted(await undoChartBulk({ bulkEditId: done.bulkEditId }))
    expect((await prisma.project.findUniqueOrThrow({ where: { id: projectId } })).stars).toBe(2)
  })

  it('refuses a place or an owner that is not there', async () => {
    const place = { kind: 'home', toPlaceId: newId() } as const
    expect(await applyChartBulk({ designIds: [firstDesign], change: place, what: 'x' })).toMatchObject({
      error: { kind: 'no-such-place' },
    })
    const owner = { kind: 'owner', toOwnerId: newId() } as const
    expect(await applyChartBulk({ designIds: [firstDesign], change: owner, what: 'x' })).toMatchObject({
      error: { kind: 'no-such-owner' },
    })
  })

  it('gives pieces of cloth another home, and takes it back', async () => {
    const { prisma } = open()
    const [atHome, out] = [newId(), newId()] as [string, string]
    const piece = { ownerId: ids.shop, name: 'Linen', weave: 'single', widthUm: 500_000, heightUm: 400_000 }
    const count = { endsThreads: 32, endsPerUm: 25_400, picksThreads: 32, picksPerUm: 25_400 }
    await prisma.clothPiece.createMany({
      data: [
        { id: atHome, ...piece, ...count, homePlaceId: ids.old, currentPlaceId: ids.old },
        { id: out, ...piece, ...count, homePlaceId: ids.old, currentPlaceId: ids.framer },
      ],
    })
    const request = { noun: 'cloth', ids: [atHome, out], toPlaceId: ids.fresh } as const
    const { fingerprint, lines } = await previewNewHome(request)
    expect(lines.map(({ isOut }) => isOut)).toEqual([false, true])
    const done = granted(await applyNewHome({ ...request, what: 'New home B4', fingerprint }))
    expect(done).toMatchObject({ changed: 2, same: 0 })
    const housing = () =>
      prisma.clothPiece.findMany({
        where: { id: { in: [atHome, out] } },
        select: { homePlaceId: true, currentPlaceId: true },
        orderBy: { id: 'asc' },
      })
    expect(await housing()).toEqual([
      { homePlaceId: ids.fresh, currentPlaceId: ids.fresh },
      { homePlaceId: ids.fresh, currentPlaceId: ids.framer },
    ])
    expect(await applyNewHome({ ...request, what: 'again', fingerprint })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    expect(granted(await undoNewHome({ bulkEditId: done.bulkEditId }))).toEqual({ takenBack: 2, left: [] })
    expect(await housing()).toEqual([
      { homePlaceId: ids.old, currentPlaceId: ids.old },
      { homePlaceId: ids.old, currentPlaceId: ids.framer },
    ])
  })

  it('keeps filters of a list under names, in the house’s order', async () => {
    const named = (name: string) => ({ room: 'charts' as const, name })
    granted(await saveFilter({ ...named('Winter'), filter: 'season=w' }))
    granted(await saveFilter({ ...named('Now'), filter: 'stitchableNow=1' }))
    expect(await saveFilter({ ...named('winter'), filter: 'q=x' })).toMatchObject({ error: { kind: 'name-taken' } })
    granted(await moveSavedFilter(named('Now'), -1))
    expect((await listSavedFilters('charts')).map(({ name }) => name)).toEqual(['Now', 'Winter'])
    granted(await removeSavedFilter(named('Winter')))
    expect(await listSavedFilters('threads')).toEqual([])
    granted(await removeSavedFilter(named('Now')))
  })
})
