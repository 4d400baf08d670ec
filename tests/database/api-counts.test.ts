import { beforeAll, expect, it } from 'vitest'
import {
  decideCountLine,
  dropCountOperation,
  enterCountsOperation,
  finishCountOperation,
  getCountComparison,
  getCountSheet,
  listCountsOperation,
  signCountOperation,
  startCountOperation,
} from '#api/counts'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { GET as comparison } from '../../app/api/v1/counts/[countId]/comparison/route'
import { POST as decide } from '../../app/api/v1/counts/[countId]/decide/route'
import { POST as drop } from '../../app/api/v1/counts/[countId]/drop/route'
import { POST as enter } from '../../app/api/v1/counts/[countId]/enter/route'
import { POST as finish } from '../../app/api/v1/counts/[countId]/finish/route'
import { GET as sheet } from '../../app/api/v1/counts/[countId]/route'
import { POST as sign } from '../../app/api/v1/counts/[countId]/sign/route'
import { GET as list, POST as start } from '../../app/api/v1/counts/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addLarkholm, aPlace, goods, skein, theShop } from './things'

describeOnEachEngine('counts over the API', ({ open }) => {
  const ids = { shop: newId(), line: newId(), drawer: newId(), thread: newId() }
  let batchId = ''
  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: ids.line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.create({ data: { id: ids.thread, lineId: ids.line, code: '0311' } })
    const received = await receiveThread(
      goods({ threadId: ids.thread, ownerId: ids.shop, wholePutUps: 10, homePlaceId: ids.drawer }),
    )
    batchId = granted(received).batchId
  })

  const ines = { by: 'Ines Coldwell' }
  const hanne = { by: 'Hanne Drewitt' }

  it('counts blind, compares, corrects and is signed off', async () => {
    const due = await answer(listCountsOperation, list)
    expect(due).toMatchObject({ total: 0, notCounted: [{ place: { label: 'T2.1' }, due: 1, never: 1 }] })
    const begun = await answer(startCountOperation, start, { body: { placeId: ids.drawer, ...ines } })
    const parts = { countId: begun.countId }
    const [line] = begun.lines
    expect(line).toMatchObject({ thread: { code: '0311' }, counted: null })
    expect(JSON.stringify(await answer(getCountSheet, sheet, { parts }))).not.toContain('expected')
    expect(await problem(comparison, { parts })).toMatchObject({ status: 409, detail: 'It is still being counted.' })

    const lines = [{ lineId: line?.lineId, counted: 8, sawCountedAt: null }]
    const found = [{ placeId: ids.drawer, found: 'Quillwater 12', counted: 1 }]
    const entered = await answer(enterCountsOperation, enter, { parts, body: { ...ines, lines, found } })
    expect(entered).toMatchObject({ written: 1, conflicts: [] })
    const [foundLineId] = entered.foundLineIds
    const other = { ...hanne, lines: [{ lineId: line?.lineId, counted: 9, sawCountedAt: null }] }
    expect(await answer(enterCountsOperation, enter, { parts, body: other })).toMatchObject({
      ...{ written: 0, conflicts: [{ lineId: line?.lineId, counted: 8, countedBy: 'Ines Coldwell' }], entered: [] },
    })

    const compared = await answer(finishCountOperation, finish, { parts, method: 'POST' })
    expect(compared.accuracy).toEqual({ lines: 2, linesCounted: 2, linesRight: 0, expected: 10, counted: 9, grossError: 3 })
    expect(await problem(sign, { parts, body: hanne })).toMatchObject({ detail: '2 lines are not decided yet.' })
    await answer(decideCountLine, decide, {
      parts,
      body: { lineId: line?.lineId, outcome: 'accepted', counted: 8, ...hanne },
    })
    const left = { lineId: foundLineId, outcome: 'left', counted: 1, note: 'Belongs to the counter display.', ...hanne }
    await answer(decideCountLine, decide, { parts, body: left })
    expect(await open().prisma.batch.findUniqueOrThrow({ where: { id: batchId } })).toMatchObject({ wholePutUps: 8 })
    expect(await problem(sign, { parts, body: ines })).toMatchObject({ status: 409 })
    expect(await answer(signCountOperation, sign, { parts, body: hanne })).toMatchObject({
      ...{ status: 'signed', signedBy: 'Hanne Drewitt' },
    })
    expect(await answer(getCountComparison, comparison, { parts })).toMatchObject({ status: 'signed' })
    expect(await problem(drop, { parts, method: 'POST' })).toMatchObject({ detail: 'The count is signed off.' })
    expect(await answer(listCountsOperation, list)).toMatchObject({ total: 1, notCounted: [] })
  })

  it('names what it cannot find, and gives a count up', async () => {
    const parts = { countId: newId() }
    expect(await problem(sheet, { parts })).toMatchObject({ status: 404 })
    expect(await problem(finish, { parts, method: 'POST' })).toMatchObject({ status: 404 })
    expect(await problem(start, { body: { placeId: newId(), ...ines } })).toMatchObject({
      errors: [{ field: '/placeId', message: 'There is no such place.' }],
    })
    const begun = await answer(startCountOperation, start, { body: { placeId: ids.drawer, ...ines } })
    const given = await answer(dropCountOperation, drop, { parts: { countId: begun.countId }, method: 'POST' })
    expect(given).toMatchObject({ status: 'dropped', accuracy: { linesCounted: 0 } })
  })
})
