import { beforeAll, expect, it } from 'vitest'
import { newId } from '#lib/db/new-id'
import { addPlace, type PlaceInput } from '#lib/db/place/add-place'
import { findPlaceContents } from '#lib/db/place/contents'
import { editPlace } from '#lib/db/place/edit-place'
import { ensurePlace } from '#lib/db/place/ensure-place'
import { listOut } from '#lib/db/place/list-out'
import { movePlace } from '#lib/db/place/move-place'
import { countInPlaces } from '#lib/db/place/place-counts'
import { findPlaceByLabel, listPlaceOptions, listPlaces } from '#lib/db/place/queries'
import { removePlace } from '#lib/db/place/remove-place'
import { findRemovedPlace, restorePlace } from '#lib/db/place/restore-place'
import { returnChart } from '#lib/db/place/return-chart'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { hanneDrewitt, theShop } from './things'

const aPlace = (label: string, over: Partial<PlaceInput & { parentId: string | null }> = {}) => ({
  label,
  name: null,
  kind: 'drawer' as const,
  walkOrder: null,
  capacity: null,
  note: null,
  parentId: null,
  ...over,
})

async function added(label: string, over: Partial<PlaceInput & { parentId: string | null }> = {}): Promise<string> {
  const result = await addPlace(aPlace(label, over))
  if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
  return result.value.id
}

const ensured = (label: string) => write<string, never>(async (open) => ok(await ensurePlace(open, label)))

describeOnEachEngine('places', ({ open }) => {
  it('keeps each label once, however it is spelt, and the first way of writing it', async () => {
    const id = await added('Böx  9', { kind: 'box' })
    expect(await addPlace(aPlace('box 9'))).toEqual({
      ok: false,
      error: { kind: 'label-taken', label: 'box 9', placeId: id },
    })
    expect(await findPlaceByLabel('BOX 9')).toMatchObject({ id, label: 'Böx  9', path: `/${id}/` })
    expect(await findPlaceByLabel('box 10')).toBeNull()
  })

  it('names every place with what it is inside, in walking order', async () => {
    const room = await added('Kitting room', { kind: 'room' })
    const cabinet = await added('Cabinet T', { kind: 'cabinet', parentId: room })
    await added('T2.10', { parentId: cabinet })
    await added('T2.9', { parentId: cabinet })
    const inside = (await listPlaceOptions()).filter(({ pathText }) => pathText.startsWith('Kitting room'))
    expect(inside.map(({ pathText, depth }) => [pathText, depth])).toEqual([
      ['Kitting room', 0],
      ['Kitting room › Cabinet T', 1],
      ['Kitting room › Cabinet T › T2.9', 2],
      ['Kitting room › Cabinet T › T2.10', 2],
    ])
  })

  it('moves a whole branch and refuses to put a place inside itself', async () => {
    const [rack, shelf, box, other] = [await added('R1'), await added('R2'), await added('R3'), await added('R4')]
    const versionOf = async (id: string) => (await open().prisma.place.findUniqueOrThrow({ where: { id } })).version
    const move = async (id: string, toParentId: string | null) => movePlace({ id, version: await versionOf(id), toParentId })
    expect(await move(shelf, rack)).toEqual({ ok: true, value: null })
    expect(await move(box, shelf)).toEqual({ ok: true, value: null })
    expect(await move(rack, box)).toEqual({ ok: false, error: { kind: 'inside-itself', placeId: rack } })
    expect(await move(rack, rack)).toEqual({ ok: false, error: { kind: 'inside-itself', placeId: rack } })
    expect(await move(box, shelf)).toEqual({ ok: false, error: { kind: 'already-there' } })
    expect(await move(rack, other)).toEqual({ ok: true, value: null })
    expect(await findPlaceByLabel('R3')).toMatchObject({ path: `/${other}/${rack}/${shelf}/${box}/`, parentId: shelf })
    expect(await move(shelf, null)).toEqual({ ok: true, value: null })
    expect(await findPlaceByLabel('R3')).toMatchObject({ path: `/${shelf}/${box}/` })
    expect(await findPlaceByLabel('R1')).toMatchObject({ path: `/${other}/${rack}/` })
    expect(await move(shelf, 'nowhere')).toEqual({ ok: false, error: { kind: 'no-such-place', placeId: 'nowhere' } })
  })

  it('refuses a form that was filled in from an older card', async () => {
    const id = await added('Ring 4', { kind: 'ring' })
    const card = { ...aPlace('Ring 5', { kind: 'ring' }), id, version: 0 }
    const { parentId: _, ...edit } = card
    expect(await editPlace(edit)).toEqual({ ok: true, value: null })
    expect(await editPlace(edit)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await removePlace({ id, version: 0 })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
  })

  it('makes a place for a label typed in a form, once, of the kind its label says', async () => {
    const first = await ensured(' Bag K-07 ')
    expect(await ensured('bag k-07')).toEqual(first)
    expect(await findPlaceByLabel('Bag K-07')).toMatchObject({ label: 'Bag K-07', kind: 'bag', parentId: null })
    await expect(ensured('  ')).rejects.toThrow(RangeError)
  })

  it('takes an empty place off the map, and its label can be used again', async () => {
    const id = await added('Old box', { kind: 'box' })
    expect(await removePlace({ id, version: 0 })).toEqual({ ok: true, value: null })
    expect(await findPlaceByLabel('Old box')).toBeNull()
    expect((await listPlaces()).map((place) => place.id)).not.toContain(id)
    const again = await ensured('old box')
    expect(again.ok && again.value).not.toBe(id)
  })
})

describeOnEachEngine('what lies in places', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  let [cabinet, drawer, bag, box] = ['', '', '', '']

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    cabinet = await added('Cabinet T', { kind: 'cabinet' })
    drawer = await added('T2.1', { parentId: cabinet, capacity: 40 })
    bag = await added('K-07', { kind: 'bag' })
    box = await added('Box 3', { kind: 'box', parentId: cabinet })
    const maker = await prisma.maker.create({ data: { id: newId(), name: 'Larkholm', nameKey: 'larkholm' } })
    const line = await prisma.threadLine.create({
      data: { id: newId(), makerId: maker.id, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: 480_000 },
    })
    const batch = async (code: string, over: object = {}) => {
      const known = await prisma.thread.findFirst({ where: { code } })
      const thread = known ?? (await prisma.thread.create({ data: { id: newId(), lineId: line.id, code } }))
      const places = { homePlaceId: drawer, currentPlaceId: drawer }
      await prisma.batch.create({
        data: {
          id: newId(),
          threadId: thread.id,
          ownerId: shop.id,
          putUpStrandTenths: 480_000,
          wholePutUps: 2,
          ...places,
          ...over,
        },
      })
    }
    await batch('0100')
    await batch('17')
    await batch('17', { lot: 'B' })
    await batch('Ecru', { currentPlaceId: bag, outSince: new Date('2026-09-02T10:00:00Z') })
    await batch('0087', { ownerId: hanne.id })
    const chart = { titleKey: 'nine wrens', title: 'Nine Wrens', ownerId: shop.id }
    const nineWrens = await prisma.chart.create({
      data: {
        ...chart,
        id: newId(),
        homePlaceId: box,
        currentPlaceId: drawer,
        outSince: new Date('2026-08-28T10:00:00Z'),
        designs: { create: { id: newId(), title: 'Nine Wrens', titleKey: 'nine wrens' } },
      },
      include: { designs: true },
    })
    await prisma.chart.create({ data: { ...chart, id: newId() } })
    const designId = nineWrens.designs[0]?.id as string
    await prisma.project.create({ data: { id: newId(), designId, ownerId: shop.id, status: 'kitted', placeId: bag } })
  })

  it('shows a drawer in number order with what is out and what does not live there', async () => {
    const contents = await findPlaceContents({ placeIds: [drawer], ownerIds: [shop.id] })
    expect(contents.threads.map(({ code, lot, isOut, current }) => [code, lot, isOut, current?.label])).toEqual([
      ['Ecru', null, true, 'K-07'],
      ['17', null, false, 'T2.1'],
      ['17', 'B', false, 'T2.1'],
      ['0100', null, false, 'T2.1'],
    ])
    expect(contents.charts.map(({ title, home }) => [title, home?.label])).toEqual([['Nine Wrens', 'Box 3']])
    expect(contents.chartCount).toBe(1)
    expect(contents.othersCount).toBe(1)
    const inBag = await findPlaceContents({ placeIds: [bag], ownerIds: [shop.id] })
    expect(inBag.threads.map(({ code, isOut }) => [code, isOut])).toEqual([['Ecru', true]])
    expect(inBag.projects.map(({ title }) => title)).toEqual(['Nine Wrens'])
  })

  it('lists what is out, longest first, everywhere or of one branch, with the project it is out for', async () => {
    const outOf = async (ownerId: string, insidePath: string | null) =>
      (await listOut({ ownerIds: [ownerId], insidePath }, { offset: 0, limit: 100 })).things
    const out = await outOf(shop.id, null)
    expect(out.map((thing) => [thing.noun, thing.current?.label, thing.projects.map(({ title }) => title)])).toEqual([
      ['chart', 'T2.1', []],
      ['thread', 'K-07', ['Nine Wrens']],
    ])
    const pathOf = async (id: string) => (await open().prisma.place.findUniqueOrThrow({ where: { id } })).path
    expect((await outOf(shop.id, await pathOf(drawer))).map(({ noun }) => noun)).toEqual(['thread'])
    expect(await outOf(shop.id, await pathOf(bag))).toEqual([])
    expect(await outOf(hanne.id, null)).toEqual([])
  })

  it('counts what each place holds with all inside it, of the owners asked for', async () => {
    const { byPlace, nowhere, everywhere } = await countInPlaces([shop.id], await listPlaces())
    const holds = { threads: 2, wholePutUps: 6, cloth: 0, charts: 1, notions: 0, projects: 0, out: 1 }
    expect(byPlace.get(drawer)).toEqual(holds)
    expect(byPlace.get(cabinet)).toEqual({ ...holds, out: 2 })
    expect(byPlace.get(bag)).toEqual({ threads: 1, wholePutUps: 2, cloth: 0, charts: 0, notions: 0, projects: 1, out: 0 })
    expect(byPlace.get(box)).toMatchObject({ charts: 0, out: 1 })
    expect(everywhere).toEqual({ threads: 3, wholePutUps: 8, cloth: 0, charts: 1, notions: 0, projects: 1, out: 2 })
    expect(nowhere).toMatchObject({ threads: 0, charts: 1 })
  })

  it('keeps a place that anybody’s goods are in or live in', async () => {
    expect(await removePlace({ id: drawer, version: 0 })).toEqual({
      ok: false,
      error: { kind: 'not-empty', places: 0, threads: 5, cloth: 0, charts: 1, notions: 0, projects: 0 },
    })
    expect(await removePlace({ id: cabinet, version: 0 })).toMatchObject({ error: { kind: 'not-empty', places: 2 } })
    expect(await removePlace({ id: bag, version: 0 })).toMatchObject({ error: { threads: 1, projects: 1 } })
  })

  it('comes back to where it stood, at the top when that is gone too, unless its label was given away', async () => {
    const shelf = await added('S1', { kind: 'shelf' })
    const bin = await added('S1-a', { kind: 'bin', parentId: shelf })
    expect((await removePlace({ id: bin, version: 0 })).ok).toBe(true)
    expect(await findRemovedPlace(bin)).toEqual({ id: bin, label: 'S1-a', version: 1 })
    expect(await restorePlace({ id: bin, version: 0 })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await restorePlace({ id: bin, version: 1 })).toEqual({ ok: true, value: null })
    expect(await findPlaceByLabel('s1-a')).toMatchObject({ parentId: shelf, path: `/${shelf}/${bin}/` })
    expect(await findRemovedPlace(bin)).toBeNull()
    expect((await removePlace({ id: bin, version: 2 })).ok).toBe(true)
    expect((await removePlace({ id: shelf, version: 0 })).ok).toBe(true)
    const other = await added('s1-A')
    const version = (await findRemovedPlace(bin))?.version as number
    expect(await restorePlace({ id: bin, version })).toEqual({
      ok: false,
      error: { kind: 'label-taken', label: 'S1-a', placeId: other },
    })
    expect((await removePlace({ id: other, version: 0 })).ok).toBe(true)
    expect((await restorePlace({ id: bin, version })).ok).toBe(true)
    expect(await findPlaceByLabel('S1-a')).toMatchObject({ id: bin, parentId: null, path: `/${bin}/` })
  })

  it('puts a chart back where it lives, once, and journals it', async () => {
    const chart = await open().prisma.chart.findFirstOrThrow({ where: { currentPlaceId: drawer } })
    expect(await returnChart({ id: chart.id, version: 0 })).toEqual({ ok: true, value: null })
    expect(await returnChart({ id: chart.id, version: 0 })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await returnChart({ id: chart.id, version: 1 })).toEqual({ ok: false, error: { kind: 'not-out' } })
    expect(await open().prisma.chart.findUniqueOrThrow({ where: { id: chart.id } })).toMatchObject({
      currentPlaceId: box,
      outSince: null,
    })
    const movements = await open().prisma.movement.findMany({ where: { chartId: chart.id } })
    expect(movements).toMatchObject([{ kind: 'return', fromPlaceId: drawer, toPlaceId: box, wholeDelta: 0 }])
    const placeless = await open().prisma.chart.findFirstOrThrow({ where: { homePlaceId: null } })
    expect(await returnChart({ id: placeless.id, version: 0 })).toEqual({ ok: false, error: { kind: 'no-home' } })
  })
})
