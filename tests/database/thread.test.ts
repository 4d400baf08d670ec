import { beforeAll, expect, it } from 'vitest'
import { readThreadStory } from '#lib/db/movement/thread-story'
import { newId } from '#lib/db/new-id'
import { promiseStock } from '#lib/db/stock/promise-stock'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { takeThread } from '#lib/db/stock/take-thread'
import { transferBatch } from '#lib/db/stock/transfer-batch'
import { addStandIn } from '#lib/db/thread/add-stand-in'
import { addThread } from '#lib/db/thread/add-thread'
import { editLine } from '#lib/db/thread/edit-line'
import { editThread } from '#lib/db/thread/edit-thread'
import { findThread, listThreadsCalled } from '#lib/db/thread/find-thread'
import { findLine, listLines } from '#lib/db/thread/list-lines'
import { listThreads, type ThreadFilter } from '#lib/db/thread/list-threads'
import { removeStandIn } from '#lib/db/thread/remove-stand-in'
import { removeThread } from '#lib/db/thread/remove-thread'
import { listThreadUses } from '#lib/db/thread/thread-uses'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, aPlace, aThread, goods, hanneDrewitt, skein, stranded, theShop } from './things'

const metre = 60_000

describeOnEachEngine('threads', ({ open }) => {
  const ids = {
    shop: newId(),
    hanne: newId(),
    cabinet: newId(),
    drawer: newId(),
    bag: newId(),
    project: newId(),
    design: newId(),
  }

  const all: ThreadFilter = { makerId: null, lineId: null, placeId: null, text: '', state: null, family: null }
  const page = { ownerIds: [ids.shop], offset: 0, limit: 100 }

  const lineNamed = async (makerName: string, name: string) => {
    const line = (await listLines()).find((known) => known.makerName === makerName && known.name === name)
    if (!line) throw new Error(`no line ${makerName} ${name}`)
    return line
  }
  const idCalled = async (text: string) => (await listThreadsCalled(text))[0]?.id as string
  const versionOf = async (threadId: string) =>
    (await open().prisma.thread.findUniqueOrThrow({ where: { id: threadId } })).version
  const receive = (threadId: string, wholePutUps: number, ownerId = ids.shop) =>
    receiveThread(goods({ threadId, ownerId, wholePutUps, homePlaceId: ids.drawer }))

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({
      data: [aPlace(ids.cabinet, 'T', 'cabinet'), aPlace(ids.bag, 'K-07', 'bag')],
    })
    const underCabinet = { parentId: ids.cabinet, path: `/${ids.cabinet}/${ids.drawer}/` }
    await prisma.place.create({ data: { ...aPlace(ids.drawer, 'T2.1', 'drawer'), ...underCabinet } })
    await addCharted(open(), { ownerId: ids.shop, title: 'Rook Hill in Snow', designId: ids.design })
    await prisma.project.create({ data: { id: ids.project, designId: ids.design, ownerId: ids.shop } })
  })

  it('adds a thread with its maker and line, and the next one to the same line', async () => {
    const first = granted(await addThread({ ...aThread('0017', { name: 'Straw' }), line: stranded() }))
    const line = await lineNamed('Larkholm', 'stranded')
    const { putUpMilligrams: _weight, priceMinor: _price, ...lineFacts } = stranded()
    const second = granted(await addThread({ ...aThread('17', { lab: { L: 60, a: 5, b: 40 } }), line: { id: line.id } }))
    expect(second.threadId).not.toBe(first.threadId)
    expect(await findThread(first.threadId, { ownerIds: [ids.shop] })).toMatchObject({
      code: '0017',
      name: 'Straw',
      lab: null,
      line: { ...lineFacts, id: line.id },
      batches: [],
    })
    expect(await findThread(second.threadId, { ownerIds: [ids.shop] })).toMatchObject({ lab: { L: 60, a: 5, b: 40 } })
  })

  it('refuses a code the line has, and a line the maker has, however they are spelt', async () => {
    const line = await lineNamed('Larkholm', 'stranded')
    expect(await addThread({ ...aThread('0017'), line: { id: line.id } })).toMatchObject({
      ok: false,
      error: { kind: 'code-taken', code: '0017' },
    })
    const again = await addThread({ ...aThread('0018'), line: stranded({ makerName: 'LARKHOLM ', name: 'Stranded' }) })
    expect(again).toMatchObject({ ok: false, error: { kind: 'line-taken', lineId: line.id } })
    expect(await addThread({ ...aThread('1'), line: { id: 'nothing' } })).toMatchObject({ error: { kind: 'no-such-line' } })
  })

  it('lists by maker, line and code as in a drawer, with what the owner holds', async () => {
    const line = await lineNamed('Larkholm', 'stranded')
    for (const code of ['100', '9', 'Ecru', '17A', '10'])
      granted(await addThread({ ...aThread(code, { minimumPutUps: code === '9' ? 2 : null }), line: { id: line.id } }))
    granted(await addThread({ ...aThread('Haw'), line: stranded({ makerName: 'Brindlequay', name: 'silk' }) }))
    const { rows, total } = await listThreads(all, page)
    // Order as in trade practice: names first, then figures read as numbers.
    expect(rows.map((row) => row.code)).toEqual(['Haw', 'Ecru', '9', '10', '0017', '17', '17A', '100'])
    expect(total).toBe(8)

    const idOf = (code: string) => rows.find((row) => row.code === code)?.id as string
    const { batchId } = granted(await receive(idOf('9'), 3))
    granted(await receive(idOf('10'), 5, ids.hanne))
    granted(await takeThread({ batchId, wholePutUps: 1, takesPart: false, toPlaceId: ids.bag }))
    granted(await promiseStock({ batchId, projectId: ids.project, strandTenths: 3 * metre }))
    const listed = await listThreads(all, page)
    expect(listed.rows.find((row) => row.code === '9')).toMatchObject({
      stock: {
        ownedStrandTenths: 24 * metre,
        outStrandTenths: 8 * metre,
        promisedStrandTenths: 3 * metre,
        freeStrandTenths: 13 * metre,
        wholePutUps: 3,
        freePutUps: 1,
        states: ['held', 'low', 'out'],
      },
      homes: [{ label: 'T2.1' }],
      away: [{ label: 'K-07' }],
    })
    expect(listed.rows.find((row) => row.code === '10')?.stock.states).toEqual(['none'])
    expect(listed.counts.states).toEqual({ held: 1, none: 7, low: 1, out: 1 })
    expect([...listed.counts.makers.values()].sort()).toEqual([1, 7])
  })

  it('narrows the list by each choice and pages it', async () => {
    const codes = async (filter: Partial<ThreadFilter>, over: Partial<typeof page> = {}) =>
      (await listThreads({ ...all, ...filter }, { ...page, ...over })).rows.map((row) => row.code)
    const line = await lineNamed('Brindlequay', 'silk')
    expect(await codes({ makerId: line.makerId })).toEqual(['Haw'])
    expect(await codes({ lineId: line.id })).toEqual(['Haw'])
    expect(await codes({ text: 'lark straw' })).toEqual(['0017'])
    expect(await codes({ state: 'held' })).toEqual(['9'])
    expect(await codes({ state: 'low' })).toEqual(['9'])
    expect(await codes({ placeId: ids.cabinet })).toEqual(['9'])
    expect(await codes({ placeId: ids.bag })).toEqual(['9'])
    expect(await codes({ placeId: ids.bag }, { ownerIds: [ids.hanne] })).toEqual([])
    expect(await codes({}, { offset: 2, limit: 3 })).toEqual(['9', '10', '0017'])
    const both = { ownerIds: [ids.shop, ids.hanne] }
    expect(await codes({ state: 'held' }, both)).toEqual(['9', '10'])
  })

  it('says all there is to say of one thread', async () => {
    const threadId = await idCalled('Larkholm stranded 9')
    const { prisma } = open()
    const listId = newId()
    await prisma.threadList.create({ data: { id: listId, designId: ids.design, name: 'cotton', nameKey: 'cotton' } })
    const keyLineId = newId()
    await prisma.keyLine.create({ data: { id: keyLineId, threadListId: listId, position: 0 } })
    await prisma.keyLineThread.create({ data: { id: newId(), keyLineId, position: 0, threadId, strands: 2 } })
    const found = await findThread(threadId, { ownerIds: [ids.shop] })
    expect(found?.owners.map(({ ownerName, holdsAny }) => [ownerName, holdsAny])).toEqual([['The Oxmarsh Needle Room', true]])
    expect(found?.projects).toMatchObject([{ title: 'Rook Hill in Snow', promisedStrandTenths: 3 * metre, bag: null }])
    expect(await listThreadUses(threadId, { ownerIds: [ids.shop], page: 1 })).toMatchObject({
      designCount: 1,
      designs: [{ id: ids.design, title: 'Rook Hill in Snow', lists: [{ name: 'cotton' }] }],
    })
    const [home, out] = found?.batches ?? []
    expect(home).toMatchObject({
      ownerName: 'The Oxmarsh Needle Room',
      home: { label: 'T2.1', above: [{ label: 'T' }] },
      outSince: null,
      promises: [{ title: 'Rook Hill in Snow', strandTenths: 3 * metre }],
    })
    expect(out).toMatchObject({ current: { label: 'K-07', above: [] }, outSince: expect.any(Date) })
    const { lines } = await readThreadStory(threadId, { ownerIds: [ids.shop], page: 1 })
    expect(lines.map(({ kind, from, to }) => [kind, from, to])).toEqual([
      ['split', 'T2.1', 'K-07'],
      ['take', 'T2.1', 'K-07'],
      ['receive', null, 'T2.1'],
    ])
    expect(await findThread(threadId, { ownerIds: [ids.hanne] })).toMatchObject({
      batches: [],
      projects: [],
      owners: [{ ownerName: 'The Oxmarsh Needle Room' }, { ownerName: 'Hanne Drewitt', holdsAny: false }],
    })
    expect(await findThread('nothing', { ownerIds: [ids.shop] })).toBeNull()
  })

  it('finds the thread a person names by maker, line and exact code', async () => {
    const called = async (text: string) => (await listThreadsCalled(text)).map((found) => `${found.line.makerName} ${found.code}`)
    expect(await called('larkholm 17')).toEqual(['Larkholm 17'])
    expect(await called('0017')).toEqual(['Larkholm 0017'])
    expect(await called('silk Haw')).toEqual(['Brindlequay Haw'])
    expect(await called('Larkholm Haw')).toEqual([])
  })

  it('edits a thread once for each look at it', async () => {
    const { threadId } = granted(
      await addThread({ ...aThread('0440'), line: { id: (await lineNamed('Larkholm', 'stranded')).id } }),
    )
    granted(await editThread({ ...aThread('0441', { name: 'Moss', note: 'fades' }), threadId, version: 0 }))
    expect(await findThread(threadId, { ownerIds: [] })).toMatchObject({ code: '0441', name: 'Moss', note: 'fades', version: 1 })
    expect(await editThread({ ...aThread('0442'), threadId, version: 0 })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
    expect(await editThread({ ...aThread('0017'), threadId, version: 1 })).toMatchObject({ error: { kind: 'code-taken' } })
  })

  it('keeps a colour with how it is known, the family it is filed under, and that it is no longer made', async () => {
    const line = await lineNamed('Larkholm', 'stranded')
    const lab = { L: 45, a: -30, b: -8 }
    const facts = aThread('0450', { lab, labCertainty: 'guess', family: 'blue', isLeaving: true })
    const { threadId } = granted(await addThread({ ...facts, line: { id: line.id } }))
    const known = () => findThread(threadId, { ownerIds: [] })
    expect(await known()).toMatchObject({ lab, labCertainty: 'guess', family: 'blue', isLeaving: true })
    granted(await editThread({ ...facts, family: null, isLeaving: false, labCertainty: 'measured', threadId, version: 0 }))
    expect(await known()).toMatchObject({ lab, labCertainty: 'measured', family: null, isLeaving: false, version: 1 })
    granted(await editThread({ ...facts, lab: null, threadId, version: 1 }))
    expect(await known()).toMatchObject({ lab: null, labCertainty: null, family: 'blue' })
    expect(await editThread({ ...facts, threadId, version: 1 })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await removeThread({ threadId, version: 2 }))
  })

  it('keeps what a full put-up weighs and costs with its line', async () => {
    const weighed = stranded({ makerName: 'Marrowgate', name: 'braid', putUpMilligrams: 4_200, priceMinor: 115 })
    const { threadId } = granted(await addThread({ ...aThread('31'), line: weighed }))
    const { id: lineId } = await lineNamed('Marrowgate', 'braid')
    expect(await findLine(lineId)).toMatchObject({ putUpMilligrams: 4_200, priceMinor: 115, version: 0 })
    granted(await editLine({ ...weighed, putUpMilligrams: 4_350, priceMinor: null, lineId, version: 0 }))
    expect(await findLine(lineId)).toMatchObject({ putUpMilligrams: 4_350, priceMinor: null, version: 1 })
    expect(await editLine({ ...weighed, lineId, version: 0 })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    granted(await removeThread({ threadId, version: 0 }))
    const { makerId } = await lineNamed('Marrowgate', 'braid')
    await open().prisma.thread.deleteMany({ where: { lineId } })
    await open().prisma.threadLine.delete({ where: { id: lineId } })
    await open().prisma.maker.delete({ where: { id: makerId } })
  })

  it('renames a maker with its only line, and moves one of several lines to the maker named', async () => {
    const silk = await lineNamed('Brindlequay', 'silk')
    const edit = { ...stranded(), name: 'silk', lineId: silk.id }
    granted(await editLine({ ...edit, makerName: 'Quillwater', version: 0 }))
    expect(await findLine(silk.id)).toMatchObject({ makerName: 'Quillwater', makerId: silk.makerId, version: 1, threadCount: 1 })
    granted(await editLine({ ...edit, makerName: 'Larkholm', version: 1 }))
    expect(await open().prisma.maker.count({ where: { id: silk.makerId } })).toBe(0)
    granted(await editLine({ ...edit, makerName: 'Brindlequay', version: 2 }))
    expect((await listLines()).map((line) => `${line.makerName} ${line.name}`)).toEqual(['Brindlequay silk', 'Larkholm stranded'])
    expect(await editLine({ ...edit, name: 'stranded', makerName: 'Larkholm', version: 3 })).toMatchObject({
      error: { kind: 'line-taken' },
    })
    expect(await editLine({ ...edit, makerName: 'Brindlequay', version: 0 })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
  })

  it('lets the strands of a line be changed only while nothing is measured in them', async () => {
    const line = await lineNamed('Larkholm', 'stranded')
    const { version } = (await findLine(line.id)) as { version: number }
    expect(await editLine({ ...stranded(), strands: 4, lineId: line.id, version })).toMatchObject({
      error: { kind: 'strands-in-use', statedCount: 0 },
    })
    const silk = await lineNamed('Brindlequay', 'silk')
    const { version: silkVersion } = (await findLine(silk.id)) as { version: number }
    granted(
      await editLine({
        ...stranded(),
        makerName: 'Brindlequay',
        name: 'silk',
        strands: 12,
        lineId: silk.id,
        version: silkVersion,
      }),
    )
    expect((await findLine(silk.id))?.strands).toBe(12)
  })

  it('removes a thread only when nobody holds it and no key names it, and brings it back by its code', async () => {
    const line = await lineNamed('Larkholm', 'stranded')
    const used = await idCalled('Larkholm 9')
    expect(await removeThread({ threadId: used, version: await versionOf(used) })).toEqual({
      ok: false,
      error: { kind: 'thread-in-use', heldBatchCount: 2, designCount: 1 },
    })
    const { threadId } = granted(await addThread({ ...aThread('0600'), line: { id: line.id } }))
    const { batchId } = granted(await receive(threadId, 1))
    granted(await recordUse({ batchId, strandTenths: skein }))
    granted(await removeThread({ threadId, version: 0 }))
    expect(await findThread(threadId, { ownerIds: [ids.shop] })).toBeNull()
    expect((await listThreads({ ...all, text: '0600' }, page)).total).toBe(0)
    expect(granted(await addThread({ ...aThread('0600', { name: 'Pine' }), line: { id: line.id } })).threadId).toBe(threadId)
    expect(await findThread(threadId, { ownerIds: [ids.shop] })).toMatchObject({ name: 'Pine', batches: [] })
  })

  it('keeps the history of what was passed on, up to that day', async () => {
    const line = await lineNamed('Larkholm', 'stranded')
    const { threadId } = granted(await addThread({ ...aThread('0701'), line: { id: line.id } }))
    const { batchId } = granted(await receive(threadId, 2))
    granted(await recordUse({ batchId, strandTenths: metre }))
    granted(await transferBatch({ batchId, toOwnerId: ids.hanne }))
    granted(await recordUse({ batchId, strandTenths: metre }))
    const kindsFor = async (ownerId: string) =>
      (await readThreadStory(threadId, { ownerIds: [ownerId], page: 1 })).lines.map(({ kind }) => kind)
    expect(await kindsFor(ids.shop)).toEqual(['transfer', 'use', 'receive'])
    expect(await kindsFor(ids.hanne)).toEqual(['use', 'transfer', 'use', 'receive'])
  })

  it('records stand-ins one way', async () => {
    const threadId = await idCalled('Larkholm 17')
    const standInThreadId = await idCalled('Larkholm 100')
    const { standInId } = granted(await addStandIn({ threadId, standInThreadId, source: 'floss toss' }))
    expect(await addStandIn({ threadId, standInThreadId, source: null })).toMatchObject({ error: { kind: 'stand-in-known' } })
    expect(await addStandIn({ threadId, standInThreadId: threadId, source: null })).toMatchObject({
      error: { kind: 'stands-for-itself' },
    })
    const [forward, backward] = [
      await findThread(threadId, { ownerIds: [] }),
      await findThread(standInThreadId, { ownerIds: [] }),
    ]
    expect(forward?.standIns).toMatchObject([{ standInId, source: 'floss toss', thread: { code: '100' } }])
    expect(backward?.standIns).toEqual([])
    expect(backward?.standsInFor).toMatchObject([{ standInId, thread: { code: '17' } }])
    expect(granted(await removeStandIn(standInId))).toEqual({ threadId })
    expect(await removeStandIn(standInId)).toMatchObject({ error: { kind: 'no-such-stand-in' } })
  })
})
