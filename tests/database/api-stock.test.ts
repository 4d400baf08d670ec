import { beforeAll, beforeEach, expect, it } from 'vitest'
import { addMovement } from '#api/movements'
import {
  getProjectStock,
  listBrokenPromisesOperation,
  promiseAgainOperation,
  promiseStockOperation,
  setProjectSwapOperation,
} from '#api/project-stock'
import { addProject } from '#api/projects'
import { getThread } from '#api/stock'
import { newId } from '#lib/db/new-id'
import { POST as postMovement } from '../../app/api/v1/movements/route'
import { POST as again } from '../../app/api/v1/projects/[projectId]/promise-again/route'
import { POST as promise } from '../../app/api/v1/projects/[projectId]/promises/route'
import { GET as projectStock } from '../../app/api/v1/projects/[projectId]/stock/route'
import { POST as swap } from '../../app/api/v1/projects/[projectId]/swaps/route'
import { POST as start } from '../../app/api/v1/projects/route'
import { GET as broken } from '../../app/api/v1/promises/broken/route'
import { GET as thread } from '../../app/api/v1/threads/[threadId]/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addCharted, addKey, addLarkholm, aPlace, hanneDrewitt, skein, theShop } from './things'

/** 1 m of all six strands. */
const metre = 60_000

describeOnEachEngine('stock and promises by the API', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), line: newId(), drawer: newId(), ring: newId(), design: newId() }
  let [grey, slate] = ['', '']
  let listId = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T2.1', 'drawer'), aPlace(ids.ring, 'Ring 3', 'drawer')] })
    const makerId = await addLarkholm(open())
    const line = { id: ids.line, makerId, name: 'Stranded cotton', nameKey: 'stranded cotton', strands: 6 }
    await prisma.threadLine.create({ data: { ...line, putUpStrandTenths: skein, putUpMilligrams: 6_000 } })
    await addCharted(open(), { ownerId: ids.shop, title: 'Rook Hill in Snow', designId: ids.design })
  })

  beforeEach(async () => {
    const { prisma } = open()
    ;[grey, slate, listId] = [newId(), newId(), newId()]
    await prisma.thread.createMany({ data: [grey, slate].map((id) => ({ id, lineId: ids.line, code: id })) })
    const keyed = [{ threadId: grey, strands: 2, statedHundredths: 50, statedPutUpTenths: 80_000 }]
    await addKey(open(), { id: listId, designId: ids.design, name: listId, keyed })
  })

  const move = (body: object) => answer(addMovement, postMovement, { body })
  const receive = (over: object = {}) =>
    move({ kind: 'receive', threadId: grey, ownerId: ids.shop, wholePutUps: 2, homePlaceId: ids.drawer, ...over })
  const refusal = async (body: object) => (await problem(postMovement, { body })).detail
  const batchesOf = async (threadId: string, path = '') =>
    (await answer(getThread, thread, { parts: { threadId }, path })).batches

  const startProject = async () =>
    (await answer(addProject, start, { body: { designId: ids.design, threadListId: listId, ownerId: ids.shop } })).project
      .projectId

  it('takes a part as one says it, and a put-up’s own word', async () => {
    const { batchId } = await receive({ wholePutUps: 0, part: '3 g', putUpWord: 'hank' })
    expect(await batchesOf(grey)).toMatchObject([
      { batchId, putUpWord: 'hank', partStrandTenths: 4 * metre, partCertainty: 'measured' },
    ])
    await move({ kind: 'correct', batchId, wholePutUps: 1, part: '1/2', reason: 'looked' })
    expect(await batchesOf(grey)).toMatchObject([{ wholePutUps: 1, partStrandTenths: 4 * metre, partCertainty: 'guess' }])
    const wrong = { kind: 'correct', batchId, wholePutUps: 1, part: 'a bit', reason: 'looked' }
    expect(await problem(postMovement, { body: wrong })).toMatchObject({ status: 422, errors: [{ field: '/part' }] })
    const twice = { ...wrong, part: 'some', partStrandTenths: metre }
    expect((await problem(postMovement, { body: twice })).errors).toMatchObject([{ field: '/partCertainty' }])
    await move({ kind: 'relabel', batchId, lot: '18', putUpWord: null, putUpStrandTenths: skein, reason: 'misread' })
    expect(await batchesOf(grey)).toMatchObject([{ lot: '18', putUpWord: null }])
  })

  it('parts, lays together, passes some on and uses up', async () => {
    const { batchId } = await receive({ wholePutUps: 4 })
    const parted = await move({ kind: 'split', batchId, wholePutUps: 1, homePlaceId: ids.ring })
    expect(parted.movements.map(({ kind, wholeDelta }) => [kind, wholeDelta])).toEqual(
      expect.arrayContaining([
        ['split', -1],
        ['split', 1],
      ]),
    )
    expect(await refusal({ kind: 'merge', batchId: parted.batchId, intoBatchId: batchId })).toBe(
      'They cannot be laid together, for these differ: homePlaceId, place.',
    )
    expect(await refusal({ kind: 'split', batchId, wholePutUps: 3 })).toBe('That is all there is of it; move it instead.')
    await move({ kind: 'move', batchId: parted.batchId, toPlaceId: ids.drawer, becomesHome: true })
    expect((await move({ kind: 'merge', batchId: parted.batchId, intoBatchId: batchId })).batchId).toBe(batchId)
    const passed = await move({ kind: 'transfer', batchId, toOwnerId: ids.hanne, parting: { wholePutUps: 3 } })
    expect(await batchesOf(grey, `x?owner=${ids.hanne}`)).toMatchObject([{ batchId: passed.batchId, wholePutUps: 3 }])
    await move({ kind: 'use', batchId, strandTenths: 'all' })
    expect(await batchesOf(grey)).toMatchObject([{ batchId, wholePutUps: 0 }])
  })

  it('says what a project needs, has and is worked in; promises by hand, swaps, names what broke and mends it', async () => {
    const { batchId } = await receive({ wholePutUps: 1 })
    const projectId = await startProject()
    const parts = { projectId }
    const stock = () => answer(getProjectStock, projectStock, { parts })
    expect(await stock()).toMatchObject({
      needs: [{ thread: { threadId: grey }, needStrandTenths: 4 * metre, promisedStrandTenths: 4 * metre, kits: null }],
      promises: [{ batchId, promisedStrandTenths: 4 * metre, take: { wholePutUps: 1, takesPart: false } }],
      broken: [],
      swaps: [],
    })
    const give = (strandTenths: number) => answer(promiseStockOperation, promise, { parts, body: { batchId, strandTenths } })
    await give(0)
    expect((await stock()).promises).toEqual([])
    await give(skein)
    const tooMuch = { parts, body: { batchId, strandTenths: skein + 1 } }
    expect(await problem(promise, tooMuch)).toMatchObject({ status: 409 })
    expect(await problem(promise, { ...tooMuch, parts: { projectId: 'nobody' } })).toMatchObject({ status: 404 })

    await move({ kind: 'correct', batchId, wholePutUps: 0, part: '2 m', reason: 'lost' })
    const named = await answer(listBrokenPromisesOperation, broken)
    expect(named.promises).toMatchObject([
      { projectId, batchId, promisedStrandTenths: skein, supportedStrandTenths: 2 * metre, why: 'not-enough' },
    ])
    expect((await stock()).broken).toEqual(named.promises)
    const mended = await answer(promiseAgainOperation, again, { parts, body: {} })
    expect(mended.short).toMatchObject([{ thread: { threadId: grey }, shortStrandTenths: 2 * metre }])
    expect((await answer(listBrokenPromisesOperation, broken)).promises).toEqual([])

    await receive({ threadId: slate })
    const swapped = await answer(setProjectSwapOperation, swap, {
      parts,
      body: { threadId: grey, standInThreadId: slate, reason: 'by daylight' },
    })
    expect(swapped).toMatchObject({ promised: [{ thread: { threadId: slate }, strandTenths: 4 * metre }], short: [] })
    expect(await stock()).toMatchObject({
      needs: [{ thread: { threadId: slate }, insteadOf: [{ threadId: grey }] }],
      swaps: [{ thread: { threadId: grey }, standIn: { threadId: slate }, reason: 'by daylight' }],
    })
    const itself = { parts, body: { threadId: grey, standInThreadId: grey } }
    expect((await problem(swap, itself)).detail).toContain('cannot stand in for itself')
  })
})
