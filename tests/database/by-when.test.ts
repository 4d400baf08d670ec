import ICAL from 'ical.js'
import { beforeAll, beforeEach, expect, it } from 'vitest'
import { calendarOperations } from '#api/calendar'
import { occasionOperations } from '#api/occasions'
import { setProjectDeadlineOperation } from '#api/projects'
import { partOperations } from '#api/stitch-along-parts'
import { newId } from '#lib/db/new-id'
import { findFeedOwner, findFeedToken, removeFeedToken, renewFeedToken } from '#lib/db/planning/days/calendar-feed'
import { movePart } from '#lib/db/planning/days/move-part'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { listParts } from '#lib/db/planning/days/parts'
import { readCalendar, readPlanClashes } from '#lib/db/planning/days/read-calendar'
import { removeOccasion } from '#lib/db/planning/days/remove-occasion'
import { removePart } from '#lib/db/planning/days/remove-part'
import { saveOccasion } from '#lib/db/planning/days/save-occasion'
import { makeParts, savePart } from '#lib/db/planning/days/save-part'
import { tickPart } from '#lib/db/planning/days/tick-part'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { editProject } from '#lib/db/project/edit-project'
import { findProject } from '#lib/db/project/queries'
import { GET as getFile } from '../../app/api/v1/calendar/file/route'
import { GET as getCalendar } from '../../app/api/v1/calendar/route'
import { POST as addOccasion, GET as listOccasions } from '../../app/api/v1/occasions/route'
import { POST as setDeadline } from '../../app/api/v1/projects/[projectId]/deadline/route'
import { POST as tick } from '../../app/api/v1/projects/[projectId]/parts/[partId]/tick/route'
import { GET as getParts } from '../../app/api/v1/projects/[projectId]/parts/route'
import { GET as getSchedule } from '../../app/api/v1/schedule/route'
import { GET as feed } from '../../app/calendar/feed/[file]/route'
import { mayFetch } from '../../app/calendar/feed/may-fetch'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, aPlace, hanneDrewitt, theShop } from './things'

const today = '2026-08-04'

describeOnEachEngine('by when', ({ open }) => {
  const [owner, shop] = [hanneDrewitt(), theShop()]
  const ines = newId()

  beforeAll(async () => {
    await open().prisma.owner.createMany({ data: [owner, shop] })
    await open().prisma.place.create({ data: aPlace(ines, 'Ines Coldwell', 'person') })
  })
  beforeEach(async () => {
    const { prisma } = open()
    await prisma.project.updateMany({ data: { goneAt: new Date() } })
    await prisma.occasion.deleteMany()
    await prisma.setting.deleteMany()
    await prisma.timeAway.deleteMany()
  })

  /** A project of a design 161 by 70, all of it stitched: the 11,270 stitches of A7. */
  async function addProject(title: string, over: object = {}) {
    const [designId, chartId, id] = [newId(), newId(), newId()]
    await addCharted(open(), { ownerId: owner.id, title, chartId, designId })
    await open().prisma.design.update({
      where: { id: designId },
      data: { widthStitches: 161, heightStitches: 70, coverKind: 'full' },
    })
    await open().prisma.project.create({ data: { id, designId, ownerId: owner.id, status: 'planned', ...over } })
    return { id, chartId, designId }
  }

  /** The log of A7, on another work: 2,450, 2,120, nothing, 2,330 in the four weeks before 3 August 2026, a Monday. */
  async function logA7() {
    const { id } = await addProject('Nine Wrens', { status: 'stitching', startedOn: '2026-07-06' })
    const weeks = [
      ['2026-07-06', 2_450],
      ['2026-07-13', 2_120],
      ['2026-07-27', 2_330],
    ] as const
    await open().prisma.workEntry.createMany({
      data: weeks.map(([day, stitches]) => ({ id: newId(), projectId: id, day, stitches, minutes: 60, at: new Date() })),
    })
    await open().prisma.project.update({ where: { id }, data: { status: 'finished', finishedOn: '2026-08-01' } })
  }

  const world = () => readOccasionWorld([owner.id])
  const details = { threadListId: null, clothPieceId: null, over: null, quantity: 1, forWhom: null, finishing: null, note: null }
  const edit = (projectId: string, occasionKey: string | null, dueOn: string | null) =>
    editProject({ projectId, ...details, dueOn, hoursTenths: 0, stitchesDone: 0, forOccasion: { occasionKey, today } })

  it('sets a project’s day by an occasion, and lets days of one’s own move it along', async () => {
    const { id } = await addProject('Bees for Bettony')
    granted(await edit(id, 'christmas', null))
    expect(await findProject(id)).toMatchObject({ occasionKey: 'christmas', dueOn: '2026-12-25' })
    const own = granted(await saveOccasion({ ownerId: owner.id, name: 'Guild fair', rule: 'Last  Saturday of 9', today }))
    granted(await edit(id, own.id, '2026-12-25'))
    expect(await findProject(id)).toMatchObject({ occasionKey: own.id, dueOn: '2026-09-26' })

    // The fair moves to the first Saturday of October, and the project with it; a day set by hand stays.
    const byHand = await addProject('Acorn Reckoner', { occasionKey: own.id, dueOn: '2026-09-20' })
    const said = { id: own.id, name: 'Guild fair', rule: 'first saturday of 10', today }
    expect(granted(await saveOccasion({ ...said, version: 0 }))).toEqual({ id: own.id, moved: 1 })
    expect(await findProject(id)).toMatchObject({ dueOn: '2026-10-03' })
    expect(await findProject(byHand.id)).toMatchObject({ dueOn: '2026-09-20' })
    expect(await saveOccasion({ ...said, version: 0 })).toMatchObject({ ok: false, error: { kind: 'changed-meanwhile' } })

    // Kept no longer, it leaves the day.
    expect(granted(await removeOccasion(own.id))).toEqual({ projects: 2 })
    expect(await findProject(id)).toMatchObject({ occasionKey: null, dueOn: '2026-10-03' })
    expect(await edit(id, own.id, null)).toMatchObject({ ok: false, error: { kind: 'no-such-occasion' } })
    expect(await removeOccasion(own.id)).toMatchObject({ ok: false, error: { kind: 'no-such-occasion' } })
  })

  it('refuses an occasion that is no day, nobody’s, or there already; another owner may have one of the name', async () => {
    const said = { name: 'Guild fair', rule: '09-25', today }
    granted(await saveOccasion({ ...said, ownerId: owner.id }))
    const kind = async (over: Partial<typeof said> & { ownerId: string }) => {
      const done = await saveOccasion({ ...said, ...over })
      return done.ok ? null : done.error.kind
    }
    expect(await kind({ ownerId: owner.id, name: ' GUILD  fair ' })).toBe('name-taken')
    expect(await kind({ ownerId: owner.id, name: 'Other', rule: '02-30' })).toBe('no-rule')
    expect(await kind({ ownerId: newId() })).toBe('no-such-owner')
    expect(await kind({ ownerId: shop.id })).toBeNull()
    expect((await world()).own.map(({ name }) => name)).toEqual(['Guild fair'])
  })

  it('A7: the start-by dates of both paces, from the log of all her works', async () => {
    await logA7()
    await open().prisma.timeAway.create({ data: { id: newId(), ownerId: owner.id, fromOn: '2026-07-20', toOn: '2026-07-26' } })
    const { id } = await addProject('Geese over Tarnbeck', { dueOn: '2026-12-01' })
    const [schedule] = await readSchedules([owner.id], { today })
    const at = schedule?.atPaces.get(id) ?? []
    expect(at.map(({ kind, outlook }) => [kind, outlook?.due?.startBy])).toEqual([
      ['stitched-weeks', '2026-09-22'],
      ['all-weeks', '2026-09-08'],
    ])
    expect(at.map(({ latestStart }) => latestStart)).toEqual(['2026-09-22', '2026-09-08'])
    // Another of 4,600 for the same day takes two weeks of the same person: see tests/published/scenario-a7.test.ts.
    const other = await addProject('Orchard Gate', { dueOn: '2026-12-01', stitchesDone: 11_270 - 4_600 })
    const [both] = await readSchedules([owner.id], { today })
    // Begun today, both are stitched after the seven weeks to 22 September, 35 days before the 27th of October.
    expect(both?.atPaces.get(id)?.[0]?.latestStart).toBe('2026-09-08')
    expect(both?.atPaces.get(other.id)?.[0]).toMatchObject({ latestStart: '2026-10-13', daysLate: -35 })
    // Another owner has neither her works nor her pace; kits to be sold have no share.
    await open().prisma.project.update({ where: { id: other.id }, data: { quantity: 13, spares: 1 } })
    const again = await readSchedules([owner.id, shop.id], { today, perWeek: 2_000 })
    expect(again.find(({ owner: of }) => of.id === shop.id)?.works).toEqual([])
    expect(again.find(({ owner: of }) => of.id === owner.id)?.works.map(({ id: one }) => one)).toEqual([id])
    expect(again.find(({ owner: of }) => of.id === owner.id)?.paces.map(({ kind }) => kind)).toContain('said')
    const answered = await answer(calendarOperations.schedule, getSchedule, { path: `schedule?owner=${owner.id}` })
    expect(answered.schedules[0]?.works.map(({ title }) => title)).toEqual(['Geese over Tarnbeck'])
  })

  it('A15: a booklet lent over a plan clashes, and stands on its day', async () => {
    const { id, chartId } = await addProject('Alphabet four', { plannedOn: '2026-04-20' })
    const { prisma } = open()
    const loanId = newId()
    await prisma.loan.create({
      data: {
        id: loanId,
        kind: 'lend',
        placeId: ines,
        ownerId: owner.id,
        reason: 'to read',
        fromOn: '2026-03-03',
        dueOn: '2026-04-28',
      },
    })
    await prisma.loanLine.create({ data: { id: newId(), loanId, position: 0, chartId } })
    await prisma.chart.update({ where: { id: chartId }, data: { currentPlaceId: ines } })
    const asked = '2026-03-10'
    const schedules = await readSchedules([owner.id], { today: asked })
    expect(await readPlanClashes(schedules, asked)).toMatchObject([
      { projectId: id, placeLabel: 'Ines Coldwell', clash: { fromOn: '2026-04-20', untilOn: '2026-04-28', days: 9 } },
    ])
    const span = { fromOn: '2026-04-01', toOn: '2026-04-30' }
    const events = await readCalendar({ ownerIds: [owner.id], schedules, world: await world(), ...span, today: asked })
    const mine = events.filter(({ kind }) => kind !== 'occasion').map(({ kind, on }) => [on, kind])
    expect(mine).toEqual([
      ['2026-04-20', 'clash'],
      ['2026-04-20', 'planned'],
      ['2026-04-28', 'loan'],
    ])
    await prisma.loan.update({ where: { id: loanId }, data: { closedOn: '2026-04-01' } })
    expect(await readPlanClashes(schedules, asked)).toEqual([])
  })

  it('keeps a stitch-along’s parts: added, made by a rule, ticked, moved, taken out', async () => {
    const { id: projectId } = await addProject('Thimble Almanac')
    const first = granted(
      await savePart({ projectId, name: 'Border', comesOn: '2026-08-01', dueOn: '2026-08-31', stitches: 700 }),
    )
    granted(
      await makeParts({
        ...{ projectId, name: 'Part', dueAfterDays: 30, stitches: null },
        rule: { kind: 'monthly', day: 1, from: '2026-09-01', count: 2 },
      }),
    )
    const names = async () => (await listParts(projectId)).map(({ name }) => name)
    expect(await names()).toEqual(['Border', 'Part 2', 'Part 3'])
    expect((await listParts(projectId))[2]).toMatchObject({ comesOn: '2026-10-01', dueOn: '2026-10-31', stitches: null })
    granted(await movePart({ id: first.id, to: 'later' }))
    expect(await names()).toEqual(['Part 2', 'Border', 'Part 3'])
    granted(await movePart({ id: first.id, to: 'later' }))
    granted(await movePart({ id: first.id, to: 'later' }))
    expect(await names()).toEqual(['Part 2', 'Part 3', 'Border'])

    const due = { name: 'Border', comesOn: '2026-08-01', dueOn: '2026-07-31', stitches: 700 }
    expect(await savePart({ projectId, ...due })).toMatchObject({ error: { kind: 'due-before-out' } })
    expect(await savePart({ id: first.id, version: 0, ...due, dueOn: null })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    expect(await tickPart({ id: first.id, doneOn: '2026-08-05', today })).toMatchObject({ error: { kind: 'not-yet' } })
    granted(await tickPart({ id: first.id, doneOn: today, today }))
    // A part that is done asks nothing of the weeks any more.
    const [schedule] = await readSchedules([owner.id], { today })
    expect(schedule?.works[0]?.parts.map(({ name }) => name)).toEqual(['Part 2', 'Part 3'])
    const parts = { projectId, partId: first.id }
    await answer(partOperations.tickPart, tick, { parts, body: { doneOn: null } })
    expect((await answer(partOperations.parts, getParts, { parts: { projectId } })).parts).toHaveLength(3)
    expect(await problem(tick, { parts: { projectId: newId(), partId: first.id }, body: { doneOn: null } })).toMatchObject({
      status: 404,
    })
    granted(await removePart(first.id))
    expect(await names()).toEqual(['Part 2', 'Part 3'])
    expect(await removePart(first.id)).toMatchObject({ error: { kind: 'no-such-part' } })
  })

  it('serves one owner’s calendar at an address that can be renewed and turned off', async () => {
    const { id } = await addProject('Winter Post; for, everyone', {
      dueOn: '2026-12-25',
      occasionKey: 'christmas',
      forWhom: 'Ines Coldwell',
    })
    const others = newId()
    await addCharted(open(), { ownerId: shop.id, title: 'Not hers', designId: others })
    await open().prisma.project.create({
      data: { id: newId(), designId: others, ownerId: shop.id, status: 'planned', dueOn: '2026-12-20' },
    })
    expect(await findFeedToken(owner.id)).toBeNull()
    const { token } = granted(await renewFeedToken(owner.id))
    expect(token).toMatch(/^[\w-]{43}$/)
    const fetch = (which: string, headers: Record<string, string> = {}) =>
      feed(new Request(`http://127.0.0.1/calendar/feed/${which}.ics`, { headers }), {
        params: Promise.resolve({ file: `${which}.ics` }),
      })
    const response = await fetch(token)
    expect(response.status).toBe(200)
    expect(response.headers.get('content-type')).toBe('text/calendar; charset=utf-8')
    const text = await response.text()
    const calendar = new ICAL.Component(ICAL.parse(text))
    const events = calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one))
    expect(events.map(({ uid }) => uid)).toContain(`due-${id}@chart-larder`)
    expect(events.find(({ uid }) => uid === `due-${id}@chart-larder`)?.summary).toBe(
      'Winter Post; for, everyone: due, for Christmas',
    )
    expect(events.map(({ summary }) => summary)).toContain('Christmas')
    expect(text).not.toContain('Not hers')
    expect(text).not.toContain('Ines')
    const etag = response.headers.get('etag') ?? ''
    expect((await fetch(token, { 'if-none-match': `W/${etag}` })).status).toBe(304)
    // Any write may change it.
    await tickPart({ id: newId(), doneOn: null, today })
    granted(await savePart({ projectId: id, name: 'Part 1', comesOn: null, dueOn: null, stitches: null }))
    expect((await fetch(token, { 'if-none-match': etag })).status).toBe(200)

    const renewed = granted(await renewFeedToken(owner.id)).token
    expect(renewed).not.toBe(token)
    expect((await fetch(token)).status).toBe(404)
    expect((await findFeedOwner(renewed))?.id).toBe(owner.id)
    for (const wrong of ['', 'x', `${renewed.slice(0, -1)}_`, "' OR 1=1", '../settings'])
      expect((await fetch(wrong)).status).toBe(404)
    // Nobody needs it more than sixty times in a quarter of an hour.
    for (let times = 0; times < 60; times++) mayFetch(renewed, Date.now())
    const tooOften = await fetch(renewed)
    expect(tooOften.status).toBe(429)
    expect(Number(tooOften.headers.get('retry-after'))).toBeGreaterThan(0)
    granted(await removeFeedToken(owner.id))
    expect((await fetch(renewed)).status).toBe(404)
    expect(await renewFeedToken(newId())).toMatchObject({ error: { kind: 'no-such-owner' } })
  })

  it('is asked by the API: occasions, a project’s day, the calendar and its file', async () => {
    const body = { ownerId: owner.id, name: 'Christening', rule: '2099-05-14' }
    const added = await answer(occasionOperations.addOccasion, addOccasion, { body })
    const [own] = added.own
    expect(await problem(addOccasion, { body })).toMatchObject({ status: 409 })
    const listed = await answer(occasionOperations.occasions, listOccasions, { path: `occasions?owner=${owner.id}` })
    expect(listed.occasions[0]).toEqual({ key: own?.occasionId, name: 'Christening', isOwn: true, nextOn: '2099-05-14' })
    const { id } = await addProject('Small Blue Ship')
    const deadline = { parts: { projectId: id }, body: { occasionKey: own?.occasionId } }
    expect(await answer(setProjectDeadlineOperation, setDeadline, deadline)).toMatchObject({
      ...{ occasionKey: own?.occasionId, dueOn: '2099-05-14' },
    })
    expect(await problem(setDeadline, { ...deadline, body: { occasionKey: 'thanksgiving' } })).toMatchObject({ status: 409 })
    const path = `calendar?owner=${owner.id}&from=2099-05-01&to=2099-05-31`
    const { events } = await answer(calendarOperations.calendar, getCalendar, { path })
    expect(events.map(({ summary }) => summary)).toContain('Small Blue Ship: due, for Christening')
    expect(await problem(getCalendar, { path: 'calendar?from=2099-05-31&to=2099-05-01' })).toMatchObject({ status: 400 })
    const file = await answer(calendarOperations.file, getFile, { path: `calendar/file?owner=${owner.id}` })
    expect(ICAL.parse(file.text)[0]).toBe('vcalendar')
  })
})
