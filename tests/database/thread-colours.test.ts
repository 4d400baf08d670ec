import { beforeAll, expect, it } from 'vitest'
import { listLikelyThreads } from '#api/likely-threads'
import { listThreadsOperation } from '#api/stock'
import { hexToLab } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { takeThread } from '#lib/db/stock/take-thread'
import { addThread } from '#lib/db/thread/add-thread'
import { type LikelyQuestion, listLikely } from '#lib/db/thread/list-likely'
import { listThreads, type ThreadFilter, type ThreadOrder } from '#lib/db/thread/list-threads'
import { ask as askApi } from '#tests/unit/api/ask'
import { GET as likelyThreads } from '../../app/api/v1/threads/likely/route'
import { GET as threads } from '../../app/api/v1/threads/route'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aThread, goods, hanneDrewitt, stranded, theShop } from './things'

const lab = (hex: string) => hexToLab(hex) as Lab

describeOnEachEngine('threads by their colours', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), cabinet: newId(), drawer: newId(), bag: newId() }
  const lineIds = new Map<string, string>()
  const threadIds = new Map<string, string>()

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    const underCabinet = { parentId: ids.cabinet, path: `/${ids.cabinet}/${ids.drawer}/` }
    await prisma.place.createMany({
      data: [aPlace(ids.cabinet, 'T4', 'cabinet'), aPlace(ids.bag, 'K-07', 'bag')],
    })
    await prisma.place.create({ data: { ...aPlace(ids.drawer, 'T4.2', 'drawer'), ...underCabinet } })
    const add = async (makerName: string, code: string, hex: string | null, family: 'blue' | 'brown' | null = null) => {
      const known = lineIds.get(makerName)
      const colour = { lab: hex === null ? null : lab(hex), labCertainty: hex === null ? null : ('label' as const), family }
      const { threadId } = granted(
        await addThread({
          ...aThread(code, colour),
          line: known ? { id: known } : stranded({ makerName, name: '', fibre: makerName === 'Dunmarrow' ? 'wool' : 'cotton' }),
        }),
      )
      threadIds.set(code, threadId)
      if (known) return
      const { lineId } = await prisma.thread.findUniqueOrThrow({ where: { id: threadId }, select: { lineId: true } })
      lineIds.set(makerName, lineId)
    }
    await add('Larkholm', '100', '#2e7d32')
    await add('Larkholm', '101', '#1b5e20')
    await add('Larkholm', '102', '#c62828')
    await add('Larkholm', '103', '#008080')
    await add('Larkholm', '104', '#008080', 'blue')
    await add('Larkholm', '105', null)
    await add('Larkholm', '106', null, 'brown')
    await add('Dunmarrow', '7', '#2f7d33')

    const receive = async (code: string, ownerId: string, lot: string | null, homePlaceId: string) =>
      granted(await receiveThread(goods({ threadId: threadIds.get(code) as string, ownerId, lot, wholePutUps: 2, homePlaceId })))
        .batchId
    await receive('100', ids.shop, 'B 18', ids.drawer)
    const dark = await receive('101', ids.shop, 'B 22', ids.drawer)
    granted(await takeThread({ batchId: dark, wholePutUps: 1, takesPart: false, toPlaceId: ids.bag }))
    await receive('102', ids.shop, null, ids.cabinet)
    await receive('103', ids.hanne, null, ids.drawer)
  })

  const all: ThreadFilter = { makerId: null, lineId: null, placeId: null, text: '', state: null, family: null }
  const list = (filter: Partial<ThreadFilter>, order: ThreadOrder = 'drawer', ownerIds = [ids.shop]) =>
    listThreads({ ...all, ...filter }, { ownerIds, offset: 0, limit: 100, order })
  const codes = async (...asked: Parameters<typeof list>) => (await list(...asked)).rows.map(({ code }) => code)

  it('are filed by a person’s word, else by their colour, and counted so', async () => {
    expect(await codes({ family: 'green' })).toEqual(['7', '100', '101'])
    expect(await codes({ family: 'blue' })).toEqual(['104'])
    expect(await codes({ family: 'unknown' })).toEqual(['105'])
    const { counts } = await list({ family: 'green' })
    expect(counts.families).toMatchObject({ green: 3, red: 1, 'blue-green': 1, blue: 1, brown: 1, unknown: 1, pink: 0 })
    expect(counts.lines.get(lineIds.get('Larkholm') as string)).toBe(2)
  })

  it('answer which of my greens are in a drawer, and in what it stands in', async () => {
    expect(await codes({ family: 'green', placeId: ids.drawer })).toEqual(['100', '101'])
    expect(await codes({ family: 'green', placeId: ids.cabinet })).toEqual(['100', '101'])
    expect(await codes({ family: 'green', placeId: ids.bag })).toEqual(['101'])
    expect(await codes({ family: 'blue-green', placeId: ids.drawer })).toEqual([])
    expect((await list({ placeId: ids.drawer })).counts.families).toMatchObject({ green: 2, red: 0 })
  })

  it('stand in the order of their colours where that is asked for', async () => {
    const { rows } = await list({}, 'colour')
    expect(rows.map(({ family }) => family)).toEqual(['red', 'brown', 'green', 'green', 'green', 'blue-green', 'blue', null])
    // Light before dark among greens of one hue.
    expect(rows.filter(({ family }) => family === 'green').at(-1)?.code).toBe('101')
  })

  const ask = (over: Partial<LikelyQuestion>) =>
    listLikely(
      { lab: lab('#1c5f21'), makerId: null, lineId: null, fibre: null, lot: '', ...over },
      { ownerIds: [ids.shop], perStanding: 3 },
    )

  it('tell what a loose skein is likely to be: what is out of its place first, each by its nearness', async () => {
    const { threads, comparedCount, withoutColourCount } = await ask({})
    expect(threads.map(({ code, standing }) => [code, standing])).toEqual([
      ['101', 'out'],
      ['100', 'held'],
      ['102', 'held'],
      ['7', 'none'],
      ['103', 'none'],
      ['104', 'none'],
    ])
    expect(threads[0]).toMatchObject({ homes: [{ label: 'T4.2' }], away: [{ label: 'K-07' }], lots: ['B 22'] })
    expect(threads[0]?.deltaE00).toBeLessThan(1)
    expect([comparedCount, withoutColourCount]).toEqual([6, 2])
  })

  it('keep to the maker, the fibre and what can be read of the lot', async () => {
    const found = async (over: Partial<LikelyQuestion>) => (await ask(over)).threads.map(({ code }) => code)
    expect(await found({ fibre: 'Wool' })).toEqual(['7'])
    expect(await found({ lineId: lineIds.get('Dunmarrow') as string })).toEqual(['7'])
    expect(await found({ lot: 'b 1' })).toEqual(['100'])
    expect(await found({ lot: 'b' })).toEqual(['101', '100'])
    expect(await ask({ lot: 'z' })).toEqual({ threads: [], comparedCount: 0, withoutColourCount: 0 })
  })

  it('are given by the API too', async () => {
    const green = await askApi(threads, { path: `threads?family=green&order=colour&owner=${ids.shop}` })
    expect(listThreadsOperation.answer.parse(green.body)).toMatchObject({ total: 3, threads: [{ family: 'green' }, {}, {}] })
    const likely = await askApi(likelyThreads, { path: `threads/likely?colour=%231c5f21&limit=1&owner=${ids.shop}` })
    expect(listLikelyThreads.answer.parse(likely.body)).toMatchObject({
      family: 'green',
      threads: [
        { thread: { code: '101' }, standing: 'out', grade: 'same', lots: ['B 22'], fibre: 'cotton' },
        { thread: { code: '100' }, standing: 'held' },
        { thread: { code: '7' }, standing: 'none', fibre: 'wool' },
      ],
    })
    expect(await askApi(likelyThreads, { path: 'threads/likely?colour=50%2012%20-4' })).toMatchObject({ status: 200 })
    expect(await askApi(likelyThreads, { path: 'threads/likely?colour=madder' })).toMatchObject({ status: 400 })
  })
})
