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
    ...{ lineId: ids.line, ownerIds: [ids.shop], order: 'number' as const, capacity: 3, codes: [], takesUnplaced: true },
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
    expect(filing.addedLabel).toBe('T5.3')
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
        { from: 'T5.1', to: 'T5.3', codes: ['0004'] },
        { from: null, to: 'T5.1', codes: ['0003'] },
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

  it('plans and does not carry out where threads live in compartments that are places', async () => {
    const compartment = newId()
    const drawerId = placeOf('T6.1')
    await open().prisma.place.create({
      data: { ...aPlace(compartment, 'T6.1-01', 'compartment'), parentId: drawerId, path: `/${drawerId}/${compartment}/` },
    })
    await open().prisma.batch.update({ where: { id: batchOf.get('0020') as string }, data: { homePlaceId: compartment } })
    const filing = await findFiling(ask())
    expect(filing.lines.at(-1)).toMatchObject({ code: '0020', drawer: filing.drawers.findIndex(({ label }) => label === 'T6.1') })
    expect(await carryOutFiling({ ...ask(), way: 'both', fingerprint: filing.fingerprint, what: 'No' })).toEqual({
      ok: false,
      error: { kind: 'lives-in-compartments' },
    })
  })
})
