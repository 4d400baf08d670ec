import { beforeAll, expect, it } from 'vitest'
import { chooseDesignsOperation, chooseTogetherOperation, listKitPairsOperation, setStarsOperation } from '#api/choose-designs'
import { getDesignKits } from '#api/kits'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { newId } from '#lib/db/new-id'
import { clothForKits } from '#lib/db/planning/kits-cloth'
import { findChoiceJob, startChoice, stopChoice } from '#lib/db/planning/together/choice-jobs'
import { chooseDesigns } from '#lib/db/planning/together/choose-designs'
import { planChosen } from '#lib/db/planning/together/plan-chosen'
import { type ChoiceAsked, readChoice } from '#lib/db/planning/together/read-choice'
import { setStars } from '#lib/db/project/set-stars'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { ask } from '#tests/unit/api/ask'
import { POST as chooseRoute } from '../../app/api/v1/cloth/choose/route'
import { GET as kitsRoute } from '../../app/api/v1/designs/[designId]/kits/route'
import { POST as starsRoute } from '../../app/api/v1/projects/[projectId]/stars/route'
import { GET as pairsRoute } from '../../app/api/v1/projects/together/pairs/route'
import { POST as togetherRoute } from '../../app/api/v1/projects/together/route'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addKey, aPlace, aStart, goods, hanneDrewitt, theShop } from './things'

const inch = 25_400
const metre = 10_000
const today = '2026-09-07'
const run = { timeLimitSeconds: 20, hasLadder: false }

describeOnEachEngine('what cloth can become', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), drawer: newId() }
  const threads = { '0311': newId(), 'Tarn Blue': newId(), '0905': newId() }
  const designs = { lanterns: newId(), barge: newId(), jugs: newId(), wrens: newId(), salt: newId(), plain: newId() }
  const pieces = { offcut: '', quarter: '', hannes: '' }

  /** 28 over two, framed: n stitches come out n ÷ 14 in, and 6 in are added. Metres of undivided thread. */
  async function addDesign(id: string, title: string, side: number | null, key: [keyof typeof threads, number][]) {
    const { prisma } = open()
    const [chartId, named] = [newId(), { title, titleKey: title.toLowerCase() }]
    await prisma.chart.create({ data: { id: chartId, ...named, ownerId: ids.shop } })
    await prisma.design.create({
      data: {
        ...{ id, chartId, ...named, widthStitches: side, heightStitches: side },
        ...{ advisedThreads: 28, advisedPerUm: inch, advisedOver: 2, advisedWeave: 'single' },
      },
    })
    if (key.length === 0) return
    const keyed = key.map(([code, metres]) => ({
      ...{ threadId: threads[code], strands: 1, statedHundredths: 100, statedPutUpTenths: metres * metre },
    }))
    await addKey(open(), { id: newId(), designId: id, name: 'As charted', keyed })
  }

  const cloth = async (label: string, wide: number, high: number, ownerId = ids.shop) =>
    granted(
      await addCloth({
        ...{ ownerId, label, name: 'Linen', makerName: 'Harrowmere Looms', colourName: 'Flax', lab: null, weave: 'single' },
        ...{ ends: { threads: 28, perUm: inch }, picks: { threads: 28, perUm: inch } },
        ...{ widthUm: wide * inch, heightUm: high * inch, isSquared: true, sizeCertainty: 'measured', isTurnable: true },
        ...{ dyeing: null, washState: 'unknown', oneWayBecause: null, note: null, placeLabel: null },
      } as Parameters<typeof addCloth>[0]),
    ).id

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    await prisma.place.create({ data: aPlace(ids.drawer, 'T2.1', 'drawer') })
    for (const [maker, lotsMatter, codes] of [
      ['Larkholm', false, ['0311', '0905']],
      ['Oddny Loft', true, ['Tarn Blue']],
    ] as const) {
      const [makerId, lineId] = [newId(), newId()]
      await prisma.maker.create({ data: { id: makerId, name: maker, nameKey: maker.toLowerCase() } })
      const priceMinor = lotsMatter ? 360 : null
      const line = { name: 'pearl', nameKey: 'pearl', strands: 1, putUpStrandTenths: 10 * metre, lotsMatter, priceMinor }
      await prisma.threadLine.create({ data: { id: lineId, makerId, ...line } })
      await prisma.thread.createMany({ data: codes.map((code) => ({ id: threads[code], lineId, code })) })
    }
    // 10 × 10, 12 × 12, 10 × 10, 30 × 30 in to cut; the rest lacks thread, or a size.
    await addDesign(designs.lanterns, 'Seven Lanterns', 56, [['0311', 6]])
    await addDesign(designs.barge, 'Little Barge', 84, [['0311', 6]])
    await addDesign(designs.jugs, 'Three Jugs', 56, [['Tarn Blue', 7]])
    await addDesign(designs.wrens, 'Nine Wrens', 336, [['0311', 1]])
    await addDesign(designs.salt, 'The Salt Road', 56, [['0905', 2]])
    await addDesign(designs.plain, 'Winter Post', 56, [])
    const receive = async (code: keyof typeof threads, wholePutUps: number, lot: string | null) =>
      granted(
        await receiveThread(goods({ threadId: threads[code], ownerId: ids.shop, wholePutUps, homePlaceId: ids.drawer, lot })),
      )
    await receive('0311', 1, null)
    await receive('Tarn Blue', 1, '18')
    pieces.quarter = await cloth('L-09', 18, 27)
    pieces.hannes = await cloth('L-30', 40, 40, ids.hanne)
  })

  const asked = (over: Partial<ChoiceAsked> = {}): ChoiceAsked => ({
    ...{ ownerIds: [ids.shop], source: 'ticked', designIds: Object.values(designs), pieceIds: null, isClothAside: false },
    ...{ values: new Map(), pins: new Map(), buying: { kind: 'nothing' }, today },
    ...over,
  })

  it('is read with what each design counts, and with the reason of each that never can', async () => {
    const question = await readChoice(await getAnswers(), asked())
    expect(question.candidates.map(({ title, value }) => [title, value])).toEqual([
      ['Little Barge', 1],
      ['Seven Lanterns', 1],
      ['Three Jugs', 1],
    ])
    expect(question.never).toMatchObject([
      { title: 'Nine Wrens', kind: 'too-large', pieceId: pieces.quarter, fit: { kind: 'too-small' } },
      {
        title: 'The Salt Road',
        kind: 'threads',
        threads: [{ threadId: threads['0905'], needStrandTenths: 2 * metre, freeStrandTenths: 0, putUps: 1 }],
      },
      { title: 'Winter Post', kind: 'no-list' },
    ])
    expect(question.pieces.map(({ label }) => label)).toEqual(['L-09'])
    expect(question.world.threads.get(threads['Tarn Blue'])).toEqual({
      ...{ lotsMatter: true, freeStrandTenths: 10 * metre, lotsStrandTenths: [10 * metre] },
      ...{ putUpStrandTenths: 10 * metre, priceMinor: 360 },
    })
  })

  it('is chosen within the thread: of two that want 6 m of the 10 m free, the one that counts more', async () => {
    const choose = async (values: [string, number][]) => {
      const { world } = await readChoice(await getAnswers(), asked({ values: new Map(values) }))
      return (await chooseDesigns(world, { timeLimitSeconds: 20 })).choice
    }
    // 12 × 12 and 10 × 10 lie one above the other on 18 × 27.
    const barge = await choose([[designs.barge, 5]])
    expect(barge).toMatchObject({ value: 6, bound: 6, isProved: true })
    expect(barge.placed.map(({ designId }) => designId).sort()).toEqual([designs.barge, designs.jugs].sort())
    const lanterns = await choose([[designs.lanterns, 2]])
    expect(lanterns.placed.map(({ designId }) => designId).sort()).toEqual([designs.lanterns, designs.jugs].sort())
  })

  it('is answered by the API with what keeps the others out, and nothing is written', async () => {
    const { prisma } = open()
    const revision = await prisma.revision.findFirstOrThrow()
    const body = {
      from: 'ticked',
      designIds: Object.values(designs),
      values: { [designs.barge]: 5 },
      owner: [ids.shop],
      seconds: 20,
    }
    const answer = chooseDesignsOperation.answer.parse((await ask(chooseRoute, { body })).body)
    expect(answer).toMatchObject({ value: 6, isProved: true, endedBy: 'proof', pieces: [{ pieceId: pieces.quarter }] })
    expect(answer.pieces[0]?.designs.map(({ title, widthUm }) => [title, widthUm]).sort()).toEqual([
      ['Little Barge', 12 * inch],
      ['Three Jugs', 10 * inch],
    ])
    expect(answer.leftOut).toEqual([
      expect.objectContaining({
        title: 'Seven Lanterns',
        why: expect.arrayContaining([
          expect.stringMatching(/0311: needs 6 m, 4 m is left: 2 m, 1 put-up, short; Little Barge takes it/),
        ]),
      }),
    ])
    expect(answer.never.map(({ title }) => title)).toEqual(['Nine Wrens', 'The Salt Road', 'Winter Post'])
    expect(await prisma.revision.findFirstOrThrow()).toEqual(revision)
    expect((await ask(chooseRoute, { body: { ...body, designIds: ['none'] } })).body).toMatchObject({ status: 409 })
    expect((await ask(chooseRoute, { body: { ...body, pieceIds: [pieces.hannes] } })).body).toMatchObject({ status: 409 })
  })

  it('buys within a limit, cloth aside: a put-up by the count, none for money where nobody said a price', async () => {
    const choose = async (buying: ChoiceAsked['buying']) => {
      const { world, never } = await readChoice(await getAnswers(), asked({ isClothAside: true, buying }))
      return { never, choice: (await chooseDesigns(world, { timeLimitSeconds: 20 })).choice }
    }
    // Nothing bought: of 10 m of 0311 one of the two that want 6 m and Nine Wrens with 1 m; and Three Jugs.
    expect((await choose({ kind: 'nothing' })).choice).toMatchObject({ isProved: true, value: 3, bought: [] })
    // A put-up of 0311 lets the other in, or one of 0905 The Salt Road; with both, all five.
    expect((await choose({ kind: 'put-ups', most: 1 })).choice).toMatchObject({ isProved: true, value: 4, spent: 1 })
    const two = (await choose({ kind: 'put-ups', most: 2 })).choice
    expect(two).toMatchObject({ isProved: true, value: 5, spent: 2 })
    expect(two.bought.map(({ threadId, putUps, minor }) => [threadId, putUps, minor]).sort()).toEqual(
      [
        [threads['0311'], 1, null],
        [threads['0905'], 1, null],
      ].sort(),
    )
    const money = await choose({ kind: 'budget', mostMinor: 10_000 })
    expect(money.choice).toMatchObject({ isProved: true, value: 3, bought: [] })
    expect(money.never).toContainEqual(expect.objectContaining({ title: 'The Salt Road', kind: 'threads' }))
  })

  it('says by the API what goes together, keeps to pins, and refuses those that cannot be together', async () => {
    const body = { from: 'ticked', designIds: Object.values(designs), owner: [ids.shop], seconds: 20 }
    const together = async (over: object) => (await ask(togetherRoute, { body: { ...body, ...over } })).body
    const pinned = chooseTogetherOperation.answer.parse(
      await together({ pins: { [designs.lanterns]: 'in', [designs.wrens]: 'out' }, hasLadder: true }),
    )
    expect(pinned.chosen.map(({ title }) => title).sort()).toEqual(['Seven Lanterns', 'Three Jugs'])
    expect(pinned.leftOut.find(({ title }) => title === 'Little Barge')?.threads).toEqual([
      {
        ...{ threadId: threads['0311'], needStrandTenths: 6 * metre, leftStrandTenths: 4 * metre, morePutUps: 1 },
        takenBy: [{ designId: designs.lanterns, strandTenths: 6 * metre }],
      },
    ])
    // One put-up of 0905 makes The Salt Road stitchable by itself; of 0311 both are by themselves already.
    expect(pinned.unlocks).toMatchObject([{ threadId: threads['0905'], steps: [{ putUps: 1, designIds: [designs.salt] }] }])
    // Each put-up brings one design more, until all but Nine Wrens are in.
    expect(pinned.ladder.map(({ value }) => value)).toEqual([2, 3, 4, 4, 4, 4])
    const refused = await together({ pins: { [designs.lanterns]: 'in', [designs.barge]: 'in' } })
    expect(refused).toMatchObject({ status: 409, detail: expect.stringMatching(/cannot all be.*0311: needs 6 m, 4 m is left/) })
    const never = await together({ pins: { [designs.salt]: 'in' } })
    expect(never).toMatchObject({ status: 409, detail: expect.stringMatching(/The Salt Road: Not enough even by itself/) })
  })

  it('is chosen from the wishes with the nearest day; what is under way is no longer offered', async () => {
    const { prisma } = open()
    const none = await readChoice(await getAnswers(), asked({ source: 'wished', designIds: null }))
    expect(none.candidates).toEqual([])
    await prisma.project.create({
      data: { id: newId(), designId: designs.jugs, ownerId: ids.shop, status: 'wanted', dueOn: '2026-10-01' },
    })
    await prisma.project.create({
      data: { id: newId(), designId: designs.jugs, ownerId: ids.shop, status: 'wanted', dueOn: '2027-10-01' },
    })
    const wished = await readChoice(await getAnswers(), asked({ source: 'wished', designIds: null }))
    // Wanted without stars 6, by a day within the quarter 4.
    expect(wished.candidates).toMatchObject([
      { designId: designs.jugs, title: 'Three Jugs', value: 10, dueOn: '2026-10-01', copies: 1, wishes: [{ stars: null }, {}] },
    ])
    granted(await setStars({ projectIds: wished.candidates[0]?.wishes.map(({ projectId }) => projectId) ?? [], stars: 5 }))
    const starred = await readChoice(await getAnswers(), asked({ source: 'wished', designIds: null }))
    expect(starred.candidates).toMatchObject([{ value: 14, wishes: [{ stars: 5 }, { stars: 5 }] }])
    expect(await setStars({ projectIds: ['nobody'], stars: 5 })).toMatchObject({ ok: false, error: { kind: 'no-such-project' } })
    const stitchable = async () =>
      (await readChoice(await getAnswers(), asked({ source: 'stitchable', designIds: null }))).candidates.map(
        ({ title }) => title,
      )
    expect(await stitchable()).toEqual(['Three Jugs', 'Little Barge', 'Seven Lanterns'])
    granted(await startProject(aStart({ designId: designs.lanterns, threadListId: null, ownerId: ids.shop })))
    expect(await stitchable()).not.toContain('Seven Lanterns')
  })

  it('says which two to kit at once, and takes stars by the API', async () => {
    const { prisma } = open()
    const projectId = newId()
    await prisma.project.create({
      data: { id: projectId, designId: designs.barge, ownerId: ids.shop, status: 'wanted' },
    })
    const said = await ask(starsRoute, { parts: { projectId }, body: { stars: 3 } })
    expect(setStarsOperation.answer.parse(said.body)).toMatchObject({ projectId, stars: 3 })
    expect((await ask(starsRoute, { parts: { projectId: newId() }, body: { stars: 3 } })).status).toBe(404)
    expect((await ask(starsRoute, { parts: { projectId }, body: { stars: 6 } })).status).toBe(422)
    // Seven Lanterns is planned, Little Barge wanted, both of 0311 alone; Three Jugs shares nothing.
    const { pairs } = listKitPairsOperation.answer.parse((await ask(pairsRoute, { path: `?owner=${ids.shop}` })).body)
    expect(pairs).toMatchObject([{ sharedThreadIds: [threads['0311']], pulls: 1, pullsSaved: 1, isCovered: true }])
    expect(pairs[0]?.projects.map(({ title }) => title).sort()).toEqual(['Little Barge', 'Seven Lanterns'])
    await prisma.project.update({ where: { id: projectId }, data: { goneAt: new Date() } })
  })

  it('plans all that were chosen, each promised what is free', async () => {
    const { prisma } = open()
    const projectId = newId()
    await prisma.project.create({ data: { id: projectId, designId: designs.jugs, ownerId: ids.shop, status: 'wanted' } })
    const { world } = await readChoice(await getAnswers(), asked({ isClothAside: true }))
    const { choice } = await chooseDesigns(world, { timeLimitSeconds: 20 })
    const listId = choice.placed.find(({ designId }) => designId === designs.jugs)?.listId as string
    const wish = { projectId, threadListId: listId }
    // 7 m of the 10 m of Tarn Blue.
    expect(await planChosen([wish])).toEqual({ ok: true, value: { planned: 1, short: 0 } })
    const [promise, ...more] = await prisma.stockPromise.findMany({ where: { projectId } })
    expect([promise?.strandTenths, more.length]).toEqual([7 * metre, 0])
    expect(await planChosen([wish])).toEqual({ ok: true, value: { planned: 0, short: 0 } })
    expect(await planChosen([{ ...wish, projectId: newId() }])).toMatchObject({ ok: false, error: { kind: 'no-such-project' } })
    await prisma.stockPromise.deleteMany({ where: { projectId } })
    await prisma.project.update({ where: { id: projectId }, data: { goneAt: new Date() } })
  })

  it('runs in the background, and stopped it hands over what it has', async () => {
    const { jobId } = granted(await startChoice(asked(), run))
    expect(await findChoiceJob(jobId)).toMatchObject({ state: 'running', timeLimitSeconds: 20 })
    await stopChoice(jobId)
    const job = await findChoiceJob(jobId)
    if (job?.state !== 'done' || job.answer.kind !== 'chosen') throw new Error('not done')
    expect(job.answer.choice.value).toBeLessThanOrEqual(job.answer.choice.bound)
    expect(await findChoiceJob(newId())).toBeNull()
  })

  it('is made for a few at once: more are refused with a sentence, until one has ended', async () => {
    const body = { from: 'ticked', designIds: Object.values(designs), owner: [ids.shop], seconds: 20 }
    const first = granted(await startChoice(asked(), run))
    const second = granted(await startChoice(asked(), run))
    expect(await startChoice(asked(), run)).toEqual({ ok: false, error: { kind: 'too-many-at-once', most: 2 } })
    expect((await ask(chooseRoute, { body })).body).toMatchObject({ status: 409, detail: expect.stringMatching(/^2 sets/) })
    await stopChoice(first.jobId)
    expect((await ask(chooseRoute, { body })).status).toBe(200)
    await stopChoice(second.jobId)
    expect(await findChoiceJob(second.jobId)).toMatchObject({ state: 'done' })
  })

  it('cloth for a class is cut from what is on hand, offcuts first, and the rest is bought', async () => {
    const { prisma } = open()
    pieces.offcut = await cloth('L-04', 20, 10)
    await prisma.clothPiece.update({ where: { id: pieces.offcut }, data: { parentId: pieces.quarter } })
    // A write of any kind brings the answers up to date.
    await cloth('L-99', 2, 2)
    const answers = await getAnswers()
    const design = answers.world.designs.get(designs.lanterns)?.design
    if (!design) throw new Error('no design')
    const found = clothForKits(answers, design, { ownerIds: [ids.shop], wanted: 13 })
    if (found.kind !== 'cloth') throw new Error(found.kind)
    // Two from 20 × 10, two from 18 × 27 (10 × 10 in a column); nine to buy: two rows of five, 20 + 1 in → 22.5 in.
    expect(found.plan).toMatchObject({ onHand: 4, toBuy: 9, isProved: true })
    expect(found.plan.from).toEqual([
      { pieceId: pieces.offcut, gives: 2, takes: 2 },
      { pieceId: pieces.quarter, gives: 2, takes: 2 },
    ])
    expect(found.bought?.yardage.best).toMatchObject({ toBuyUm: 22.5 * inch, gives: 10 })
    const kits = getDesignKits.answer.parse(
      (await ask(kitsRoute, { parts: { designId: designs.lanterns }, path: `?kits=12&owner=${ids.shop}` })).body,
    )
    expect(kits.cloth).toMatchObject({ wanted: 13, onHand: 4, toBuy: 9, bought: { toBuyUm: 22.5 * inch } })
    expect(kits.cloth?.text).toMatch(/^4 kits from what is on hand: 2 from L-04 and 2 from L-09/)
  })
})
