import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { getSharedList } from '#api/lists'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readShared } from '#lib/db/list/read-shared'
import { type SharedListName, sharedLists } from '#lib/db/list/shared-thing'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { addThread } from '#lib/db/thread/add-thread'
import { listPages } from '../../app/_lists/list-pages'
import { listQuerySchema } from '../../app/_lists/list-query'
import { listCsv, listRow, listSheet } from '../../app/_lists/list-rows'
import { rowsOf, saysPlaces } from '../../app/_lists/read-rows'
import { GET as listRoute } from '../../app/api/v1/lists/[list]/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aThread, goods, hanneDrewitt, stranded } from './things'

/** Planted wherever the record takes a price, a person, an address or a note. */
const secrets = ['98765', '987.65', 'Corvin', '12 Marl Street', 'Zzyzx', 'Hanne', 'Drewitt', 'Framer Quill']

describeOnEachEngine('lists to share', ({ open }) => {
  const ids = { hanne: newId(), box: newId(), framer: newId() }

  const read = async (list: SharedListName, change: object = {}) =>
    readShared(await getAnswers(), {
      ...{ list, ownerIds: [ids.hanne], keepPutUps: 3, withPlaces: false, now: new Date(Date.UTC(2026, 10, 29)) },
      ...change,
    })
  const titles = async (list: SharedListName, change: object = {}) =>
    (await read(list, change)).map((thing) => {
      const { title, many } = listRow(thing, 'in')
      return [title, many]
    })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: hanneDrewitt(ids.hanne) })
    await prisma.place.createMany({
      data: [
        { ...aPlace(ids.box, 'H1', 'box'), name: '12 Marl Street', note: 'Zzyzx' },
        aPlace(ids.framer, 'Framer Quill', 'framer'),
      ],
    })
    let lineId = ''
    for (const [code, wholePutUps, minimum] of [
      ['0017', 6, null],
      ['0018', 6, 5],
      ['0019', 2, null],
      ['0020', 1, 3],
    ] as const) {
      const { threadId } = granted(await addThread({ ...aThread(code), line: lineId === '' ? stranded() : { id: lineId } }))
      lineId ||= (await prisma.threadLine.findFirstOrThrow({ select: { id: true } })).id
      await prisma.thread.update({ where: { id: threadId }, data: { minimumPutUps: minimum, note: 'Zzyzx' } })
      granted(await receiveThread(goods({ threadId, ownerId: ids.hanne, wholePutUps, homePlaceId: ids.box })))
    }
    await prisma.threadLine.update({ where: { id: lineId }, data: { priceMinor: 98_765 } })
    const designer = { id: newId(), name: 'Dorrit Quayle', nameKey: 'dorrit quayle' }
    await prisma.designer.create({ data: designer })
    for (const [title, kind, copies, homePlaceId] of [
      ['Seven Lanterns', 'leaflet', 2, ids.box],
      ['Nine Wrens', 'file', 4, null],
      ['Small Blue Ship', 'card', 0, null],
      ['Hearth Rook', 'leaflet', 1, ids.framer],
    ] as const) {
      const chartId = newId()
      const designId = newId()
      const titleKey = title.toLowerCase()
      await prisma.chart.create({
        data: {
          ...{ id: chartId, title, titleKey, kind, copies, ownerId: ids.hanne, homePlaceId, currentPlaceId: homePlaceId },
          ...{ priceMinor: 98_765, note: 'Zzyzx from Corvin' },
          designers: { create: { designerId: designer.id, position: 0 } },
          designs: { create: { id: designId, title, titleKey, note: 'Zzyzx' } },
        },
      })
      await prisma.project.create({
        data: { id: newId(), designId, ownerId: ids.hanne, status: 'wanted', forWhom: 'Corvin', note: '12 Marl Street' },
      })
    }
    await prisma.notion.create({
      data: {
        ...{ id: newId(), ownerId: ids.hanne, kind: 'needle', name: 'Tapestry needles', size: 'size 26', sizeKey: 'size 26' },
        ...{ count: 2, minimum: 6, priceMinor: 98_765, note: 'Zzyzx' },
      },
    })
    await prisma.clothPiece.create({
      data: {
        ...{ id: newId(), ownerId: ids.hanne, label: 'Corvin’s', name: 'Ostravane Linen', weave: 'single' },
        ...{ endsThreads: 28, endsPerUm: 25_400, picksThreads: 28, picksPerUm: 25_400, widthUm: 457_200, heightUm: 685_800 },
        ...{ homePlaceId: ids.box, currentPlaceId: ids.box, note: 'Zzyzx' },
      },
    })
  })

  it('names as doubles what is free beyond what is kept or the thread’s own least, and second copies', async () => {
    expect(await titles('doubles')).toEqual([
      ['Larkholm stranded 0017', 3],
      ['Larkholm stranded 0018', 1],
      ['Seven Lanterns', 1],
      ['Ostravane Linen', 1],
    ])
    expect((await titles('doubles', { keepPutUps: 0 })).slice(0, 4)).toEqual([
      ['Larkholm stranded 0017', 6],
      ['Larkholm stranded 0018', 1],
      ['Larkholm stranded 0019', 2],
      ['Seven Lanterns', 1],
    ])
  })

  it('names as wanted what is below its least and the charts of wanted projects that are not here', async () => {
    expect(await titles('wants')).toEqual([
      ['Larkholm stranded 0020', 2],
      ['Small Blue Ship', 1],
      ['Tapestry needles, size 26', 4],
    ])
  })

  it('names as stash what is held, and places only when asked, people never', async () => {
    expect((await titles('stash')).map(([title]) => title)).toEqual([
      ...['0017', '0018', '0019', '0020'].map((code) => `Larkholm stranded ${code}`),
      ...['Hearth Rook', 'Nine Wrens', 'Seven Lanterns', 'Ostravane Linen', 'Tapestry needles, size 26'],
    ])
    expect((await read('stash')).every(({ place }) => place === null)).toBe(true)
    const placed = (await read('stash', { withPlaces: true })).map((thing) => [listRow(thing, 'in').title, thing.place])
    expect(placed).toContainEqual(['Seven Lanterns', 'H1'])
    expect(placed).toContainEqual(['Hearth Rook', null])
  })

  describe.each(sharedLists)('the list of %s', (list) => {
    it('has no price, person, address or note, as file or over the API', async () => {
      const csv = listCsv(
        (await read(list, { withPlaces: true, keepPutUps: 0 })).map((thing) => listRow(thing, 'in')),
        { withPlaces: true },
      )
      const told = await answer(getSharedList, listRoute, {
        ...{ path: `lists/${list}?owner=${ids.hanne}&places=true&keep=0`, parts: { list } },
      })
      expect(told.rows.length).toBeGreaterThan(0)
      for (const secret of secrets) expect([secret, `${csv}${JSON.stringify(told)}`.includes(secret)]).toEqual([secret, false])
    })
  })

  it('parts a guild’s list by designer, and by season, subject and form, with sizes', async () => {
    const { prisma } = open()
    const lanterns = await prisma.design.findFirstOrThrow({ where: { title: 'Seven Lanterns' } })
    await prisma.design.update({ where: { id: lanterns.id }, data: { widthStitches: 112, heightStitches: 84 } })
    for (const [axis, name] of [
      ['season', 'Winter'],
      ['subject', 'lamps'],
    ] as const) {
      const theme = await prisma.theme.create({ data: { id: newId(), axis, name, nameKey: name.toLowerCase() } })
      await prisma.designTheme.create({ data: { designId: lanterns.id, themeId: theme.id } })
    }
    const wrens = await prisma.chart.findFirstOrThrow({ where: { title: 'Nine Wrens' } })
    await prisma.chartDesigner.deleteMany({ where: { chartId: wrens.id } })
    ;(globalThis as { larderAnswers?: unknown }).larderAnswers = undefined
    const said = async (by: 'designer' | 'theme') => {
      const choices = listQuerySchema.parse({ by })
      const rows = await rowsOf(await getAnswers(), 'guild', choices, { ownerIds: [ids.hanne], unit: 'in' })
      return rows.map(({ group, title, details }) => [group, title, details])
    }
    // The chart of which there is no copy is not held.
    expect(await said('designer')).toEqual([
      ['Dorrit Quayle', 'Hearth Rook', 'leaflet'],
      ['Dorrit Quayle', 'Seven Lanterns', 'leaflet, 112 × 84 stitches, Winter, lamps'],
      ['No designer named', 'Nine Wrens', 'file'],
    ])
    expect((await said('theme')).map(([group, title]) => [group, title])).toEqual([
      ['Season: Winter', 'Seven Lanterns'],
      ['Subject: lamps', 'Seven Lanterns'],
      ['No theme', 'Hearth Rook'],
      ['No theme', 'Nine Wrens'],
    ])
  })

  it('say nothing of what is nobody else’s business, whatever it is called and costs', async () => {
    const { prisma } = open()
    // No word or figure of a list begins like these.
    const planted = fc.record({
      word: fc.string({ unit: fc.constantFrom(...'bdkqxz'), minLength: 6, maxLength: 12 }).map((letters) => `Qz${letters}`),
      priceMinor: fc.integer({ min: 7_310_000, max: 7_390_000 }),
    })
    for (const { word, priceMinor } of fc.sample(planted, { seed: 20_261_130, numRuns: 4 })) {
      const price = { priceMinor }
      const note = { note: `${word} note` }
      await prisma.owner.updateMany({ data: { name: `${word} owner`, nameKey: `${word} owner` } })
      await prisma.place.updateMany({ data: { name: `${word} Street 12`, ...note } })
      await prisma.place.updateMany({ where: { id: ids.framer }, data: { label: `${word} framer`, labelKey: `${word} framer` } })
      await prisma.thread.updateMany({ data: note })
      await prisma.threadLine.updateMany({ data: price })
      await prisma.batch.updateMany({ data: { lot: `${word} lot` } })
      await prisma.chart.updateMany({ data: { ...price, ...note, edition: `${word} edition`, boughtOn: '2019-07-03' } })
      await prisma.design.updateMany({ data: { ...note, advisedCloth: `${word} cloth` } })
      await prisma.project.updateMany({ data: { ...note, forWhom: `${word} friend`, kitPriceMinor: priceMinor } })
      await prisma.notion.updateMany({ data: { ...price, ...note } })
      await prisma.clothPiece.updateMany({ data: { ...price, ...note, label: `${word} label`, labelKey: `${word} label` } })
      ;(globalThis as { larderAnswers?: unknown }).larderAnswers = undefined
      const answers = await getAnswers()
      for (const list of sharedLists)
        for (const asked of [{}, { places: '1' }, { by: 'theme', keep: '0' }]) {
          const choices = listQuerySchema.parse(asked)
          const withPlaces = saysPlaces(list, choices)
          const rows = await rowsOf(answers, list, choices, { ownerIds: [ids.hanne], unit: 'cm' })
          expect(rows.length).toBeGreaterThan(0)
          const said = [
            listCsv(rows, { withPlaces }),
            JSON.stringify(listSheet(list, rows, { withPlaces })),
            JSON.stringify(listPages(list, 'Mon 30 Nov 2026', rows, withPlaces)),
          ].join('\n')
          const figures = String(priceMinor)
          const secret = [word, figures, `${figures.slice(0, -2)}.${figures.slice(-2)}`, '2019']
          expect([list, asked, secret.filter((each) => said.includes(each))]).toEqual([list, asked, []])
          // Places of things, where asked for, and only then.
          expect([list, asked, said.includes('H1')]).toEqual([list, asked, withPlaces])
        }
    }
  })

  it('knows no other list', async () => {
    expect(await problem(listRoute, { path: 'lists/prices', parts: { list: 'prices' } })).toMatchObject({ status: 400 })
  })
})
