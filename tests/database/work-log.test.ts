import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest'
import { planningOperations } from '#api/planning'
import { setProjectDeadlineOperation } from '#api/projects'
import { workOperations } from '#api/work'
import { listUploads } from '#lib/db/backup/list-uploads'
import { newId } from '#lib/db/new-id'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { saveTimeAway } from '#lib/db/planning/days/save-time-away'
import { joinRotation } from '#lib/db/planning/pace/join-rotation'
import { moveInRotation } from '#lib/db/planning/pace/move-in-rotation'
import { readPace } from '#lib/db/planning/pace/read-pace'
import { readRotation } from '#lib/db/planning/pace/rotation'
import { readWorksBegun } from '#lib/db/planning/pace/works-begun'
import { editProject } from '#lib/db/project/edit-project'
import { findProject } from '#lib/db/project/queries'
import { changeWork } from '#lib/db/work/change-work'
import { dropTimer } from '#lib/db/work/drop-timer'
import { type LogWork, logWork } from '#lib/db/work/log-work'
import { findTimer, listWork } from '#lib/db/work/queries'
import { removeWork } from '#lib/db/work/remove-work'
import { restoreWork } from '#lib/db/work/restore-work'
import { readLog } from '#lib/db/work/settle-log'
import { startTimer } from '#lib/db/work/start-timer'
import { notInLog } from '#lib/project/work-log'
import { POST as setDeadline } from '../../app/api/v1/projects/[projectId]/deadline/route'
import { GET as getPace } from '../../app/api/v1/projects/[projectId]/pace/route'
import { POST as removeEntry } from '../../app/api/v1/projects/[projectId]/work/[entryId]/remove/route'
import { POST as restoreEntry } from '../../app/api/v1/projects/[projectId]/work/[entryId]/restore/route'
import { POST as changeEntry } from '../../app/api/v1/projects/[projectId]/work/[entryId]/route'
import { GET as listEntries, POST as logEntry } from '../../app/api/v1/projects/[projectId]/work/route'
import { GET as getRotation } from '../../app/api/v1/rotation/route'
import { POST as saveSettings } from '../../app/api/v1/settings/planning/route'
import { GET as timesAway } from '../../app/api/v1/times-away/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, hanneDrewitt } from './things'

const today = '2026-11-30'

describeOnEachEngine('the log of a project', ({ open }) => {
  const owner = hanneDrewitt()
  let folder = ''
  const before = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-work-'))
    process.env.LARDER_DATA = folder
    await open().prisma.owner.create({ data: owner })
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })
  beforeEach(async () => {
    await open().prisma.project.updateMany({ data: { goneAt: new Date() } })
    await open().prisma.timeAway.deleteMany()
  })

  /** A project of a design 100 by 50, all of it stitched: 5,000 stitches, though its key counts none. */
  async function addProject(over: object = {}): Promise<string> {
    const [designId, id] = [newId(), newId()]
    await addCharted(open(), { ownerId: owner.id, title: `Geese over Tarnbeck ${designId}`, designId })
    await open().prisma.design.update({
      where: { id: designId },
      data: { widthStitches: 100, heightStitches: 50, coverKind: 'full' },
    })
    const data = { id, designId, ownerId: owner.id, status: 'stitching', startedOn: '2026-05-02', ...over }
    await open().prisma.project.create({ data })
    return id
  }

  const nothing = { day: today, today, stitches: 0, minutes: 0, donePerMille: null, note: null }
  const log = async (projectId: string, said: Partial<LogWork>) =>
    granted(await logWork({ projectId, ...nothing, ...said })).entryId
  const totals = async (projectId: string) => {
    const found = await findProject(projectId)
    return [found?.stitchesDone, found?.hoursTenths]
  }

  it('adds to the totals that were there, and takes off what is removed until it is put back', async () => {
    const id = await addProject({ stitchesDone: 3_000, hoursTenths: 315 })
    const first = await log(id, { stitches: 300, minutes: 90 })
    await log(id, { isTick: true })
    expect(await totals(id)).toEqual([3_300, 330])
    granted(await changeWork({ entryId: first, version: 0, ...nothing, stitches: 250, minutes: 60 }))
    expect(await totals(id)).toEqual([3_250, 325])
    expect(await changeWork({ entryId: first, version: 0, ...nothing })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
    granted(await removeWork({ entryId: first }))
    expect(await totals(id)).toEqual([3_000, 315])
    expect(await removeWork({ entryId: first })).toMatchObject({ ok: false, error: { kind: 'no-such-entry' } })
    granted(await restoreWork({ entryId: first }))
    expect(await totals(id)).toEqual([3_250, 325])
    expect((await listWork(id, { offset: 0, limit: 9 })).total).toBe(2)
  })

  it('keeps a total that was typed, and says no to what says nothing, says two things or has not come', async () => {
    const id = await addProject()
    await log(id, { stitches: 500 })
    const details = {
      threadListId: null,
      clothPieceId: null,
      over: null,
      quantity: 1,
      forWhom: null,
      dueOn: null,
      finishing: null,
    }
    granted(await editProject({ projectId: id, ...details, note: null, hoursTenths: 40, stitchesDone: 450, finishingWeeks: 2 }))
    await log(id, { stitches: 50 })
    expect(await totals(id)).toEqual([500, 40])
    const refusal = async (said: Partial<LogWork>) => {
      const done = await logWork({ projectId: id, ...nothing, ...said })
      return done.ok ? null : done.error.kind
    }
    expect(await refusal({})).toBe('nothing-logged')
    expect(await refusal({ stitches: 10, donePerMille: 20 })).toBe('stitches-and-percent')
    expect(await refusal({ stitches: 10, day: '2026-12-01' })).toBe('not-yet')
    expect(await refusal({ stitches: -501 })).toBe('below-nothing')
    expect(await totals(id)).toEqual([500, 40])
  })

  it('conserves what no entry accounts for, whatever is logged, changed and removed by two at once', async () => {
    const id = await addProject({ stitchesDone: 700, hoursTenths: 123 })
    let seed = 20261130
    const draw = (most: number) => {
      seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648
      return seed % most
    }
    for (let turn = 0; turn < 14; turn++) {
      const entries = await readLog(open().prisma, id)
      const said = { ...nothing, day: `2026-11-${10 + draw(20)}`, stitches: draw(300), minutes: draw(200) }
      const one = entries[draw(Math.max(1, entries.length))]
      const does = draw(4)
      const percent = { ...said, stitches: 0, donePerMille: 200 + draw(800) }
      if (!one || does < 2) {
        const both = [
          logWork({ projectId: id, ...said, isTick: true }),
          logWork({ projectId: id, ...(does === 0 ? percent : said), isTick: true }),
        ]
        for (const done of await Promise.all(both)) granted(done)
      } else if (does === 2) granted(await changeWork({ entryId: one.id, ...said }))
      else granted(await removeWork({ entryId: one.id }))
      const found = await findProject(id)
      const now = { stitchesDone: found?.stitchesDone ?? -1, hoursTenths: found?.hoursTenths ?? -1 }
      expect(notInLog(now, await readLog(open().prisma, id))).toEqual({ stitchesDone: 700, hoursTenths: 123 })
    }
  }, 60_000)

  it('goes by a percentage of the stitches her size and cover make, and by nothing but it where they are not known', async () => {
    const id = await addProject()
    await log(id, { donePerMille: 250 })
    // A quarter of 100 × 50.
    expect(await totals(id)).toEqual([1_250, 0])
    expect(await readPace(id, { today })).toMatchObject({
      unit: 'stitches',
      done: 1_250,
      left: 3_750,
      total: { how: 'estimated' },
    })
    await open().prisma.design.updateMany({ data: { coverKind: null } })
    const other = await addProject()
    await open().prisma.design.updateMany({ data: { coverKind: null } })
    await log(other, { donePerMille: 100, day: '2026-11-16' })
    await log(other, { donePerMille: 175, day: '2026-11-23' })
    // 10 and 7.5 per cent in two whole weeks: 8.75 a week for 82.5.
    const pace = await readPace(other, { today })
    expect(pace).toMatchObject({ unit: 'per-mille', done: 175, left: 825, total: null })
    expect(pace?.outlooks[0]).toMatchObject({ kind: 'stitched-weeks', pace: { amount: 175, weeks: 2 }, weeks: 10 })
    expect(await totals(other)).toEqual([0, 0])
  })

  it('begins what was not begun, takes up what rests when it is today’s, and never says that it is stitched', async () => {
    const kitted = await addProject({ status: 'kitted', startedOn: null })
    await log(kitted, { stitches: 5_000, day: '2026-11-02' })
    expect(await findProject(kitted)).toMatchObject({ status: 'stitching', startedOn: '2026-11-02', stitchesDone: 5_000 })
    const resting = await addProject({ status: 'resting' })
    await log(resting, { stitches: 5, day: '2026-04-30' })
    expect(await findProject(resting)).toMatchObject({ status: 'resting', startedOn: '2026-04-30' })
    await log(resting, { isTick: true })
    expect((await findProject(resting))?.status).toBe('stitching')
    const given = await addProject({ status: 'abandoned' })
    expect(await logWork({ projectId: given, ...nothing, isTick: true })).toEqual({ ok: false, error: { kind: 'given-up' } })
  })

  it('keeps a timer till it is stopped: once, to the minute, and not when it was forgotten', async () => {
    const id = await addProject()
    const { startedAt } = granted(await startTimer({ projectId: id }))
    expect(granted(await startTimer({ projectId: id })).startedAt).toEqual(startedAt)
    const after = (minutes: number) => new Date(startedAt.getTime() + minutes * 60_000)
    const stop = (minutes: number | null, now: Date) =>
      logWork({ projectId: id, ...nothing, stitches: 80, minutes, stopsTimer: true, now })
    expect(await stop(null, after(721))).toEqual({ ok: false, error: { kind: 'timer-too-long', minutes: 721 } })
    expect(await findTimer(id)).toEqual(startedAt)
    granted(await stop(null, after(42)))
    expect((await listWork(id, { offset: 0, limit: 1 })).entries[0]).toMatchObject({ minutes: 42, stitches: 80 })
    expect(await totals(id)).toEqual([80, 7])
    expect(await stop(null, after(43))).toEqual({ ok: false, error: { kind: 'no-timer' } })
    granted(await startTimer({ projectId: id }))
    granted(await dropTimer({ projectId: id }))
    expect(await findTimer(id)).toBeNull()
    expect(await totals(id)).toEqual([80, 7])
  })

  it('keeps a photo of how it looked, which a backup takes along', async () => {
    const id = await addProject()
    const photo = granted(
      await preparePhoto(
        await sharp({ create: { width: 40, height: 30, channels: 3, background: '#8e2f2b' } })
          .png()
          .toBuffer(),
      ),
    )
    await log(id, { note: 'The first goose', photo, isTick: true })
    const [entry] = (await listWork(id, { offset: 0, limit: 1 })).entries
    expect((await listUploads()).map(({ name }) => name)).toContain(entry?.photoFile)
  })

  it('reckons A7 from the log, with a week away and the framer’s four', async () => {
    const id = await addProject({ dueOn: '2026-12-01', stitchesDone: 0 })
    await open().prisma.design.updateMany({ data: { widthStitches: 161, heightStitches: 70, coverKind: 'full' } })
    granted(await saveTimeAway({ ownerId: owner.id, fromOn: '2026-08-24', toOn: '2026-08-30', what: null }))
    const monday = '2026-09-07'
    const other = await addProject()
    for (const [day, stitches] of [
      ['2026-08-12', 2_450],
      ['2026-08-20', 2_120],
      ['2026-09-05', 2_330],
    ] as const)
      await log(other, { day, stitches })
    // 161 × 70 are 11,270; nothing of it is stitched, so the pace is that of her other work.
    const pace = await readPace(id, { today: monday, perWeek: 2_000 })
    expect(pace).toMatchObject({ left: 11_270, source: 'owner' })
    expect(pace?.outlooks.map(({ kind, due }) => [kind, due?.startBy])).toEqual([
      ['stitched-weeks', '2026-09-22'],
      ['all-weeks', '2026-09-08'],
      ['said', '2026-09-15'],
    ])
  })

  it('says what is next in the rotation, and what was long not touched', async () => {
    const [geese, larch, map] = [
      await addProject(),
      await addProject({ startedOn: '2026-10-01' }),
      await addProject({ status: 'resting', startedOn: '2023-02-18' }),
    ]
    for (const projectId of [geese, larch, map]) granted(await joinRotation({ projectId }))
    for (let day = 10; day < 20; day++) await log(geese, { day: `2026-11-${day}`, isTick: true })
    const rotation = await readRotation([owner.id], today)
    expect(rotation.members.map(({ projectId }) => projectId)).toEqual([geese, larch, map])
    expect(rotation.next).toEqual({ kind: 'turn', projectId: larch, after: { projectId: geese, done: 10, of: 10 } })
    granted(await moveInRotation({ projectId: map, to: 'earlier' }))
    expect((await readRotation([owner.id], today)).next).toMatchObject({ projectId: map })
    const begun = await readWorksBegun([owner.id], today)
    expect(begun.works).toHaveLength(3)
    // From 18 February 2023: 1,381 days to 30 November 2026.
    expect(begun.untouched.map(({ work, days }) => [work.id, days])).toEqual([[map, 1_381]])
  })

  it('does all that over the API', async () => {
    const projectId = await addProject({ stitchesDone: 100 })
    const parts = { projectId }
    await answer(workOperations.log, logEntry, { parts, body: { stitches: 310, minutes: 150, day: '2026-09-08' } })
    expect(await problem(logEntry, { parts, body: {} })).toMatchObject({ status: 409 })
    const seen = await answer(workOperations.list, listEntries, { parts })
    expect(seen).toMatchObject({ total: 1, stitchesDone: 410, hoursTenths: 25, notInLog: { stitches: 100, hoursTenths: 0 } })
    const entry = { ...parts, entryId: seen.entries[0]?.entryId as string }
    const changed = await answer(workOperations.change, changeEntry, { parts: entry, body: { stitches: 200 } })
    expect(changed).toMatchObject({ stitchesDone: 300, hoursTenths: 25 })
    expect(await answer(workOperations.remove, removeEntry, { parts: entry, body: {} })).toMatchObject({
      total: 0,
      stitchesDone: 100,
    })
    expect(await answer(workOperations.restore, restoreEntry, { parts: entry, body: {} })).toMatchObject({
      total: 1,
      stitchesDone: 300,
    })
    expect(await problem(removeEntry, { parts: { ...entry, projectId: 'other' }, body: {} })).toMatchObject({ status: 404 })
    expect(await answer(planningOperations.pace, getPace, { parts })).toMatchObject({ total: 5_000, totalHow: 'estimated' })
    expect((await answer(planningOperations.rotation, getRotation)).next.kind).toBe('empty')
    expect(await answer(planningOperations.timesAway, timesAway)).toEqual({ timesAway: [] })
    const deadline = { parts, body: { dueOn: '2027-03-01', finishingWeeks: 6 } }
    expect(await answer(setProjectDeadlineOperation, setDeadline, deadline)).toMatchObject({ finishingWeeks: 6 })
    const due = (await answer(planningOperations.pace, getPace, { parts })).deadline
    expect(due).toEqual({ dueOn: '2027-03-01', finishingWeeks: 6, bufferWeeks: 1 })
    const planned = await answer(planningOperations.saveSettings, saveSettings, { body: { rotation: { by: 'hours' } } })
    expect(planned.rotation).toEqual({ by: 'hours', days: 10, hours: 10, stitches: 500 })
    await answer(planningOperations.saveSettings, saveSettings, { body: { rotation: { by: 'days' } } })
  })
})

describeOnEachEngine('what the database itself refuses of a log', ({ open }) => {
  it('refuses time below nothing, a share over all of it, an end before its beginning', async () => {
    const { prisma } = open()
    const owner = hanneDrewitt()
    await prisma.owner.create({ data: owner })
    const designId = newId()
    await addCharted(open(), { ownerId: owner.id, title: 'Rook Hill in Snow', designId })
    const project = await prisma.project.create({ data: { id: newId(), designId, ownerId: owner.id } })
    const entry = { projectId: project.id, day: '2026-11-30', at: new Date() }
    const add = (over: object) => prisma.workEntry.create({ data: { id: newId(), ...entry, ...over } })
    await expect(add({ minutes: -1 })).rejects.toThrow()
    await expect(add({ donePerMille: 1_001 })).rejects.toThrow()
    await expect(add({ day: '30.11.2026' })).rejects.toThrow()
    await expect(add({ stitches: -40 })).resolves.toMatchObject({ minutes: 0 })
    const away = { id: newId(), ownerId: owner.id, fromOn: '2026-12-24', toOn: '2026-12-23' }
    await expect(prisma.timeAway.create({ data: away })).rejects.toThrow()
    await expect(prisma.rotationTurn.create({ data: { projectId: project.id, position: 0, weekdays: 128 } })).rejects.toThrow()
    await expect(prisma.project.update({ where: { id: project.id }, data: { finishingWeeks: -1 } })).rejects.toThrow()
    await prisma.workTimer.create({ data: { projectId: project.id, startedAt: new Date() } })
    await expect(prisma.workTimer.create({ data: { projectId: project.id, startedAt: new Date() } })).rejects.toThrow()
  })
})
