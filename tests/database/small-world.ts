import { addChart } from '#lib/db/chart/add-chart'
import type { Database } from '#lib/db/client'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { addKitItem } from '#lib/db/kit/add-kit-item'
import { newId } from '#lib/db/new-id'
import { addNotion } from '#lib/db/notion/add-notion'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { granted } from './granted'
import { aDesign, addKey, aLeaflet, aStart, goods, hanneDrewitt, skein, theShop } from './things'

/** 5 yd of six strands. */
const hank = 274_320

/** A shop and a stash in one room: small enough that everything meets everything within some days. */
export type SmallWorld = {
  ownerIds: string[]
  lineIds: string[]
  threadIds: string[]
  designs: { designId: string; threadListId: string }[]
  bagLabels: string[]
  peopleLabels: string[]
}

/** Two owners, eight threads in lots and part skeins, twelve places, three charts, cloth, notions and three projects, one of four kits and a spare. */
export async function addSmallWorld(database: Database): Promise<SmallWorld> {
  const { prisma } = database
  const [shop, hanne] = [theShop(), hanneDrewitt()]
  const ownerIds = [shop.id, hanne.id]
  await prisma.owner.createMany({ data: [shop, hanne] })

  const places = new Map<string, { id: string; path: string }>()
  const addPlace = async (label: string, kind: string, inside: string | null = null) => {
    const id = newId()
    const parent = inside === null ? null : places.get(inside)
    const path = `${parent?.path ?? '/'}${id}/`
    await prisma.place.create({
      data: { id, label, labelKey: label.toLowerCase(), kind, parentId: parent?.id ?? null, path, capacity: 6 },
    })
    places.set(label, { id, path })
  }
  await addPlace('Room', 'room')
  for (const drawer of ['T1', 'T2']) {
    await addPlace(drawer, 'drawer', 'Room')
    for (const turn of [1, 2]) await addPlace(`${drawer}-${turn}`, 'compartment', drawer)
  }
  await addPlace('R1', 'rack', 'Room')
  await addPlace('N1', 'box', 'Room')
  const bagLabels = ['K-01', 'K-02', 'K-03']
  for (const label of bagLabels) await addPlace(label, 'bag')
  await addPlace('Ines Coldwell', 'person')
  await addPlace('Corrie Dunn', 'framer')
  const placeIdOf = (label: string) => places.get(label)?.id as string

  const lineIds: string[] = []
  const threadIds: string[] = []
  for (const [makerName, over, codes] of [
    ['Larkholm', { strands: 6, putUpStrandTenths: skein }, ['0087', '0311', '1204', '0017', '17']],
    [
      'Oddny Loft',
      { strands: 6, putUpStrandTenths: hank, putUpWord: 'hank', dyeing: 'overdyed', lotsMatter: true },
      ['Tarn Blue', 'Moss', 'Rust'],
    ],
  ] as const) {
    const [makerId, lineId] = [newId(), newId()]
    await prisma.maker.create({ data: { id: makerId, name: makerName, nameKey: makerName.toLowerCase() } })
    await prisma.threadLine.create({ data: { id: lineId, makerId, name: 'stranded', nameKey: 'stranded', ...over } })
    lineIds.push(lineId)
    for (const code of codes) {
      const id = newId()
      await prisma.thread.create({ data: { id, lineId, code } })
      threadIds.push(id)
    }
  }
  const threadId = (turn: number) => threadIds[turn % threadIds.length] as string
  await prisma.standIn.create({ data: { id: newId(), threadId: threadId(0), standInThreadId: threadId(2) } })
  for (const [turn, wholePutUps] of [5, 6, 4, 3, 2, 6, 3, 2].entries())
    for (const [at, ownerId] of ownerIds.entries())
      for (const lot of ['18', at === 0 ? '22' : null]) {
        const homePlaceId = turn === 7 && at === 1 ? null : placeIdOf(['T1-1', 'T1-2', 'T2-1', 'T2-2'][turn % 4] as string)
        const part = [
          { partStrandTenths: 0, partCertainty: 'none' as const },
          { partStrandTenths: 120_000, partCertainty: 'measured' as const },
          { partStrandTenths: 90_000, partCertainty: 'guess' as const },
          { partStrandTenths: 0, partCertainty: 'some' as const },
        ][(turn + at) % 4] as { partStrandTenths: number; partCertainty: 'none' | 'measured' | 'guess' | 'some' }
        granted(await receiveThread(goods({ threadId: threadId(turn), ownerId, wholePutUps, lot, homePlaceId, ...part })))
      }

  const size = { kind: 'stitches' as const, width: 60, height: 40 }
  const designs: SmallWorld['designs'] = []
  const key = async (designId: string, stated: readonly (readonly [turn: number, hundredths: number])[]) => {
    const id = newId()
    const keyed = stated.map(([turn, statedHundredths]) => ({ threadId: threadId(turn), strands: 2, statedHundredths }))
    await addKey(database, { id, designId, name: 'As charted', keyed })
    designs.push({ designId, threadListId: id })
  }
  const chart = (title: string, over: object) =>
    addChart({
      ...{ ...aLeaflet(title, shop.id), placeLabel: 'R1', isAnother: true, design: aDesign(title, { size }) },
      ...over,
    })
  await key(granted(await chart('Seven Lanterns', { copies: 6 })).designId, [
    [0, 60],
    [5, 40],
  ])
  const booklet = granted(await chart('Nine Wrens', { kind: 'booklet' }))
  await key(booklet.designId, [
    [1, 150],
    [2, 100],
    [6, 100],
  ])
  const second = newId()
  const named = { title: 'Orchard Gate', titleKey: 'orchard gate', widthStitches: 50, heightStitches: 50 }
  await prisma.design.create({ data: { id: second, chartId: booklet.chartId, ...named, position: 1 } })
  await key(second, [
    [1, 100],
    [3, 200],
  ])
  await key(granted(await chart('Acorn Reckoner', { ownerId: hanne.id })).designId, [
    [0, 200],
    [4, 100],
    [7, 100],
  ])

  const clothIds: string[] = []
  for (const [turn, label] of ['L-1', 'L-2', 'L-3', 'L-4'].entries()) {
    const card = {
      ...{ label, makerName: null, name: 'linen', colourName: null, lab: null, weave: 'single' as const },
      ...{ ends: { threads: 28, perUm: 25_400 }, picks: { threads: 28, perUm: 25_400 }, widthUm: 400_000, heightUm: 300_000 },
      ...{ countCertainty: 'label' as const, isSquared: true, sizeCertainty: 'measured' as const, isTurnable: true },
      ...{ oneWayBecause: null, dyeing: null, washState: 'new' as const, washedOn: null, note: null },
    }
    const ownerId = ownerIds[turn % 2] as string
    clothIds.push(granted(await addCloth({ ...card, ownerId, placeLabel: turn === 3 ? null : 'N1' })).id)
  }
  const notionIds: string[] = []
  for (const [name, kind, count] of [
    ['Tapestry needle', 'needle', 20],
    ['Hoop', 'hoop', 2],
    ['Seed beads', 'beads', 9],
  ] as const) {
    const card = { kind, name, size: null, minimum: null, packOf: null, priceMinor: null, note: null }
    notionIds.push(granted(await addNotion({ ...card, ownerId: shop.id, count, placeLabel: 'N1' })).id)
  }

  const [kits, wrens, , acorn] = designs as [SmallWorld['designs'][0], ...SmallWorld['designs']]
  const { projectId } = granted(
    await startProject(aStart({ ...kits, ownerId: shop.id, quantity: 5, spares: 1, bagLabel: 'K-01' })),
  )
  const needle = {
    kind: 'needle' as const,
    name: 'Needle',
    perKit: 1,
    notionId: notionIds[0] as string,
    priceMinor: null,
    note: null,
  }
  granted(await addKitItem({ projectId, ...needle }))
  granted(
    await startProject(aStart({ ...(wrens as SmallWorld['designs'][0]), ownerId: shop.id, clothPieceId: clothIds[0] as string })),
  )
  granted(await startProject(aStart({ ...(acorn as SmallWorld['designs'][0]), ownerId: hanne.id, bagLabel: 'K-03' })))
  return { ownerIds, lineIds, threadIds, designs, bagLabels, peopleLabels: ['Ines Coldwell', 'Corrie Dunn'] }
}
