import { beforeAll, expect, it } from 'vitest'
import {
  addManyPlacesOperation,
  listFullPlacesOperation,
  orderPlacesOperation,
  previewManyPlacesOperation,
} from '#api/place-writes'
import { newId } from '#lib/db/new-id'
import { addManyPlaces, previewManyPlaces } from '#lib/db/place/add-many-places'
import { addPlace } from '#lib/db/place/add-place'
import { editPlace } from '#lib/db/place/edit-place'
import { orderPlaces } from '#lib/db/place/order-places'
import { readRoom } from '#lib/db/place/place-room'
import { listPlaces } from '#lib/db/place/queries'
import { readFills } from '#lib/db/place/read-fills'
import { forgetLabelPattern, keepLabelPattern } from '#lib/db/settings/label-patterns'
import { getSettings } from '#lib/db/settings/settings'
import { GET as full } from '../../app/api/v1/places/full/route'
import { POST as preview } from '../../app/api/v1/places/many/preview/route'
import { POST as many } from '../../app/api/v1/places/many/route'
import { POST as order } from '../../app/api/v1/places/order/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addLarkholm, hanneDrewitt, skein, theShop } from './things'

const card = { name: null, kind: 'drawer' as const, walkOrder: null, capacity: null, note: null, parentId: null }

async function added(label: string, over: Partial<Parameters<typeof addPlace>[0]> = {}): Promise<string> {
  const result = await addPlace({ ...card, label, ...over })
  if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
  return result.value.id
}

describeOnEachEngine('many places at once', ({ open }) => {
  const kinds = ['cabinet', 'drawer', 'compartment'] as const
  const labelsIn = async (parentId: string | null) =>
    (await listPlaces()).filter((place) => place.parentId === parentId).map(({ label }) => label)

  it('makes columns, drawers and compartments in one write, each inside the one before it', async () => {
    const room = await added('Kitting room', { kind: 'room' })
    const request = { pattern: 'T[2-3] > .[1-2] > -[01-03]', kinds, parentId: room }
    expect(await previewManyPlaces(request)).toMatchObject({
      value: { count: { new: 2 + 4 + 12, there: 0, clash: 0 }, levels: 3 },
    })
    expect(await labelsIn(room)).toEqual([])
    expect(await addManyPlaces(request)).toEqual({ ok: true, value: { made: 18, there: 0 } })
    const t21 = await open().prisma.place.findUniqueOrThrow({ where: { labelKey: 't2.1' }, include: { parent: true } })
    expect(t21).toMatchObject({ label: 'T2.1', kind: 'drawer', parent: { label: 'T2', kind: 'cabinet', parentId: room } })
    expect(t21.path).toBe(`/${room}/${t21.parentId}/${t21.id}/`)
    expect(await labelsIn(t21.id)).toEqual(['T2.1-01', 'T2.1-02', 'T2.1-03'])
    expect(await addManyPlaces(request)).toEqual({ ok: false, error: { kind: 'nothing-new' } })
    // A longer pattern adds only what is missing.
    expect(await addManyPlaces({ ...request, pattern: 'T[2-3] > .[1-3] > -[01-03]' })).toEqual({
      ok: true,
      value: { made: 2 + 6, there: 18 },
    })
  })

  it('makes nothing while a label stands somewhere else, and takes labels of what is gone', async () => {
    const { prisma } = open()
    const shelf = await added('R20')
    const request = { pattern: 'R[10-30 by 10]', kinds: ['rack' as const], parentId: await added('Shop floor', { kind: 'room' }) }
    expect(await addManyPlaces(request)).toEqual({ ok: false, error: { kind: 'clashes', labels: ['R20'], count: 1 } })
    expect(await labelsIn(request.parentId)).toEqual([])
    await prisma.place.update({ where: { id: shelf }, data: { goneAt: new Date() } })
    expect(await addManyPlaces(request)).toEqual({ ok: true, value: { made: 3, there: 0 } })
    expect(await labelsIn(request.parentId)).toEqual(['R10', 'R20', 'R30'])
    expect(await addManyPlaces({ ...request, pattern: 'R[1' })).toMatchObject({
      error: { kind: 'no-pattern', why: { kind: 'not-closed', at: 2 } },
    })
    expect(await addManyPlaces({ ...request, parentId: 'nowhere' })).toMatchObject({ error: { kind: 'no-such-place' } })
  })

  it('tells when a new label stood on another place before', async () => {
    const id = await added('F1')
    const { parentId: _, ...edit } = card
    expect(await editPlace({ ...edit, label: 'F9', id, version: 0 })).toEqual({ ok: true, value: null })
    expect(await previewManyPlaces({ pattern: 'F[1-2]', kinds: ['box'], parentId: null })).toMatchObject({
      value: { formerly: ['F1'] },
    })
  })

  it('is to be had over the API, with refusals that say why', async () => {
    const body = { pattern: 'API[1-2] > -[a-b]', kinds: ['box', 'bag'] }
    expect((await answer(previewManyPlacesOperation, preview, { body })).count).toEqual({ new: 6, there: 0, clash: 0 })
    expect(await answer(addManyPlacesOperation, many, { body })).toEqual({ made: 6, there: 0 })
    expect((await problem(many, { body })).detail).toBe('All of them are there already.')
    expect((await problem(many, { body: { ...body, pattern: 'API[1' } })).detail).toBe(
      'The pattern does not read at position 4: not-closed.',
    )
  })

  it('keeps the shop’s own patterns, each once, as they print', async () => {
    const own = { text: 'T[2-3]>.[1-2]', kinds: [...kinds], insideId: null }
    expect(await keepLabelPattern(own)).toEqual({ ok: true, value: null })
    expect(await keepLabelPattern({ ...own, kinds: ['box'] })).toEqual({ ok: true, value: null })
    expect((await getSettings()).labelPatterns).toEqual([{ text: 'T[2-3] > .[1-2]', kinds: ['box'], insideId: null }])
    expect(await keepLabelPattern({ ...own, text: 'T[' })).toMatchObject({ error: { kind: 'does-not-read' } })
    await forgetLabelPattern({ text: 'T[2-3] > .[1-2]', insideId: null })
    expect((await getSettings()).labelPatterns).toEqual([])
  })

  it('puts what stands in a place in order by hand, and by its labels again', async () => {
    const cabinet = await added('O', { kind: 'cabinet' })
    const [one, two, ten] = [
      await added('O1', { parentId: cabinet }),
      await added('O2', { parentId: cabinet }),
      await added('O10', { parentId: cabinet }),
    ]
    expect(await labelsIn(cabinet)).toEqual(['O1', 'O2', 'O10'])
    expect(await orderPlaces({ parentId: cabinet, placeIds: [ten, one, two] })).toEqual({ ok: true, value: { moved: 3 } })
    expect(await labelsIn(cabinet)).toEqual(['O10', 'O1', 'O2'])
    const refusal = { ok: false, error: { kind: 'changed-meanwhile' } }
    expect(await orderPlaces({ parentId: cabinet, placeIds: [ten, one] })).toEqual(refusal)
    expect(await orderPlaces({ parentId: cabinet, placeIds: [ten, one, one] })).toEqual(refusal)
    expect(await orderPlaces({ parentId: cabinet, placeIds: [ten, one, cabinet] })).toEqual(refusal)
    expect(await answer(orderPlacesOperation, order, { body: { parentId: cabinet, placeIds: null } })).toEqual({ moved: 3 })
    expect(await labelsIn(cabinet)).toEqual(['O1', 'O2', 'O10'])
  })
})

describeOnEachEngine('how full places are', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  let threadIds: string[] = []

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    const makerId = await addLarkholm(open())
    const lineId = newId()
    await prisma.threadLine.create({
      data: { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    threadIds = ['0311', '0742'].map(() => newId())
    await prisma.thread.createMany({
      data: threadIds.map((id, index) => ({ id, lineId, code: ['0311', '0742'][index] as string })),
    })
  })

  const addBatch = async (over: {
    homePlaceId: string
    currentPlaceId?: string
    wholePutUps: number
    putUpWord?: string
    hasPart?: boolean
    ownerId?: string
    at?: number
  }) => {
    const { hasPart = false, at = 0, ...rest } = over
    await open().prisma.batch.create({
      data: {
        ...{ id: newId(), threadId: threadIds[at] as string, ownerId: shop.id, putUpStrandTenths: skein },
        ...{ partCertainty: hasPart ? 'measured' : 'none', partStrandTenths: hasPart ? 10_000 : 0 },
        ...{ currentPlaceId: over.homePlaceId, ...rest },
      },
    })
  }

  it('adds everybody’s put-ups up, a part as one, what is out in its gap and where it lies', async () => {
    const drawer = await added('P1')
    const compartment = await added('P1-01', {
      ...{ parentId: drawer, kind: 'compartment' },
      putUps: [
        { putUpWord: 'skein', most: 6 },
        { putUpWord: 'card', most: 12 },
      ],
    })
    const bag = await added('P-bag', { kind: 'bag', capacity: 4 })
    await addBatch({ homePlaceId: compartment, wholePutUps: 2, hasPart: true })
    await addBatch({ homePlaceId: compartment, currentPlaceId: bag, wholePutUps: 1 })
    await addBatch({ homePlaceId: compartment, wholePutUps: 2, putUpWord: 'cards', ownerId: hanne.id, at: 1 })
    await addBatch({ homePlaceId: compartment, wholePutUps: 3, putUpWord: 'hank', at: 1 })
    await open().prisma.notion.create({
      data: { id: newId(), kind: 'hoop', name: 'Hoop', count: 1, ownerId: shop.id, homePlaceId: bag, currentPlaceId: bag },
    })
    const fills = await readFills(await listPlaces())
    // 4 of 6 skeins (2 whole, 1 part, 1 out) and 2 of 12 cards: 4/6 + 2/12 = 5/6.
    expect(fills.get(compartment)).toEqual({
      by: 'put-ups',
      fill: { filled: 5n, whole: 6n },
      byWord: [
        { putUpWord: 'skein', most: 6, count: 4 },
        { putUpWord: 'card', most: 12, count: 2 },
      ],
      unknown: [{ putUpWord: 'hank', count: 3 }],
    })
    expect(fills.get(drawer)).toMatchObject({ by: 'compartments-room', compartments: 1, unsaid: 0 })
    expect(fills.get(bag)).toEqual({
      by: 'things',
      fill: { filled: 2n, whole: 4n },
      here: 2,
      out: 0,
      capacity: 4,
      sort: 'things',
    })
    const over = async (percent: number) => {
      const told = await answer(listFullPlacesOperation, full, { path: `places/full?over=${percent}` })
      return told.places.map(({ place, fullPercent }) => `${place.label} ${fullPercent}`)
    }
    expect(await over(75)).toEqual(['P1 83.3', 'P1-01 83.3'])
    expect(await over(49)).toEqual(['P1 83.3', 'P1-01 83.3', 'P-bag 50'])
    expect(await over(90)).toEqual([])
  })

  it('writes what a place takes anew, and leaves it where nothing is said of it', async () => {
    const id = await added('Q1', { putUps: [{ putUpWord: 'skein', most: 6 }] })
    const { parentId: _, ...edit } = card
    await editPlace({ ...edit, label: 'Q1', id, version: 0 })
    expect((await readRoom(id)).putUps).toEqual([{ putUpWord: 'skein', most: 6 }])
    await editPlace({ ...edit, label: 'Q1', id, version: 1, putUps: [{ putUpWord: 'loop', most: 20 }] })
    expect((await readRoom(id)).putUps).toEqual([{ putUpWord: 'loop', most: 20 }])
  })
})
