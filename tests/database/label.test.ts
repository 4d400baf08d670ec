import { beforeAll, expect, it } from 'vitest'
import { keepLabelsPrintedOperation, listLabelsOperation } from '#api/labels'
import { listLabelThings } from '#lib/db/label/list-label-things'
import { markLabelsPrinted, readPrintedLabels } from '#lib/db/label/printed-labels'
import { newId } from '#lib/db/new-id'
import { editPlace } from '#lib/db/place/edit-place'
import type { Label } from '#lib/label/label'
import { POST as keepPrinted } from '../../app/api/v1/labels/printed/route'
import { GET as listLabels } from '../../app/api/v1/labels/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addCharted, addLarkholm, aPlace, hanneDrewitt, skein, theShop } from './things'

describeOnEachEngine('labels', ({ open }) => {
  const ids = {
    shop: newId(),
    hanne: newId(),
    straw: newId(),
    strawBatch: newId(),
    cloth: newId(),
    chart: newId(),
    hannes: newId(),
  }
  const places = { cabinet: newId(), two: newId(), ten: newId(), box: newId() }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    const inCabinet = (id: string, label: string) => ({
      ...aPlace(id, label, 'drawer'),
      parentId: places.cabinet,
      path: `/${places.cabinet}/${id}/`,
    })
    await prisma.place.create({ data: aPlace(places.cabinet, 'Cabinet T', 'cabinet') })
    await prisma.place.createMany({
      data: [
        inCabinet(places.ten, 'T10.1'),
        inCabinet(places.two, 'T2.1'),
        aPlace(places.box, 'Box 4', 'box'),
        { ...inCabinet(newId(), 'Petra Lisle'), kind: 'person' },
      ],
    })
    const lineId = newId()
    const line = { name: 'Stranded cotton', nameKey: 'stranded cotton', strands: 6, putUpStrandTenths: skein }
    await prisma.threadLine.create({ data: { id: lineId, makerId: await addLarkholm(open()), ...line } })
    await prisma.thread.create({ data: { id: ids.straw, lineId, code: '0017', name: 'Straw' } })
    const batch = { threadId: ids.straw, putUpStrandTenths: skein, wholePutUps: 2, homePlaceId: places.two, lot: '18' }
    await prisma.batch.createMany({
      data: [
        { id: ids.strawBatch, ownerId: ids.shop, ...batch },
        { id: ids.hannes, ownerId: ids.hanne, ...batch },
      ],
    })
    await prisma.clothPiece.create({
      data: {
        ...{
          id: ids.cloth,
          ownerId: ids.shop,
          label: 'L-12',
          labelKey: 'l-12',
          name: 'Linen',
          colourName: 'Flax',
          weave: 'single',
        },
        ...{ endsThreads: 28, endsPerUm: 25_400, picksThreads: 28, picksPerUm: 25_400, widthUm: 457_200, heightUm: 685_800 },
        homePlaceId: places.box,
      },
    })
    await addCharted(open(), { ownerId: ids.shop, title: 'Nine Wrens', chartId: ids.chart, designId: newId() })
    await prisma.chart.update({ where: { id: ids.chart }, data: { homePlaceId: places.ten } })
  })

  it('are of a place and all inside it in walking order, then of what lives there, of the owners asked for', async () => {
    const listed = await listLabelThings(
      { kind: 'in-place', placeId: places.cabinet, nouns: ['place', 'batch', 'cloth', 'chart', 'project'] },
      [ids.shop],
    )
    if (!listed.ok) throw new Error(listed.error.kind)
    // 2 before 10; the box is elsewhere, and so is its cloth; nothing is stuck on a person.
    expect(listed.value.map(({ noun, id }) => [noun, id])).toEqual([
      ['place', places.cabinet],
      ['place', places.two],
      ['place', places.ten],
      ['batch', ids.strawBatch],
      ['chart', ids.chart],
    ])
    const everywhere = await listLabelThings({ kind: 'in-place', placeId: null, nouns: ['batch', 'cloth'] }, [
      ids.shop,
      ids.hanne,
    ])
    expect(everywhere.ok && everywhere.value.map(({ id }) => id)).toEqual([...[ids.strawBatch, ids.hannes].sort(), ids.cloth])
    const one = await listLabelThings({ kind: 'one', noun: 'cloth', id: ids.cloth }, [ids.hanne])
    expect(one.ok && one.value.map(({ id }) => id)).toEqual([ids.cloth])
    expect(await listLabelThings({ kind: 'in-place', placeId: newId(), nouns: ['place'] }, [ids.shop])).toEqual({
      ok: false,
      error: { kind: 'no-such-place' },
    })
  })

  it('keep what was printed, once a thing, more of them than a statement has parameters', async () => {
    const many = Array.from(
      { length: 1_200 },
      (): Label => ({ noun: 'chart', thingId: newId(), title: 'Little Barge', note: '', path: '/' }),
    )
    await markLabelsPrinted(many)
    const [first] = many as [Label]
    await markLabelsPrinted([{ ...first, title: 'Small Blue Ship', note: 'Wilf Sarratt' }])
    const printed = await readPrintedLabels(many)
    expect(printed.size).toBe(1_200)
    expect(printed.get(`chart ${first.thingId}`)).toBe('Small Blue Ship\nWilf Sarratt')
    expect(await readPrintedLabels([{ noun: 'place', thingId: first.thingId }])).toEqual(new Map())
    expect(await open().prisma.labelPrint.count()).toBe(1_200)
  })

  it('come up again only when they read otherwise than they were printed', async () => {
    const asked = { path: `labels?place=${places.cabinet}&noun=place&noun=batch` }
    const before = await answer(listLabelsOperation, listLabels, asked)
    expect(before).toMatchObject({ ownerIds: [ids.shop], count: 4, changedCount: 4 })
    expect(before.labels.find(({ noun }) => noun === 'batch')).toMatchObject({
      title: '0017',
      note: 'Larkholm · Straw · lot 18 · T2.1',
      path: `/threads/${ids.straw}`,
      printed: null,
    })
    const body = { place: places.cabinet, noun: ['place', 'batch'], seen: before.seen }
    expect(await answer(keepLabelsPrintedOperation, keepPrinted, { body })).toEqual({ count: 4 })
    expect(await answer(listLabelsOperation, listLabels, asked)).toMatchObject({ count: 4, changedCount: 0, labels: [] })
    // Said twice, or of what was seen before it changed: nothing is kept.
    expect(await problem(keepPrinted, { body })).toMatchObject({ status: 409 })

    const row = await open().prisma.place.findUniqueOrThrow({ where: { id: places.two } })
    const facts = { name: null, kind: 'drawer' as const, walkOrder: null, capacity: null, note: null }
    expect(await editPlace({ ...facts, id: places.two, version: row.version, label: 'T2.3' })).toMatchObject({ ok: true })
    const after = await answer(listLabelsOperation, listLabels, asked)
    expect(after).toMatchObject({ count: 4, changedCount: 2 })
    expect(after.labels.map(({ title, note, printed }) => [title, note, printed])).toEqual([
      ['T2.3', 'Cabinet T', 'T2.1\nCabinet T'],
      ['0017', 'Larkholm · Straw · lot 18 · T2.3', '0017\nLarkholm · Straw · lot 18 · T2.1'],
    ])
    expect(await problem(keepPrinted, { body })).toMatchObject({ status: 409 })
    expect(await answer(listLabelsOperation, listLabels, asked)).toMatchObject({ changedCount: 2 })
  })
})
