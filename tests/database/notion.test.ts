import { beforeAll, expect, it } from 'vitest'
import { listMovementsOperation } from '#api/movements'
import { listNotionsOperation, notionOperations } from '#api/notions'
import { getPlace } from '#api/places'
import { getAnswers } from '#lib/db/answers/get-answers'
import { bringIn } from '#lib/db/importing/bring-in'
import { stageFile } from '#lib/db/importing/stage-file'
import { undoImport } from '#lib/db/importing/undo-import'
import { newId } from '#lib/db/new-id'
import { addNotion } from '#lib/db/notion/add-notion'
import { countNotion } from '#lib/db/notion/count-notion'
import { editNotion } from '#lib/db/notion/edit-notion'
import { moveNotion } from '#lib/db/notion/move-notion'
import { putBackNotion } from '#lib/db/notion/put-back-notion'
import { findNotion, listNotions, listNotionsUsedBy, listProjectsFor } from '#lib/db/notion/queries'
import { removeNotion } from '#lib/db/notion/remove-notion'
import { restoreNotion } from '#lib/db/notion/restore-notion'
import { takeNotion } from '#lib/db/notion/take-notion'
import { findPlaceContents } from '#lib/db/place/contents'
import { listOut } from '#lib/db/place/list-out'
import { countInPlaces } from '#lib/db/place/place-counts'
import { listPlaces } from '#lib/db/place/queries'
import { removePlace } from '#lib/db/place/remove-place'
import { changeBag } from '#lib/db/project/change-bag'
import type { NotionCard } from '#lib/notion/notion'
import { GET as movements } from '../../app/api/v1/movements/route'
import { POST as count } from '../../app/api/v1/notions/[notionId]/count/route'
import { POST as move } from '../../app/api/v1/notions/[notionId]/move/route'
import { POST as putBack } from '../../app/api/v1/notions/[notionId]/put-back/route'
import { POST as remove } from '../../app/api/v1/notions/[notionId]/remove/route'
import { POST as restore } from '../../app/api/v1/notions/[notionId]/restore/route'
import { POST as change, GET as get } from '../../app/api/v1/notions/[notionId]/route'
import { POST as take } from '../../app/api/v1/notions/[notionId]/take/route'
import { POST as add, GET as list } from '../../app/api/v1/notions/route'
import { GET as place } from '../../app/api/v1/places/[placeId]/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addCharted, aPlace, hanneDrewitt, theShop } from './things'

const aCard = (over: Partial<NotionCard> = {}): NotionCard => ({
  kind: 'needle',
  name: 'Tapestry needles',
  size: 'size 26',
  minimum: null,
  packOf: 6,
  priceMinor: null,
  note: null,
  ...over,
})

describeOnEachEngine('notions', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  const ids = { bag: newId(), design: newId(), project: newId(), theirs: newId() }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    await prisma.place.create({ data: aPlace(ids.bag, 'Bag K-07', 'bag') })
    await addCharted(open(), { ownerId: shop.id, title: 'Seven Lanterns', designId: ids.design })
    const project = { designId: ids.design, status: 'stitching' }
    await prisma.project.create({ data: { ...project, id: ids.project, ownerId: shop.id, placeId: ids.bag } })
    await prisma.project.create({ data: { ...project, id: ids.theirs, ownerId: hanne.id } })
  })

  async function added(over: Partial<NotionCard> = {}, count = 10, placeLabel: string | null = 'Drawer N1'): Promise<string> {
    const result = await addNotion({ ...aCard(over), ownerId: shop.id, count, placeLabel })
    if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
    return result.value.id
  }
  const claim = async (id: string) => ({ id, version: (await open().prisma.notion.findUniqueOrThrow({ where: { id } })).version })
  /** The journal's own count of each: as many as there are while it is held, none once it is gone. */
  async function expectJournalToAgree() {
    const notions = await open().prisma.notion.findMany({ include: { movements: { select: { wholeDelta: true } } } })
    expect(notions.length).toBeGreaterThan(0)
    for (const { id, count: held, goneAt, movements: lines } of notions) {
      const sum = lines.reduce((total, { wholeDelta }) => total + wholeDelta, 0)
      expect([id, sum]).toEqual([id, goneAt === null ? held : 0])
    }
  }
  const placeId = async (label: string) => (await listPlaces()).find((one) => one.label === label)?.id as string

  it('says where the big hoop went', async () => {
    const id = await added({ kind: 'hoop', name: 'Big hoop', size: '10 in', packOf: null }, 1, 'Shelf N9')
    await getAnswers()
    await moveNotion({ ...(await claim(id)), toPlaceLabel: 'Marl Street', becomesHome: false })
    expect(await findNotion(id)).toMatchObject({ home: { label: 'Shelf N9' }, current: { label: 'Marl Street' } })
    const { search, world } = await getAnswers()
    for (const asked of ['big hoop', 'Where did I put the big hoop?', 'hoop 10 in', 'hoop marl street']) {
      const [first] = search.search(asked, { limit: 5, noun: 'notion' }).hits
      expect([asked, first?.id]).toEqual([asked, `notion:${id}`])
    }
    expect(world.places.get(world.notions.get(id)?.currentPlaceId ?? '')?.label).toBe('Marl Street')
    expect(await putBackNotion(await claim(id))).toMatchObject({ ok: true, value: { id } })
    expect(await putBackNotion(await claim(id))).toEqual({ ok: false, error: { kind: 'already-there' } })
    await removeNotion({ ...(await claim(id)), reason: 'cracked' })
    expect((await getAnswers()).search.search('big hoop', { limit: 5, noun: 'notion' }).hits).toEqual([])
    await expectJournalToAgree()
  })

  it('is not put where only the record puts things, and is out since the day it left home', async () => {
    const id = await added({ kind: 'hoop', name: 'Travelling hoop', size: '6 in', packOf: null }, 1, 'Shelf N8')
    const move = async (toPlaceLabel: string) => moveNotion({ ...(await claim(id)), toPlaceLabel, becomesHome: false })
    // Nobody has looked in vain yet, so the place is not made; its name is the record's all the same.
    const refusal = { ok: false, error: { kind: 'kept-by-record', label: 'Not found' } }
    expect(await move('not found')).toEqual(refusal)
    expect(await addNotion({ ...aCard(), ownerId: shop.id, count: 1, placeLabel: 'Not found' })).toEqual(refusal)
    await move('Bag N81')
    const left = new Date('2026-03-01T10:00:00Z')
    await open().prisma.notion.update({ where: { id }, data: { outSince: left } })
    await move('Bag N82')
    expect((await findNotion(id))?.outSince).toEqual(left)
    await move('Shelf N8')
    expect((await findNotion(id))?.outSince).toBeNull()
    await expectJournalToAgree()
  })

  it('counts in and out, and what a count found', async () => {
    const id = await added({}, 10)
    expect(await countNotion({ ...(await claim(id)), change: 'used', many: 3, reason: 'broken' })).toMatchObject({
      value: { count: 7 },
    })
    expect(await countNotion({ ...(await claim(id)), change: 'received', many: 6, reason: null })).toMatchObject({
      value: { count: 13 },
    })
    expect(await countNotion({ ...(await claim(id)), change: 'counted', many: 12, reason: null })).toMatchObject({
      value: { count: 12 },
    })
    expect(await countNotion({ ...(await claim(id)), change: 'used', many: 13, reason: null })).toEqual({
      ok: false,
      error: { kind: 'not-enough', count: 12 },
    })
    const found = await findNotion(id)
    expect(found?.count).toBe(12)
    expect(found?.history.map(({ kind, wholeDelta, reason }) => [kind, wholeDelta, reason])).toEqual([
      ['correct', -1, 'counted 12, 13 on record'],
      ['receive', 6, null],
      ['use', -3, 'broken'],
      ['receive', 10, null],
    ])
    await expectJournalToAgree()
  })

  it('takes two of a dozen needles for a project, and counts them back in', async () => {
    const id = await added({ name: 'Needles for a class', minimum: 12 }, 12)
    const taken = await takeNotion({ ...(await claim(id)), projectId: ids.project, many: 2 })
    if (!taken.ok) throw new Error(taken.error.kind)
    expect(taken.value.id).not.toBe(id)
    expect(await findNotion(id)).toMatchObject({ count: 10, usedBy: null, current: { label: 'Drawer N1' }, minimum: 12 })
    expect(await findNotion(taken.value.id)).toMatchObject({
      count: 2,
      minimum: null,
      usedBy: { title: 'Seven Lanterns' },
      home: { label: 'Drawer N1' },
      current: { label: 'Bag K-07' },
    })
    expect((await listNotionsUsedBy(ids.project)).map((one) => one.id)).toEqual([taken.value.id])
    await expectJournalToAgree()

    expect(await removeNotion({ ...(await claim(taken.value.id)), reason: null })).toEqual({
      ok: false,
      error: { kind: 'in-use', title: 'Seven Lanterns' },
    })
    expect(await takeNotion({ ...(await claim(taken.value.id)), projectId: ids.project, many: 1 })).toMatchObject({
      error: { kind: 'in-use' },
    })
    // One was lost on the way: counted in again, there is one.
    await countNotion({ ...(await claim(taken.value.id)), change: 'counted', many: 1, reason: null })
    expect(await putBackNotion(await claim(taken.value.id))).toEqual({ ok: true, value: { id } })
    expect(await findNotion(id)).toMatchObject({ count: 11, usedBy: null })
    expect(await findNotion(taken.value.id)).toMatchObject({ isGone: true, isRestorable: false })
    expect(await restoreNotion(await claim(taken.value.id))).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    expect(await listNotionsUsedBy(ids.project)).toEqual([])
    await expectJournalToAgree()
  })

  it('takes all there is as it is, and puts it back where it lives', async () => {
    const id = await added({ kind: 'frame', name: 'Scroll frame', size: '12 in', packOf: null }, 1, 'Rack F')
    expect(await takeNotion({ ...(await claim(id)), projectId: ids.project, many: 1 })).toEqual({ ok: true, value: { id } })
    expect(await findNotion(id)).toMatchObject({ current: { label: 'Bag K-07' }, usedBy: { id: ids.project } })
    expect((await findNotion(id))?.outSince).not.toBeNull()
    expect(await putBackNotion(await claim(id))).toEqual({ ok: true, value: { id } })
    expect(await findNotion(id)).toMatchObject({ current: { label: 'Rack F' }, usedBy: null, outSince: null })
    await expectJournalToAgree()
  })

  it('goes along when its project changes its bag', async () => {
    const id = await added({ kind: 'laying tool', name: 'Laying tool', size: null, packOf: null }, 1, 'Tin N11')
    const apart = await added({ kind: 'hoop', name: 'Hoop of the bag', size: null, packOf: null }, 1, 'Bag K-07')
    for (const one of [id, apart]) await takeNotion({ ...(await claim(one)), projectId: ids.project, many: 1 })
    expect(await changeBag({ projectId: ids.project, bagLabel: 'Bag K-08' })).toMatchObject({ ok: true })
    expect(await findNotion(id)).toMatchObject({ home: { label: 'Tin N11' }, current: { label: 'Bag K-08' } })
    expect((await findNotion(id))?.history[0]).toMatchObject({ kind: 'take', wholeDelta: 0, to: { label: 'Bag K-08' } })
    expect(await findNotion(apart)).toMatchObject({ current: { label: 'Bag K-07' }, outSince: null })
    await changeBag({ projectId: ids.project, bagLabel: 'Bag K-07' })
    for (const one of [id, apart]) await putBackNotion(await claim(one))
    expect(await findNotion(id)).toMatchObject({ current: { label: 'Tin N11' }, usedBy: null })
    await expectJournalToAgree()
  })

  it('keeps the place it lives in when the import that brought the place is taken back', async () => {
    const { stagedId } = await stageFile('places.csv', new TextEncoder().encode('Label,Kind\nTin N12,box\nTin N13,box\n'))
    const brought = await bringIn(stagedId, { kind: 'places' })
    if (!brought.ok) throw new Error(brought.error.kind)
    const id = await added({ name: 'Kept needles' }, 2, 'Tin N12')
    expect(await undoImport(brought.value.importId)).toMatchObject({
      ok: true,
      value: { left: [{ noun: 'place', why: 'in-use' }] },
    })
    expect((await findNotion(id))?.home).toMatchObject({ label: 'Tin N12' })
    expect((await listPlaces()).filter(({ label }) => label === 'Tin N12' || label === 'Tin N13')).toHaveLength(1)
  })

  it('takes nothing for a project of others, for none, or more than there is', async () => {
    const id = await added({ name: 'Long needles' }, 3)
    const ask = async (projectId: string, many: number) => takeNotion({ ...(await claim(id)), projectId, many })
    expect(await ask(ids.theirs, 1)).toEqual({ ok: false, error: { kind: 'other-owner' } })
    expect(await ask(newId(), 1)).toMatchObject({ error: { kind: 'no-such-project' } })
    expect(await ask(ids.project, 4)).toEqual({ ok: false, error: { kind: 'not-enough', count: 3 } })
    await open().prisma.project.update({ where: { id: ids.project }, data: { status: 'abandoned' } })
    expect(await ask(ids.project, 1)).toMatchObject({ error: { kind: 'no-such-project' } })
    expect(await listProjectsFor(shop.id)).toEqual([])
    await open().prisma.project.update({ where: { id: ids.project }, data: { status: 'stitching' } })
    expect(await listProjectsFor(shop.id)).toEqual([{ id: ids.project, title: 'Seven Lanterns', status: 'stitching' }])
    expect((await findNotion(id))?.history).toHaveLength(1)
  })

  it('lets one of two change it who saw the same', async () => {
    const id = await added({ name: 'Contended needles' }, 5)
    const seen = await claim(id)
    const both = await Promise.all([
      countNotion({ ...seen, change: 'used', many: 5, reason: null }),
      takeNotion({ ...seen, projectId: ids.project, many: 5 }),
    ])
    expect(both.filter(({ ok }) => ok)).toHaveLength(1)
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    await expectJournalToAgree()
  })

  it('writes a card anew and keeps what it was called', async () => {
    const id = await added({ name: 'Sharp needles', size: 'size 7' }, 4)
    await editNotion({ ...(await claim(id)), ...aCard({ name: 'Sharps', size: 'size 9', minimum: 6 }) })
    const found = await findNotion(id)
    expect(found).toMatchObject({ name: 'Sharps', size: 'size 9', minimum: 6, count: 4 })
    expect(found?.history[0]).toMatchObject({
      kind: 'correct',
      wholeDelta: 0,
      reason: 'name Sharp needles to Sharps; size size 7 to size 9; minimum not said to 6',
    })
    await editNotion({ ...(await claim(id)), ...aCard({ name: 'Sharps', size: 'size 9', minimum: 6 }) })
    expect((await findNotion(id))?.history).toHaveLength(2)
  })

  it('comes back as many as went, where it was', async () => {
    const id = await added({ name: 'Put by' }, 4, 'Tin N4')
    await removeNotion({ ...(await claim(id)), reason: null })
    expect((await listNotions([shop.id])).map((one) => one.id)).not.toContain(id)
    const gone = await findNotion(id)
    expect(gone).toMatchObject({ isGone: true, isRestorable: true })
    expect(gone?.history.map(({ isOffList }) => isOffList)).toEqual([true, false])
    await expectJournalToAgree()
    await restoreNotion(await claim(id))
    expect(await findNotion(id)).toMatchObject({ isGone: false, count: 4, current: { label: 'Tin N4' } })
    await expectJournalToAgree()
  })

  it('lies in its place: counted there, out of there, and in the way of taking the place away', async () => {
    const hoop = await added({ kind: 'hoop', name: 'Small hoop', size: '4 in', packOf: null }, 2, 'Chest N5')
    const home = await placeId('Chest N5')
    const counts = async () => (await countInPlaces([shop.id], await listPlaces())).byPlace.get(home)
    expect(await counts()).toMatchObject({ notions: 1, out: 0 })
    expect((await findPlaceContents({ placeIds: [home], ownerIds: [shop.id] })).notions).toMatchObject([{ id: hoop, count: 2 }])
    expect((await findPlaceContents({ placeIds: [home], ownerIds: [hanne.id] })).othersCount).toBe(1)
    await moveNotion({ ...(await claim(hoop)), toPlaceLabel: 'Marl Street', becomesHome: false })
    expect(await counts()).toMatchObject({ notions: 0, out: 1 })
    const path = (await listPlaces()).find(({ id }) => id === home)?.path as string
    const out = await listOut({ ownerIds: [shop.id], insidePath: path }, { offset: 0, limit: 10 })
    expect(out).toMatchObject({ total: 1, things: [{ noun: 'notion', id: hoop, current: { label: 'Marl Street' } }] })
    expect(await removePlace({ id: home, version: 0 })).toEqual({
      ok: false,
      error: { kind: 'not-empty', places: 0, threads: 0, cloth: 0, charts: 0, notions: 1, projects: 0 },
    })
    await moveNotion({ ...(await claim(hoop)), toPlaceLabel: 'Drawer N1', becomesHome: true })
    expect(await removePlace({ id: home, version: 0 })).toEqual({ ok: true, value: null })
  })

  it('refuses in the database what no form may write', async () => {
    const row = { ownerId: shop.id, kind: 'hoop', name: 'Hoop', count: 1 }
    const create = (over: object) => open().prisma.notion.create({ data: { id: newId(), ...row, ...over } })
    await expect(create({ kind: 'anvil' })).rejects.toThrow()
    await expect(create({ count: -1 })).rejects.toThrow()
    await expect(create({ packOf: 0 })).rejects.toThrow()
    await expect(create({ name: '' })).rejects.toThrow()
    // A line of the journal is about one thing.
    const notionId = await added({ name: 'Journalled' })
    const { id: chartId } = await open().prisma.chart.findFirstOrThrow()
    const line = { revision: 1, at: new Date(0), kind: 'correct' }
    const journal = (about: object) => open().prisma.movement.create({ data: { id: newId(), ...line, ...about } })
    await expect(journal({ notionId, chartId })).rejects.toThrow(/oneThing/)
    await expect(journal({})).rejects.toThrow(/oneThing/)
    await journal({ notionId })
    await expect(open().prisma.movement.deleteMany({ where: { notionId } })).rejects.toThrow()
  })

  it('is asked and written through the API', async () => {
    const detail = notionOperations.get
    const body = { ownerId: shop.id, ...aCard({ name: 'Needles in packs', minimum: 13 }), count: 0, placeLabel: 'Tin N7' }
    const made = await answer({ ...detail, answerStatus: 201 }, add, { body })
    expect(made).toMatchObject({ count: 0, toBuy: { short: 13, packs: 3 }, home: { label: 'Tin N7' }, usedBy: null })
    const parts = { notionId: made.notionId }
    expect(await answer(detail, count, { parts, body: { change: 'received', many: 18 } })).toMatchObject({
      count: 18,
      toBuy: null,
    })
    expect(await answer(detail, change, { parts, body: { note: 'blunt' } })).toMatchObject({ note: 'blunt', minimum: 13 })
    const taken = await answer(detail, take, { parts, body: { projectId: ids.project, many: 2 } })
    expect(taken).toMatchObject({ count: 2, current: { label: 'Bag K-07' }, usedBy: { projectId: ids.project } })
    const inUse = await answer(listNotionsOperation, list, {
      path: `notions?owner=${shop.id}&project=${ids.project}&kind=needle`,
    })
    expect(inUse.notions.map(({ notionId }) => notionId)).toContain(taken.notionId)
    const inBag = await answer(getPlace, place, { path: `places/${ids.bag}?owner=${shop.id}`, parts: { placeId: ids.bag } })
    expect(inBag.notions).toContainEqual(expect.objectContaining({ notionId: taken.notionId, count: 2, isOut: true }))
    const inUseToo = await problem(remove, { parts: { notionId: taken.notionId }, body: {} })
    expect(inUseToo).toMatchObject({ status: 409, detail: 'It is in use for Seven Lanterns. Put it back first.' })
    const back = await answer(detail, putBack, { parts: { notionId: taken.notionId }, body: {} })
    expect(back).toMatchObject({ notionId: made.notionId, count: 18 })
    expect(await answer(detail, move, { parts, body: { placeLabel: 'Tin N8' } })).toMatchObject({ current: { label: 'Tin N8' } })
    expect(await problem(move, { parts, body: { version: 0, placeLabel: 'Tin N9' } })).toMatchObject({ status: 409 })
    expect(await answer(detail, remove, { parts, body: { reason: 'given away' } })).toMatchObject({ isGone: true })
    expect(await problem(count, { parts, body: { change: 'used', many: 1 } })).toMatchObject({ status: 404 })
    expect(await answer(detail, restore, { parts, body: {} })).toMatchObject({ isGone: false, count: 18 })
    expect(await answer(detail, get, { parts })).toMatchObject({ count: 18 })
    const told = await answer(listMovementsOperation, movements, { path: `movements?notion=${made.notionId}` })
    expect(told.movements.reduce((sum, { wholeDelta }) => sum + wholeDelta, 0)).toBe(18)
    expect(told.movements[0]).toMatchObject({ kind: 'undo', notion: { name: 'Needles in packs', size: 'size 26' } })
  })
})
