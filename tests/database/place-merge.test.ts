import { beforeAll, expect, it } from 'vitest'
import { findBulkEdit, listBulkEdits } from '#lib/db/bulk-edit/queries'
import { undoBulkEdit } from '#lib/db/bulk-edit/undo-bulk-edit'
import { newId } from '#lib/db/new-id'
import { addPlace, type PlaceInput } from '#lib/db/place/add-place'
import { editPlace } from '#lib/db/place/edit-place'
import { ensurePlace } from '#lib/db/place/ensure-place'
import { findBecome, listFormerLabels, listSplitOff, lookUpLabel } from '#lib/db/place/look-up-label'
import { mergePlace } from '#lib/db/place/merge-place'
import { findPlaceChange, listPlaceChanges } from '#lib/db/place/place-change'
import { readRoom, writeRoom } from '#lib/db/place/place-room'
import { findPlaceByLabel } from '#lib/db/place/queries'
import { removePlace } from '#lib/db/place/remove-place'
import { splitPlace } from '#lib/db/place/split-place'
import { undoPlaceChange } from '#lib/db/place/undo-place-change'
import { write } from '#lib/db/write'
import { ok } from '#lib/result'
import { meantPlace } from '../../app/_places/meant-place'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addLarkholm, hanneDrewitt, skein, theShop } from './things'

type Given = Partial<PlaceInput & { parentId: string | null }>

const card = (label: string, over: Given = {}) => ({
  ...{ label, name: null, kind: 'drawer' as const, walkOrder: null, capacity: null, note: null, parentId: null },
  ...over,
})

async function added(label: string, over: Given = {}): Promise<string> {
  const result = await addPlace(card(label, over))
  if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
  return result.value.id
}

describeOnEachEngine('places renamed, merged and split', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  let threadId = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    const makerId = await addLarkholm(open())
    const lineId = newId()
    await prisma.threadLine.create({
      data: { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    threadId = newId()
    await prisma.thread.create({ data: { id: threadId, lineId, code: '0311' } })
  })

  const place = (id: string) => open().prisma.place.findUniqueOrThrow({ where: { id } })
  const batch = (id: string) => open().prisma.batch.findUniqueOrThrow({ where: { id } })
  const chart = (id: string) => open().prisma.chart.findUniqueOrThrow({ where: { id } })
  const versionOf = async (id: string) => (await place(id)).version

  async function addBatch(homePlaceId: string, currentPlaceId: string | null = homePlaceId, ownerId = shop.id): Promise<string> {
    const id = newId()
    const outSince = currentPlaceId !== null && currentPlaceId !== homePlaceId ? new Date('2026-03-01T10:00:00Z') : null
    await open().prisma.batch.create({
      data: { id, threadId, ownerId, putUpStrandTenths: skein, wholePutUps: 2, homePlaceId, currentPlaceId, outSince },
    })
    return id
  }

  const rename = async (id: string, label: string) => {
    const { parentId: _, ...edit } = card(label)
    return editPlace({ ...edit, id, version: await versionOf(id) })
  }
  const merge = async (id: string, intoId: string, addsRoom = true) =>
    mergePlace({ id, version: await versionOf(id), intoId, addsRoom, who: 'Nell Oxtoby' })

  async function merged(id: string, intoId: string, addsRoom = true) {
    const result = await merge(id, intoId, addsRoom)
    if (!result.ok) throw new Error(result.error.kind)
    return result.value
  }

  it('remembers what a label said when its place is renamed', async () => {
    const id = await added('T2.1-14', { kind: 'compartment' })
    expect(await rename(id, 'T2.2-14')).toEqual({ ok: true, value: null })
    const found = await lookUpLabel('t2.1-14')
    expect(found.place).toBeNull()
    expect(found.former).toMatchObject([{ label: 'T2.1-14', why: 'renamed', place: { id, label: 'T2.2-14' } }])
    expect(Date.now() - (found.former[0]?.until.getTime() ?? 0)).toBeLessThan(60_000)
    expect(await findPlaceByLabel('T2.1-14')).toMatchObject({ id, label: 'T2.2-14' })
    // Typed in a form where a thing is, it makes no second place.
    expect(await write<string, never>(async (writing) => ok(await ensurePlace(writing, ' t2.1-14 ')))).toEqual({
      ok: true,
      value: id,
    })
    expect(await listFormerLabels(id)).toMatchObject([{ label: 'T2.1-14', why: 'renamed' }])
  })

  it('forgets an old label when the place gets it back, and lets a new place have it', async () => {
    const id = await added('Ring 1')
    await rename(id, 'Ring 2')
    await rename(id, 'ring 1')
    expect(await lookUpLabel('Ring 1')).toMatchObject({ place: { id }, former: [] })
    // A change of spelling alone is no new label.
    await rename(id, 'RING 1')
    expect((await listFormerLabels(id)).map(({ label }) => label)).toEqual(['Ring 2'])
    const second = await added('Ring 2')
    expect(await lookUpLabel('Ring 2')).toMatchObject({ place: { id: second }, former: [{ why: 'renamed', place: { id } }] })
    expect(await findPlaceByLabel('ring 2')).toMatchObject({ id: second })
  })

  it('gives all of one place to another: what lives there, lies there, stands in it and is kitted in it', async () => {
    const { prisma } = open()
    const [from, into, bag, inner] = [
      await added('M1', { capacity: 40 }),
      await added('M2', { capacity: 30 }),
      await added('M-bag', { kind: 'bag' }),
      await added('M-inner', { kind: 'box' }),
    ]
    await prisma.place.update({ where: { id: inner }, data: { parentId: from, path: `/${from}/${inner}/` } })
    const nested = await added('M-nested', { kind: 'ring', parentId: inner })
    const atHome = await addBatch(from)
    const away = await addBatch(from, bag)
    const guest = await addBatch(into, from, hanne.id)
    const unsaid = await addBatch(from, null)
    const chartId = newId()
    await prisma.chart.create({
      data: { id: chartId, title: 'Rook Hill', titleKey: 'rook hill', ownerId: shop.id, homePlaceId: from, currentPlaceId: from },
    })
    const [designId, projectId] = [newId(), newId()]
    await prisma.design.create({ data: { id: designId, chartId, title: 'Rook Hill', titleKey: 'rook hill' } })
    await prisma.project.create({ data: { id: projectId, designId, ownerId: shop.id, placeId: from } })

    const { changeId, ...counts } = await merged(from, into)
    expect(counts).toEqual({ things: 5, inside: 1, projects: 1 })
    expect(await batch(atHome)).toMatchObject({ homePlaceId: into, currentPlaceId: into, outSince: null, version: 1 })
    expect(await batch(away)).toMatchObject({
      ...{ homePlaceId: into, currentPlaceId: bag },
      outSince: new Date('2026-03-01T10:00:00Z'),
    })
    expect(await batch(guest)).toMatchObject({ homePlaceId: into, currentPlaceId: into, outSince: null })
    expect(await batch(unsaid)).toMatchObject({ homePlaceId: into, currentPlaceId: null })
    expect(await chart(chartId)).toMatchObject({ homePlaceId: into, currentPlaceId: into })
    expect(await place(inner)).toMatchObject({ parentId: into, path: `/${into}/${inner}/` })
    expect(await place(nested)).toMatchObject({ parentId: inner, path: `/${into}/${inner}/${nested}/` })
    expect(await prisma.project.findUniqueOrThrow({ where: { id: projectId } })).toMatchObject({ placeId: into, version: 1 })
    expect((await place(from)).goneAt).not.toBeNull()
    expect(await readRoom(into)).toEqual({ capacity: 70, putUps: [] })
    // Each thing has its line in the journal, with who and why.
    const journal = await prisma.movement.findMany({ where: { fromPlaceId: from, toPlaceId: into } })
    expect(journal.map(({ batchId, chartId: ofChart }) => batchId ?? ofChart).sort()).toEqual(
      [atHome, away, guest, unsaid, chartId].sort(),
    )
    expect(new Set(journal.map(({ kind, who, reason }) => `${kind}, ${who}, ${reason}`))).toEqual(
      new Set(['move, Nell Oxtoby, M1 merged into M2']),
    )
    expect(await findPlaceByLabel('M1')).toMatchObject({ id: into })
    expect(await findBecome(from)).toEqual({ id: into, oldLabel: 'M1' })
    expect((await listPlaceChanges(5))[0]).toMatchObject({ id: changeId, what: 'M1 merged into M2', isUndone: false })
    // It is no change of threads.
    expect(await findBulkEdit(changeId)).toBeNull()
    expect((await listBulkEdits(50)).map(({ id }) => id)).not.toContain(changeId)
    expect(await undoBulkEdit({ bulkEditId: changeId })).toMatchObject({ ok: false, error: { kind: 'no-such-edit' } })

    expect(await undoPlaceChange({ changeId, who: 'Nell Oxtoby' })).toEqual({
      ok: true,
      value: { placeId: from, things: 5, left: { things: 0, places: 0, room: false, newPlace: false } },
    })
    expect(await batch(atHome)).toMatchObject({ homePlaceId: from, currentPlaceId: from })
    expect(await batch(away)).toMatchObject({ homePlaceId: from, currentPlaceId: bag })
    expect(await batch(guest)).toMatchObject({ homePlaceId: into, currentPlaceId: from })
    expect((await batch(guest)).outSince).not.toBeNull()
    expect(await batch(unsaid)).toMatchObject({ homePlaceId: from, currentPlaceId: null })
    expect(await place(nested)).toMatchObject({ path: `/${from}/${inner}/${nested}/` })
    expect(await prisma.project.findUniqueOrThrow({ where: { id: projectId } })).toMatchObject({ placeId: from })
    expect(await readRoom(into)).toEqual({ capacity: 30, putUps: [] })
    expect(await lookUpLabel('M1')).toMatchObject({ place: { id: from }, former: [] })
    expect(await undoPlaceChange({ changeId })).toEqual({ ok: false, error: { kind: 'already-undone', changeId } })
    expect(await findPlaceChange(changeId)).toMatchObject({ isUndone: true })
  })

  it('leaves alone, and counts, what was changed since', async () => {
    const { prisma } = open()
    const [from, into] = [await added('L1', { capacity: 8 }), await added('L2')]
    const [used, kept] = [await addBatch(from), await addBatch(from)]
    const { changeId } = await merged(from, into)
    await prisma.batch.update({ where: { id: used }, data: { wholePutUps: 1, version: { increment: 1 } } })
    await write<null, never>(async ({ tx }) => {
      await writeRoom(tx, into, { capacity: 12, putUps: [] })
      return ok(null)
    })
    expect(await undoPlaceChange({ changeId })).toEqual({
      ok: true,
      value: { placeId: from, things: 1, left: { things: 1, places: 0, room: true, newPlace: false } },
    })
    expect(await batch(used)).toMatchObject({ homePlaceId: into, wholePutUps: 1 })
    expect(await batch(kept)).toMatchObject({ homePlaceId: from })
    expect(await readRoom(into)).toEqual({ capacity: 12, putUps: [] })
  })

  it('leads an old label on through every merge, and cannot go back where another has the label', async () => {
    const [first, second, third] = [await added('C1'), await added('C2'), await added('C3')]
    const { changeId } = await merged(first, second)
    await merged(second, third)
    expect(await findPlaceByLabel('C1')).toMatchObject({ id: third })
    expect(await findPlaceByLabel('C2')).toMatchObject({ id: third })
    const again = await added('C1')
    expect(await undoPlaceChange({ changeId })).toEqual({
      ok: false,
      error: { kind: 'label-taken', label: 'C1', placeId: again },
    })
    expect((await place(first)).goneAt).not.toBeNull()
  })

  it('adds room by kind of put-up, or leaves it', async () => {
    const [from, into, other] = [await added('R1'), await added('R2'), await added('R3')]
    const skeins = (most: number) => ({ putUpWord: 'skein', most })
    await write<null, never>(async ({ tx }) => {
      await writeRoom(tx, from, { capacity: null, putUps: [skeins(6), { putUpWord: 'card', most: 12 }] })
      await writeRoom(tx, into, { capacity: null, putUps: [skeins(4)] })
      return ok(null)
    })
    await merged(from, into)
    expect((await readRoom(into)).putUps).toEqual([skeins(10), { putUpWord: 'card', most: 12 }])
    await merged(into, other, false)
    expect(await readRoom(other)).toEqual({ capacity: null, putUps: [] })
  })

  it('refuses a merge that cannot be', async () => {
    const { prisma } = open()
    const cabinet = await added('X0', { kind: 'cabinet' })
    const drawer = await added('X1', { parentId: cabinet })
    const person = await added('Ines Coldwell', { kind: 'person' })
    const lost = await added('X-lost')
    await prisma.place.update({ where: { id: lost }, data: { kind: 'not found' } })
    const refusal = async (id: string, intoId: string) => {
      const result = await merge(id, intoId)
      return result.ok ? null : result.error.kind
    }
    expect(await refusal(cabinet, drawer)).toBe('inside-itself')
    expect(await refusal(drawer, drawer)).toBe('same-place')
    expect(await refusal(drawer, person)).toBe('person-and-place')
    expect(await refusal(lost, drawer)).toBe('kept-by-record')
    expect(await refusal(drawer, 'nowhere')).toBe('no-such-place')
    expect(await mergePlace({ id: drawer, version: 7, intoId: cabinet, addsRoom: true })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    await prisma.stockCount.create({ data: { id: newId(), title: 'X', placeId: drawer, startedAt: new Date() } })
    expect(await refusal(drawer, cabinet)).toBe('being-counted')
  })

  it('lets only one of two merge the same place', async () => {
    const [from, one, other] = [await added('W1'), await added('W2'), await added('W3')]
    const version = await versionOf(from)
    const [a, b] = await Promise.all([
      mergePlace({ id: from, version, intoId: one, addsRoom: true }),
      mergePlace({ id: from, version, intoId: other, addsRoom: true }),
    ])
    expect([a.ok, b.ok].sort()).toEqual([false, true])
    expect([a, b].find(({ ok }) => !ok)).toMatchObject({ error: { kind: 'changed-meanwhile' } })
  })

  it('splits part of what lives in a place off, remembers the label, and takes it back', async () => {
    const { prisma } = open()
    const cabinet = await added('S0', { kind: 'cabinet' })
    const from = await added('S1', { parentId: cabinet, capacity: 40 })
    const box = await added('S1 box', { kind: 'box', parentId: from })
    const [stays, goes, away] = [await addBatch(from), await addBatch(from), await addBatch(from, cabinet)]
    const split = async (over: Partial<Parameters<typeof splitPlace>[0]> = {}) =>
      splitPlace({
        ...{ id: from, version: await versionOf(from), way: 'beside' as const },
        place: { label: 'S1b', name: null, kind: 'drawer' },
        things: [
          { noun: 'thread', id: goes, version: 0 },
          { noun: 'thread', id: away, version: 0 },
        ],
        insideIds: [box],
        ...over,
      })
    expect(await split({ things: [], insideIds: [] })).toMatchObject({ error: { kind: 'nothing-chosen' } })
    expect(await split({ place: { label: 's1', name: null, kind: 'drawer' } })).toMatchObject({ error: { kind: 'label-taken' } })
    const elsewhere = await addBatch(cabinet, from)
    expect(await split({ things: [{ noun: 'thread', id: elsewhere, version: 0 }] })).toEqual({
      ok: false,
      error: { kind: 'not-from-here', count: 1 },
    })
    expect(await split({ things: [{ noun: 'thread', id: goes, version: 3 }] })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })

    const result = await split()
    if (!result.ok) throw new Error(result.error.kind)
    const { newPlaceId, changeId, ...counts } = result.value
    expect(counts).toEqual({ things: 2, inside: 1 })
    expect(await place(newPlaceId)).toMatchObject({ parentId: cabinet, path: `/${cabinet}/${newPlaceId}/`, label: 'S1b' })
    expect(await place(box)).toMatchObject({ parentId: newPlaceId, path: `/${cabinet}/${newPlaceId}/${box}/` })
    expect(await batch(stays)).toMatchObject({ homePlaceId: from, version: 0 })
    expect(await batch(goes)).toMatchObject({ homePlaceId: newPlaceId, currentPlaceId: newPlaceId })
    expect(await batch(away)).toMatchObject({ homePlaceId: newPlaceId, currentPlaceId: cabinet })
    expect(await prisma.movement.count({ where: { fromPlaceId: from, toPlaceId: newPlaceId } })).toBe(2)
    expect(await lookUpLabel('S1')).toMatchObject({ place: { id: from }, former: [{ why: 'split', place: { id: newPlaceId } }] })
    expect(await listSplitOff('S1', from)).toMatchObject([{ place: { id: newPlaceId } }])
    expect(await findPlaceByLabel('S1')).toMatchObject({ id: from })

    expect(await undoPlaceChange({ changeId })).toMatchObject({
      value: { things: 2, left: { things: 0, places: 0, newPlace: false } },
    })
    expect((await place(newPlaceId)).goneAt).not.toBeNull()
    expect(await batch(away)).toMatchObject({ homePlaceId: from, currentPlaceId: cabinet })
    expect(await place(box)).toMatchObject({ parentId: from })
    expect(await lookUpLabel('S1')).toMatchObject({ place: { id: from }, former: [] })
  })

  it('keeps a place that was split off while something new lies in it', async () => {
    const from = await added('K1')
    const goes = await addBatch(from)
    const result = await splitPlace({
      ...{ id: from, version: await versionOf(from), way: 'inside', insideIds: [] },
      place: { label: 'K1-new', name: null, kind: 'compartment' },
      things: [{ noun: 'thread', id: goes, version: 0 }],
    })
    if (!result.ok) throw new Error(result.error.kind)
    expect((await place(result.value.newPlaceId)).path).toBe(`/${from}/${result.value.newPlaceId}/`)
    await addBatch(result.value.newPlaceId)
    expect(await undoPlaceChange({ changeId: result.value.changeId })).toMatchObject({
      value: { things: 1, left: { things: 0, places: 0, newPlace: true } },
    })
    expect((await place(result.value.newPlaceId)).goneAt).toBeNull()
  })

  it('leads an old label nowhere once its place is off the map', async () => {
    const id = await added('G1')
    await rename(id, 'G2')
    await removePlace({ id, version: await versionOf(id) })
    expect(await lookUpLabel('G1')).toEqual({ place: null, former: [] })
    expect(await findPlaceByLabel('G1')).toBeNull()
  })

  it('tells whoever types an old label where that is now', async () => {
    const id = await added('Hatch 7')
    granted(await rename(id, 'Hatch 8'))
    const { label, said } = await meantPlace('hatch 7')
    expect(label).toBe('Hatch 8')
    expect(said).toMatch(/^ The old label says Hatch 7; since .+ that is Hatch 8\.$/)
    expect(await meantPlace('Hatch 8')).toEqual({ label: 'Hatch 8', said: '' })
    expect(await meantPlace('Hatch 9')).toEqual({ label: 'Hatch 9', said: '' })
  })
})
