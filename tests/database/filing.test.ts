import { beforeAll, expect, it } from 'vitest'
import { carryOutFilingOperation, planFilingOperation } from '#api/filing'
import { findBulkEdit } from '#lib/db/bulk-edit/queries'
import { undoBulkEdit } from '#lib/db/bulk-edit/undo-bulk-edit'
import { carryOutFiling } from '#lib/db/filing/carry-out-filing'
import { findFiling } from '#lib/db/filing/read-filing'
import { newId } from '#lib/db/new-id'
import { listPlaces } from '#lib/db/place/queries'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { takeThread } from '#lib/db/stock/take-thread'
import { addThread } from '#lib/db/thread/add-thread'
import { POST as planRoute } from '../../app/api/v1/filing/plan/route'
import { POST as carryOutRoute } from '../../app/api/v1/filing/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aThread, goods, hanneDrewitt, stranded, theShop } from './things'

describeOnEachEngine('filing a line that grows', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), bag: newId(), box: newId(), line: '' }
  const drawers = ['T5.1', 'T5.2', 'T6.1', 'T6.2'].map((label) => ({ ...aPlace(newId(), label, 'drawer'), capacity: 3 }))
  const placeOf = (label: string) => drawers.find((drawer) => drawer.label === label)?.id as string
  const batchOf = new Map<string, string>()

  const ask = (change: object = {}) => ({
    ...{
      lineId: ids.line,
      ownerIds: [ids.shop],
      order: 'number' as const,
      capacity: 3,
      percent: 75,
      codes: [],
      takesUnplaced: true,
    },
    ...change,
  })
  const homes = async () => {
    const rows = await open().prisma.batch.findMany({
      where: { goneAt: null },
      select: { id: true, homePlaceId: true, currentPlaceId: true, wholePutUps: true },
      orderBy: { id: 'asc' },
    })
    return new Map(rows.map(({ id, ...row }) => [id, row]))
  }
  const homeOf = async (code: string) => (await homes()).get(batchOf.get(code) as string)

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({ data: [aPlace(ids.bag, 'K-07', 'bag'), aPlace(ids.box, 'H1', 'box')] })
    await prisma.place.createMany({ data: drawers })
    const lives: [code: string, label: string | null][] = [
      ...['0001', '0002', '0004'].map((code): [string, string] => [code, 'T5.1']),
      ...['0010', '0011', '0012'].map((code): [string, string] => [code, 'T5.2']),
      ['0020', 'T6.1'],
      ['0003', null],
    ]
    for (const [code, label] of lives) {
      const { threadId } = granted(await addThread({ ...aThread(code), line: ids.line === '' ? stranded() : { id: ids.line } }))
      ids.line ||= (await prisma.threadLine.findFirstOrThrow({ select: { id: true } })).id
      const homePlaceId = label === null ? null : placeOf(label)
      const received = granted(await receiveThread(goods({ threadId, ownerId: ids.shop, wholePutUps: 2, homePlaceId })))
      batchOf.set(code, received.batchId)
      if (code === '0020') {
        // Hanne's, and spare stock in a box: neither is the shop's drawer's.
        await receiveThread(goods({ threadId, ownerId: ids.hanne, wholePutUps: 1, homePlaceId: placeOf('T6.1') }))
        await receiveThread(goods({ threadId, ownerId: ids.shop, wholePutUps: 9, homePlaceId: ids.box }))
      }
    }
    const bag = { wholePutUps: 2, takesPart: false, toPlaceId: ids.bag }
    granted(await takeThread({ batchId: batchOf.get('0012') as string, ...bag }))
  })

  it('finds the drawers from where batches live, what else is in them, and the empty one that follows', async () => {
    const filing = await findFiling(ask())
    expect(filing.drawers.map(({ label, others }) => [label, others])).toEqual([
      ['T5.1', 0],
      ['T5.2', 0],
      ['T6.1', 1],
      ['T6.2', 0],
    ])
    expect(filing.lines.map(({ code, drawer }) => [code, drawer])).toEqual([
      ['0001', 0],
      ['0002', 0],
      ['0003', null],
      ['0004', 0],
      ['0010', 1],
      ['0011', 1],
      ['0012', 1],
      ['0020', 2],
    ])
    // By hand: 0004 goes on to T5.2, 0012 from there to T6.1, which has room for two beside Hanne's; or 0004 alone into a drawer put in.
    expect(filing.growth.choices.map(({ way, moved }) => [way, moved])).toEqual([
      ['forward', 2],
      ['both', 2],
      ['added', 1],
    ])
    expect(filing.added).toEqual({ label: 'T5.3', compartments: [], room: 3 })
    const withCodes = await findFiling(ask({ takesUnplaced: false, codes: ['0021', '0022'] }))
    expect(withCodes.lines.filter(({ threadId }) => threadId === null).map(({ code }) => code)).toEqual(['0021', '0022'])
  })

  it('carries a plan out in one write, every batch with one home, and takes it all back', async () => {
    const before = await homes()
    const { fingerprint } = await findFiling(ask())
    const done = granted(
      await carryOutFiling({ ...ask(), way: 'forward', fingerprint, what: 'Room for 0003', who: 'Nell Oxtoby' }),
    )
    expect(done).toMatchObject({ moved: 3, addedPlaceId: null })
    expect(await homeOf('0004')).toMatchObject({ homePlaceId: placeOf('T5.2'), currentPlaceId: placeOf('T5.2') })
    expect(await homeOf('0012')).toMatchObject({ homePlaceId: placeOf('T6.1'), currentPlaceId: ids.bag })
    expect(await homeOf('0003')).toMatchObject({ homePlaceId: placeOf('T5.1'), currentPlaceId: placeOf('T5.1') })
    const after = await homes()
    expect([...after.keys()]).toEqual([...before.keys()])
    expect([...after.values()].map(({ wholePutUps }) => wholePutUps)).toEqual([...before.values()].map((row) => row.wholePutUps))
    const changed = [...after].filter(([id, row]) => row.homePlaceId !== before.get(id)?.homePlaceId).map(([id]) => id)
    expect(changed.sort()).toEqual(['0003', '0004', '0012'].map((code) => batchOf.get(code)).sort())
    const moved = await open().prisma.movement.findMany({ where: { kind: 'move', reason: 'Room for 0003' } })
    expect(moved).toHaveLength(3)
    expect(new Set(moved.map(({ revision }) => revision)).size).toBe(1)
    expect(await findBulkEdit(done.bulkEditId)).toMatchObject({ change: { kind: 'filing' }, who: 'Nell Oxtoby' })

    const again = await findFiling(ask())
    expect(again.growth.choices[0]).toMatchObject({ way: 'forward', moved: 0 })
    expect(await carryOutFiling({ ...ask(), way: 'forward', fingerprint: again.fingerprint, what: 'Again' })).toEqual({
      ok: false,
      error: { kind: 'nothing-moves' },
    })
    expect(granted(await undoBulkEdit({ bulkEditId: done.bulkEditId }))).toEqual({ takenBack: 3, left: [] })
    expect(await homes()).toEqual(before)
  })

  it('refuses a plan when something moved meanwhile, and writes nothing', async () => {
    const { fingerprint } = await findFiling(ask())
    const batchId = batchOf.get('0001') as string
    granted(await takeThread({ batchId, wholePutUps: 2, takesPart: false, toPlaceId: ids.bag }))
    const before = await homes()
    const count = await open().prisma.bulkEdit.count()
    expect(await carryOutFiling({ ...ask(), way: 'both', fingerprint, what: 'Too late' })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
    expect(await homes()).toEqual(before)
    expect(await open().prisma.bulkEdit.count()).toBe(count)
  })

  it('answers over the API: the plan, a drawer put in next on the walk, and refusals', async () => {
    const body = { lineId: ids.line, ownerIds: [ids.shop], capacity: 3, takesUnplaced: true }
    const plan = await answer(planFilingOperation, planRoute, { body })
    expect(plan).toMatchObject({ recommended: 'added', addedLabel: 'T5.3', afresh: { perDrawer: 2, drawersPacked: 3 } })
    expect(plan.choices.find(({ way }) => way === 'added')).toMatchObject({
      changeDrawer: 1,
      moves: [
        { from: 'T5.1', to: 'T5.3', codes: ['0004'], compartments: null },
        { from: null, to: 'T5.1', codes: ['0003'], compartments: null },
      ],
      labelsToPrint: ['T5.1', 'T5.3'],
    })
    const request = { ...body, way: 'added', fingerprint: plan.fingerprint, what: 'A drawer more' }
    const before = await homes()
    const done = await answer(carryOutFilingOperation, carryOutRoute, { body: request })
    expect(done.moved).toBe(2)
    expect(await homeOf('0004')).toMatchObject({ homePlaceId: done.addedPlaceId })
    const walk = (await listPlaces()).filter(({ kind }) => kind === 'drawer').map(({ label }) => label)
    expect(walk).toEqual(['T5.1', 'T5.3', 'T5.2', 'T6.1', 'T6.2'])
    expect(await problem(carryOutRoute, { body: request })).toMatchObject({ status: 409 })
    expect(await problem(planRoute, { body: { ...body, order: 'size' } })).toMatchObject({ status: 422 })
    expect(await problem(planRoute, { body: { ...body, lineId: 'x' } })).toMatchObject({ status: 422 })
    expect(granted(await undoBulkEdit({ bulkEditId: done.bulkEditId }))).toMatchObject({ takenBack: 2, left: [] })
    expect(await homes()).toEqual(before)
  })
})

describeOnEachEngine('filing a line whose drawers have compartments', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), bag: newId(), cabinet: newId(), line: '' }
  const places = new Map<string, string>()
  const batchOf = new Map<string, string>()
  const placeOf = (label: string) => places.get(label) as string

  const ask = (change: object = {}) => ({
    ...{ lineId: ids.line, ownerIds: [ids.shop], order: 'number' as const, capacity: 40, percent: 75, codes: [] },
    ...{ takesUnplaced: true, ...change },
  })
  const labelOf = async (placeId: string | null) =>
    placeId && (await open().prisma.place.findUniqueOrThrow({ where: { id: placeId }, select: { label: true } })).label
  const lives = async () => {
    const rows = await open().prisma.batch.findMany({
      where: { goneAt: null, ownerId: ids.shop },
      select: {
        id: true,
        thread: { select: { code: true } },
        homePlace: { select: { label: true } },
        currentPlace: { select: { label: true } },
      },
      orderBy: { id: 'asc' },
    })
    return rows.map(({ thread, homePlace, currentPlace }) => [thread.code, homePlace?.label ?? null, currentPlace?.label ?? null])
  }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({ data: [aPlace(ids.bag, 'K-07', 'bag'), aPlace(ids.cabinet, 'Cabinet T', 'cabinet')] })
    for (const [label, count] of [
      ['T5.1', 4],
      ['T5.2', 3],
    ] as const) {
      const drawer = newId()
      const path = `/${ids.cabinet}/${drawer}/`
      await prisma.place.create({ data: { ...aPlace(drawer, label, 'drawer'), parentId: ids.cabinet, path } })
      for (let number = 1; number <= count; number++) {
        const id = newId()
        const name = `${label}-0${number}`
        places.set(name, id)
        await prisma.place.create({ data: { ...aPlace(id, name, 'compartment'), parentId: drawer, path: `${path}${id}/` } })
      }
    }
    const lies: [code: string, label: string | null][] = [
      ['0001', 'T5.1-01'],
      ['0002', 'T5.1-02'],
      ['0004', 'T5.1-03'],
      ['0010', 'T5.2-01'],
      ['0011', 'T5.2-02'],
      ['0003', null],
    ]
    for (const [code, label] of lies) {
      const { threadId } = granted(await addThread({ ...aThread(code), line: ids.line === '' ? stranded() : { id: ids.line } }))
      ids.line ||= (await prisma.threadLine.findFirstOrThrow({ select: { id: true } })).id
      const homePlaceId = label === null ? null : placeOf(label)
      const received = granted(await receiveThread(goods({ threadId, ownerId: ids.shop, wholePutUps: 2, homePlaceId })))
      batchOf.set(code, received.batchId)
      // Hanne's takes the last compartment of T5.1.
      if (code === '0010')
        await receiveThread(goods({ threadId, ownerId: ids.hanne, wholePutUps: 1, homePlaceId: placeOf('T5.1-04') }))
    }
    const bag = { wholePutUps: 2, takesPart: false, toPlaceId: ids.bag }
    granted(await takeThread({ batchId: batchOf.get('0011') as string, ...bag }))
  })

  // By hand: 0003 falls in T5.1, which is full, so 0004 goes on. In T5.2 it comes before 0010 and 0011, which shift by one; in a drawer put in
  // it is alone.
  it('counts what changes drawer and what shifts inside apart, and recommends what shifts least', async () => {
    const filing = await findFiling(ask())
    expect(filing.drawers.map(({ label, capacity, others, places }) => [label, capacity, others, places.length])).toEqual([
      ['T5.1', 4, 1, 3],
      ['T5.2', 3, 0, 3],
    ])
    expect(filing.growth.choices.map(({ way, moved, shifted }) => [way, moved, shifted])).toEqual([
      ['forward', 1, 2],
      ['both', 1, 2],
      ['added', 1, 0],
    ])
    expect(filing.growth.recommended).toBe('added')
    // As many compartments as the largest of the drawers there are, numbered as theirs are.
    expect(filing.added).toEqual({ label: 'T5.3', compartments: ['T5.3-01', 'T5.3-02', 'T5.3-03', 'T5.3-04'], room: 4 })
    // Two to a drawer of three do not go into two drawers; three do, and lie as when pushed on.
    const full = await findFiling(ask({ percent: 100 }))
    expect(full.growth.choices.find(({ way }) => way === 'afresh')).toMatchObject({ moved: 1, shifted: 2 })
  })

  it('carries moves out from compartment to compartment, what is out staying out, and takes them back', async () => {
    const before = await lives()
    const { fingerprint } = await findFiling(ask())
    const done = granted(
      await carryOutFiling({ ...ask(), way: 'forward', fingerprint, what: 'Room for 0003', who: 'Nell Oxtoby' }),
    )
    expect(done).toMatchObject({ moved: 4, addedPlaceId: null })
    expect(await lives()).toEqual([
      ['0001', 'T5.1-01', 'T5.1-01'],
      ['0002', 'T5.1-02', 'T5.1-02'],
      ['0004', 'T5.2-01', 'T5.2-01'],
      ['0010', 'T5.2-02', 'T5.2-02'],
      ['0011', 'T5.2-03', 'K-07'],
      ['0003', 'T5.1-03', 'T5.1-03'],
    ])
    const moved = await open().prisma.movement.findMany({ where: { kind: 'move', reason: 'Room for 0003' } })
    expect(moved).toHaveLength(4)
    expect(await Promise.all([moved[0]?.fromPlaceId ?? null, moved[0]?.toPlaceId ?? null].map(labelOf))).toEqual([
      'T5.1-03',
      'T5.2-01',
    ])
    expect(granted(await undoBulkEdit({ bulkEditId: done.bulkEditId }))).toEqual({ takenBack: 4, left: [] })
    expect(await lives()).toEqual(before)
  })

  it('names both compartments over the API, with what shifts in an order in which each is free', async () => {
    const plan = await answer(planFilingOperation, planRoute, {
      body: { lineId: ids.line, ownerIds: [ids.shop], takesUnplaced: true },
    })
    expect(plan).toMatchObject({ recommended: 'added', addedLabel: 'T5.3' })
    expect(plan.choices.find(({ way }) => way === 'forward')).toMatchObject({
      changeDrawer: 1,
      shiftInside: 2,
      moves: [
        { from: 'T5.1', to: 'T5.2', compartments: [{ code: '0004', from: 'T5.1-03', to: 'T5.2-01' }] },
        {
          from: 'T5.2',
          to: 'T5.2',
          compartments: [
            { code: '0011', from: 'T5.2-02', to: 'T5.2-03' },
            { code: '0010', from: 'T5.2-01', to: 'T5.2-02' },
          ],
        },
        { from: null, to: 'T5.1', compartments: [{ code: '0003', from: null, to: 'T5.1-03' }] },
      ],
    })
  })

  it('lets one of two people carry a plan out; the drawer put in has its compartments, next on the walk', async () => {
    const { fingerprint } = await findFiling(ask())
    const request = { ...ask(), way: 'added' as const, fingerprint, what: 'A drawer more' }
    const both = await Promise.all([carryOutFiling(request), carryOutFiling({ ...request, who: 'Hanne Drewitt' })])
    expect(both.filter(({ ok }) => ok)).toHaveLength(1)
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect((await lives()).filter(([code]) => code === '0003' || code === '0004')).toEqual([
      ['0004', 'T5.3-01', 'T5.3-01'],
      ['0003', 'T5.1-03', 'T5.1-03'],
    ])
    const walk = (await listPlaces()).map(({ label }) => label).filter((label) => label.startsWith('T5'))
    expect(walk).toEqual([
      ...['T5.1', 'T5.1-01', 'T5.1-02', 'T5.1-03', 'T5.1-04'],
      ...['T5.3', 'T5.3-01', 'T5.3-02', 'T5.3-03', 'T5.3-04'],
      ...['T5.2', 'T5.2-01', 'T5.2-02', 'T5.2-03'],
    ])
    const done = both.find(({ ok }) => ok)
    if (!done?.ok) throw new TypeError('neither was done')
    expect(granted(await undoBulkEdit({ bulkEditId: done.value.bulkEditId }))).toEqual({ takenBack: 2, left: [] })
    const again = await findFiling(ask())
    // T5.3 stays, empty: 0004 still leaves T5.1, and nothing has to make way.
    expect(again.growth.choices.find(({ way }) => way === 'forward')).toMatchObject({ moved: 1, shifted: 0 })
  })

  it('files what shares a compartment, lies loose in the drawer or has two compartments as what it is', async () => {
    const { prisma } = open()
    const drawer = await prisma.place.findFirstOrThrow({ where: { label: 'T5.1' }, select: { id: true } })
    // 0002 lies in the drawer itself, 0001 has more of it in -02.
    await prisma.batch.update({
      where: { id: batchOf.get('0002') as string },
      data: { homePlaceId: drawer.id, currentPlaceId: drawer.id },
    })
    const threadId = (await prisma.batch.findUniqueOrThrow({ where: { id: batchOf.get('0001') as string } })).threadId
    granted(
      await receiveThread(goods({ threadId, ownerId: ids.shop, wholePutUps: 5, lot: 'B12', homePlaceId: placeOf('T5.1-02') })),
    )
    const filing = await findFiling(ask({ takesUnplaced: false }))
    const inFirst = filing.lines.filter(({ drawer }) => drawer === 0)
    expect(inFirst.map(({ code, at }) => [code, filing.placeLabels.get(at ?? '')])).toEqual([
      ['0001', 'T5.1-01'],
      ['0001', 'T5.1-02'],
      ['0002', 'T5.1'],
      ['0004', 'T5.1-03'],
    ])
    // Four things, three compartments: one goes on to the empty T5.3, and 0002 gets the compartment it leaves.
    expect(filing.growth.choices[0]).toMatchObject({ way: 'forward', moved: 1, shifted: 1 })
  })
})
