import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import * as checks from '#api/checks'
import { checkEnded } from '#lib/db/checking/check-jobs'
import { POST as repair } from '../../app/api/v1/checks/[jobId]/repairs/route'
import { GET as getCheck } from '../../app/api/v1/checks/[jobId]/route'
import { POST as stop } from '../../app/api/v1/checks/[jobId]/stop/route'
import { POST as start } from '../../app/api/v1/checks/route'
import { POST as removeAside } from '../../app/api/v1/set-aside/[day]/remove/route'
import { GET as listAside } from '../../app/api/v1/set-aside/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addSmallWorld } from './small-world'

describeOnEachEngine('the check through the API', ({ open }) => {
  let folder = ''
  const before = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-api-check-'))
    process.env.LARDER_DATA = folder
    await addSmallWorld(open())
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  it('is begun, looked at, stopped, and what it found set right', async () => {
    const { prisma } = open()
    const [batch, other] = await prisma.batch.findMany({ orderBy: { id: 'asc' }, take: 2 })
    for (const id of [batch?.id as string, other?.id as string])
      await prisma.batch.update({ where: { id }, data: { wholePutUps: { increment: 2 } } })
    const left = path.join(folder, 'uploads', 'photos', 'left behind.txt')
    mkdirSync(path.dirname(left), { recursive: true })
    writeFileSync(left, 'left')
    utimesSync(left, 0, 0)

    const begun = await answer(checks.startCheckOperation, start)
    expect(begun).toMatchObject({ state: 'running', verdict: null, faults: [] })
    expect(await problem(start, {})).toMatchObject({ status: 409 })
    const parts = { jobId: begun.jobId }
    await checkEnded(begun.jobId)
    const found = await answer(checks.getCheckOperation, getCheck, { parts })
    expect(found).toMatchObject({
      ...{ state: 'ended', isSound: false, isWhole: true },
      verdict: 'Found 2 things that must not be and 1 thing worth a look',
      counts: [
        { kind: 'stock-differs', count: 2 },
        { kind: 'file-unnamed', count: 1 },
      ],
    })
    const [first] = found.faults
    expect(first?.page).toBe(`/threads/${[batch, other].find((row) => row?.id === first?.nounId)?.threadId}`)
    expect(first?.repairs.map((offered) => offered.repair)).toEqual(['trust-record', 'trust-journal'])

    const body = { repair: 'trust-journal', faultId: first?.faultId }
    expect(await answer(checks.repairFaultOperation, repair, { parts, body })).toMatchObject({
      outcomes: [{ faultId: first?.faultId, outcome: { isDone: true } }],
    })
    expect(await answer(checks.repairFaultOperation, repair, { parts, body })).toMatchObject({
      outcomes: [{ outcome: { isDone: false, detail: expect.stringContaining('nothing was changed') } }],
    })
    const rest = { repair: 'trust-record', kind: 'stock-differs' }
    expect((await answer(checks.repairFaultOperation, repair, { parts, body: rest })).outcomes).toHaveLength(1)
    await answer(checks.repairFaultOperation, repair, { parts, body: { repair: 'set-aside', kind: 'file-unnamed' } })
    expect(await problem(repair, { parts, body: { repair: 'forget', faultId: 'nothing' } })).toMatchObject({ status: 404 })
    expect(await problem(repair, { parts, body: { repair: 'mend' } })).toMatchObject({ status: 422 })

    const again = await answer(checks.startCheckOperation, start)
    await checkEnded(again.jobId)
    const stopped = await answer(checks.stopCheckOperation, stop, { parts: { jobId: again.jobId } })
    expect(stopped).toMatchObject({ state: 'ended', isSound: true, faults: [] })
    expect(await problem(getCheck, { parts })).toMatchObject({ status: 404 })
  })

  it('lists what was set aside, and removes it', async () => {
    const { days } = await answer(checks.listSetAsideOperation, listAside)
    expect(days).toMatchObject([{ files: 1, bytes: 4 }])
    const parts = { day: days[0]?.day as string }
    expect(await answer(checks.removeSetAsideOperation, removeAside, { parts })).toEqual({ removed: parts.day })
    expect(await problem(removeAside, { parts })).toMatchObject({ status: 404 })
    expect(await problem(removeAside, { parts: { day: '../photos' } })).toMatchObject({ status: 404 })
  })
})
