import { beforeAll, expect, it } from 'vitest'
import { listYield } from '#lib/cloth/confirm-cut'
import type { CutLayout, CutPlan, CutRequest } from '#lib/cloth/cut-plan'
import type { AskedCut, AskedWish } from '#lib/coverage/asked-cut'
import { getAnswers } from '#lib/db/answers/get-answers'
import { cutCloth } from '#lib/db/cloth/cut-cloth'
import { findClothPiece, listClothPieces } from '#lib/db/cloth/queries'
import { removeCloth } from '#lib/db/cloth/remove-cloth'
import { type CarryOut, carryOutCut } from '#lib/db/cut-plan/carry-out-cut'
import type { KeptAsked } from '#lib/db/cut-plan/cut-plan-rows'
import { giveUpCut } from '#lib/db/cut-plan/give-up-cut'
import { keepCutPlan } from '#lib/db/cut-plan/keep-cut-plan'
import { findCutPlan, listCutPlans } from '#lib/db/cut-plan/queries'
import { readCutChoices } from '#lib/db/cut-plan/read-cut-choices'
import { newId } from '#lib/db/new-id'
import { editProject } from '#lib/db/project/edit-project'
import { readStartChoices } from '#lib/db/project/start-choices'
import { startProject } from '#lib/db/project/start-project'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { settingsSchema } from '#lib/settings/settings'
import { across, layoutOf, offcut, up, wanted, waste } from '../unit/cloth/cut-layouts'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aStart, hanneDrewitt, theShop } from './things'

const inches = (width: number, height: number) => ({ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH })
const squareInches = (um2: number) => um2 / UM_PER_INCH ** 2
const settings = settingsSchema.parse({})

/** From 18 × 27 in: one 11 × 11, two 8 × 8, one 6 × 12, and 18 × 7 in left; 39 square inches are waste (trade scenario A8). */
const fatQuarter = (pieceId: string): CutLayout =>
  layoutOf(
    pieceId,
    18,
    27,
    across(
      12,
      up(11, across(11, wanted('w1'), waste), up(6, wanted('w3'), waste)),
      across(8, up(8, wanted('w2', 1), up(8, wanted('w2', 2), waste)), offcut),
    ),
  )

const planOf = (...layouts: CutLayout[]): CutPlan => ({
  layouts,
  leftOut: [],
  value: 4,
  cutCount: 7,
  wasteUm2: 0,
  largestOffcutsUm2: 0,
  valueBound: 4,
  bound: 0,
  isProved: true,
})

const requestOf = (...pieces: { id: string; widthUm: number; heightUm: number }[]): CutRequest => ({
  pieces,
  wishes: [],
  objective: 'largest offcut',
  gapUm: 0,
  leastOffcutUm: 5 * UM_PER_INCH,
  seed: 1,
})

describeOnEachEngine('plans of cuts', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  const designId = newId()
  const otherDesignId = newId()
  const box = newId()

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    await prisma.place.create({ data: aPlace(box, 'Box L3', 'box') })
    for (const [id, title] of [
      [designId, 'Seven Lanterns'],
      [otherDesignId, 'Nine Wrens'],
    ] as const) {
      const named = { title, titleKey: title.toLowerCase() }
      const advised = { advisedThreads: 28, advisedPerUm: UM_PER_INCH, advisedOver: 2, advisedWeave: 'single' }
      await prisma.chart.create({
        data: {
          ...{ id: newId(), ...named, ownerId: shop.id },
          designs: { create: { id, ...named, widthStitches: 84, heightStitches: 84, ...advised } },
        },
      })
    }
  })

  /** An evenweave fat quarter with everything on record that a part of it should have too. */
  async function aQuarter(more: object = {}): Promise<string> {
    const id = newId()
    await open().prisma.clothPiece.create({
      data: {
        ...{ id, ownerId: shop.id, name: 'Ostravane evenweave', colourName: 'Oat', makerName: 'Ostravane', weave: 'single' },
        ...{ endsThreads: 28, endsPerUm: UM_PER_INCH, picksThreads: 28, picksPerUm: UM_PER_INCH },
        ...{ ...inches(18, 27), isSquared: true, sizeCertainty: 'measured', homePlaceId: box, currentPlaceId: box },
        ...{ dyeing: 'hand-dyed', washState: 'washed', washedOn: '2026-09-01', isCountStale: true, countCertainty: 'measured' },
        ...{ bleedTest: 'passed', bleedTestedOn: '2026-09-02', isTurnable: false, oneWayBecause: 'dye' },
        ...more,
      },
    })
    return id
  }
  const aProject = (more: object = {}) =>
    open().prisma.project.create({ data: { id: newId(), designId, ownerId: shop.id, status: 'planned', ...more } })

  const anAsk = (wishes: AskedWish[] = []): AskedCut => ({
    wishes,
    pieceIds: null,
    objective: 'largest offcut',
    gapUm: 0,
    leastOffcutUm: 5 * UM_PER_INCH,
    seed: 1,
  })
  const aSize = (width: number, height: number, copies = 1): AskedWish => ({
    ...{ kind: 'size', ...inches(width, height), mayTurn: true, copies, priority: 'wanted', worth: 1 },
  })
  const about = (projectId: string | null = null): KeptAsked => ({
    asked: anAsk([aSize(11, 11), aSize(8, 8, 2), aSize(6, 12)]),
    wishes: [
      { id: 'w1', title: 'Seven Lanterns', designId, projectId, fitsSome: true },
      { id: 'w2', title: '', designId: null, projectId: null, fitsSome: true },
      { id: 'w3', title: 'Nine Wrens', designId: otherDesignId, projectId: null, fitsSome: true },
    ],
  })

  /** Keep the fat quarter's plan for a piece. */
  const kept = async (pieceId: string, projectId: string | null = null) =>
    keepCutPlan({
      title: 'Autumn class',
      about: about(projectId),
      request: requestOf({ id: pieceId, ...inches(18, 27) }),
      plan: planOf(fatQuarter(pieceId)),
    })

  const everyPart = (pieceId: string, change: (key: string) => object | null = () => ({})) =>
    listYield(fatQuarter(pieceId)).flatMap(({ key, widthUm, heightUm }) => {
      const changed = change(key)
      return changed === null ? [] : [{ key, widthUm, heightUm, label: null, placeLabel: null, ...changed }]
    })
  const carrying = (planId: string, pieceId: string, parts = everyPart(pieceId)): CarryOut => ({
    planId,
    version: 0,
    pieces: [{ pieceId, parts }],
    note: null,
    who: 'Nell Oxtoby',
  })
  const reservedIn = async (pieceId: string) => {
    const listed = (await listClothPieces([shop.id])).find(({ id }) => id === pieceId)?.isReserved
    const answered = (await getAnswers()).world.pieces.find(({ id }) => id === pieceId)?.isReserved
    return [listed, answered]
  }
  /** Every row of what a refused write might have touched. */
  const everything = async () => {
    const { prisma } = open()
    const [pieces, movements, plans, projects, places] = await Promise.all([
      prisma.clothPiece.findMany({ orderBy: { id: 'asc' } }),
      prisma.movement.count(),
      prisma.cutPlan.findMany({ orderBy: { id: 'asc' } }),
      prisma.project.findMany({ orderBy: { id: 'asc' } }),
      prisma.place.count(),
    ])
    return { pieces, movements, plans, projects, places }
  }

  it('keeps the pieces of a plan from everything else until it is given up', async () => {
    const pieceId = await aQuarter({ label: 'K-1', labelKey: 'k-1' })
    expect(await reservedIn(pieceId)).toEqual([false, false])
    const { planId } = granted(await kept(pieceId))
    expect(await reservedIn(pieceId)).toEqual([true, true])
    expect((await findClothPiece(pieceId))?.plannedIn).toEqual([{ planId, title: 'Autumn class' }])

    const planned = { ok: false, error: { kind: 'planned', planId, title: 'Autumn class' } }
    expect(await removeCloth({ id: pieceId, version: 0, ending: 'used', note: null })).toEqual(planned)
    const cut = { id: pieceId, version: 0, remaining: inches(9, 9), offcuts: [], projectId: null, note: null }
    expect(await cutCloth(cut)).toEqual(planned)
    expect(await startProject(aStart({ designId, threadListId: null, ownerId: shop.id, clothPieceId: pieceId }))).toEqual({
      ok: false,
      error: { kind: 'cloth-reserved', clothPieceId: pieceId, title: 'Autumn class' },
    })
    expect(await kept(pieceId)).toEqual({
      ok: false,
      error: { kind: 'piece-planned', pieceName: 'K-1', title: 'Autumn class' },
    })

    const [listed] = await listCutPlans([shop.id])
    expect(listed).toMatchObject({ id: planId, status: 'kept', pieces: [{ id: pieceId, label: 'K-1' }] })
    expect(await listCutPlans([hanne.id])).toEqual([])
    expect(await giveUpCut({ planId, version: 3 })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    granted(await giveUpCut({ planId, version: 0 }))
    expect(await reservedIn(pieceId)).toEqual([false, false])
    expect(await giveUpCut({ planId })).toEqual({ ok: false, error: { kind: 'plan-closed', status: 'dropped' } })
    expect(await carryOutCut(carrying(planId, pieceId))).toMatchObject({ error: { kind: 'plan-closed' } })
    expect(await findCutPlan(planId)).toMatchObject({ status: 'dropped', plan: planOf(fatQuarter(pieceId)) })
    granted(await kept(pieceId))
  })

  it('makes every part a piece of its own, with its parent, label, size and place, and no cloth more or less', async () => {
    const pieceId = await aQuarter({ label: 'A8', labelKey: 'a8' })
    const project = await aProject()
    const { planId } = granted(await kept(pieceId, project.id))
    const sizes: Record<string, object> = {
      'w1-1': { label: 'A8', ...inches(11, 11) },
      'w2-1': { label: 'A8-2', ...inches(8.25, 8) },
      'w2-2': { label: 'A8-3', placeLabel: 'Bag K-07' },
      'w3-1': { label: null },
      'offcut-1': { label: 'A8-rest', ...inches(18, 6.75), placeLabel: 'Box L3' },
    }
    const done = granted(
      await carryOutCut({
        ...carrying(
          planId,
          pieceId,
          everyPart(pieceId, (key) => sizes[key] as object),
        ),
        note: 'frayed',
      }),
    )
    const [piece] = done.pieces
    expect(piece?.parts.map(({ key }) => key)).toEqual(['w1-1', 'w3-1', 'w2-1', 'w2-2', 'offcut-1'])
    const rows = await open().prisma.clothPiece.findMany({
      where: { parentId: pieceId },
      include: { homePlace: true, movements: true },
    })
    const of = (key: string) => rows.find(({ id }) => id === piece?.parts.find((one) => one.key === key)?.clothPieceId)
    expect(of('w1-1')).toMatchObject({ label: 'A8', ...inches(11, 11), keptForProjectId: project.id, note: null })
    expect(of('w2-1')).toMatchObject({ label: 'A8-2', ...inches(8.25, 8), keptForProjectId: null, note: null })
    expect(of('w2-2')).toMatchObject({ label: 'A8-3', ...inches(8, 8), homePlace: { label: 'Bag K-07' } })
    expect(of('w3-1')).toMatchObject({
      label: null,
      ...inches(6, 12),
      note: 'cut for Nine Wrens',
      homePlace: { label: 'Box L3' },
    })
    expect(of('offcut-1')).toMatchObject({ label: 'A8-rest', ...inches(18, 6.75), note: null })
    for (const row of rows) {
      expect(row).toMatchObject({
        ...{
          ownerId: shop.id,
          name: 'Ostravane evenweave',
          colourName: 'Oat',
          weave: 'single',
          endsThreads: 28,
          picksThreads: 28,
        },
        ...{ isSquared: true, sizeCertainty: 'measured', isTurnable: false, oneWayBecause: 'dye', dyeing: 'hand-dyed' },
        ...{ washState: 'washed', washedOn: '2026-09-01', isCountStale: true, countCertainty: 'measured' },
        ...{ bleedTest: 'passed', bleedTestedOn: '2026-09-02' },
      })
      expect(row.movements).toMatchObject([{ kind: 'cut', wholeDelta: 1, cutPlanId: planId, who: 'Nell Oxtoby', reason: 'A8' }])
    }
    // In 486 square inches; out 121 + 66 + 64 + 72 + 121.5 = 444.5.
    const outUm2 = rows.reduce((sum, { widthUm, heightUm }) => sum + widthUm * heightUm, 0)
    expect(squareInches(outUm2)).toBe(444.5)
    expect(squareInches(piece?.wasteUm2 ?? 0)).toBe(41.5)
    expect(outUm2 + (piece?.wasteUm2 ?? 0)).toBe(18 * 27 * UM_PER_INCH ** 2)

    expect(await findClothPiece(pieceId)).toMatchObject({
      isGone: true,
      isRestorable: false,
      isReserved: false,
      history: [{ kind: 'cut', wholeDelta: -1, reason: 'Autumn class; frayed', who: 'Nell Oxtoby' }],
    })
    const planNow = await findCutPlan(planId)
    expect(planNow).toMatchObject({ status: 'cut', version: 1, pieces: [{ id: pieceId, isGone: true }] })
    expect(planNow?.made.map(({ id }) => id).sort()).toEqual(rows.map(({ id }) => id).sort())
    expect(await carryOutCut(carrying(planId, pieceId))).toEqual({ ok: false, error: { kind: 'plan-closed', status: 'cut' } })
  })

  it('gives a project its first part as cloth, and keeps what was cut for it from others', async () => {
    const pieceId = await aQuarter()
    const project = await aProject({ clothPieceId: pieceId })
    const other = await aProject({ designId: otherDesignId })
    // Another project than the plan's keeps the piece.
    expect(await kept(pieceId, other.id)).toMatchObject({ error: { kind: 'piece-reserved', titles: ['Seven Lanterns'] } })
    const { planId } = granted(await kept(pieceId, project.id))
    const { pieces } = granted(await carryOutCut(carrying(planId, pieceId)))
    const forIt = pieces[0]?.parts.find(({ key }) => key === 'w1-1')?.clothPieceId as string
    const row = await open().prisma.project.findUniqueOrThrow({ where: { id: project.id } })
    expect(row).toMatchObject({ clothPieceId: forIt, version: 1 })
    expect(await reservedIn(forIt)).toEqual([true, true])
    expect((await findClothPiece(forIt))?.reservedBy).toEqual([
      { projectId: project.id, title: 'Seven Lanterns', status: 'planned' },
    ])
    const details = { threadListId: null, over: null, quantity: 1, forWhom: null, dueOn: null, finishing: null, note: null }
    const choosing = (projectId: string) =>
      editProject({ projectId, ...details, hoursTenths: 0, stitchesDone: 0, clothPieceId: forIt })
    expect(await choosing(other.id)).toMatchObject({ error: { kind: 'cloth-reserved', title: 'Seven Lanterns' } })
    // Off its own cloth, the piece is still kept for it and offered to it alone; given up, it is free.
    await open().prisma.project.update({ where: { id: project.id }, data: { clothPieceId: null } })
    expect(await choosing(other.id)).toMatchObject({ error: { kind: 'cloth-reserved', title: 'Seven Lanterns' } })
    const isOfferedTo = async (projectId: string | null) => {
      const choices = await readStartChoices(designId, shop.id, settings, projectId)
      return [...(choices?.cloth.advised ?? []), ...(choices?.cloth.other ?? [])].some(({ piece }) => piece.id === forIt)
    }
    expect([await isOfferedTo(project.id), await isOfferedTo(other.id), await isOfferedTo(null)]).toEqual([true, false, false])
    expect((await choosing(project.id)).ok).toBe(true)
    await open().prisma.project.update({ where: { id: project.id }, data: { status: 'abandoned' } })
    expect((await choosing(other.id)).ok).toBe(true)
  })

  it('leaves a project the other piece it has, and takes a cut piece off one that nothing came of', async () => {
    const pieceId = await aQuarter()
    const elsewhere = await aQuarter()
    const project = await aProject({ clothPieceId: elsewhere })
    const { planId } = granted(await kept(pieceId, project.id))
    granted(await carryOutCut(carrying(planId, pieceId)))
    const clothOf = async (id: string) => (await open().prisma.project.findUniqueOrThrow({ where: { id } })).clothPieceId
    expect(await clothOf(project.id)).toBe(elsewhere)

    const spoilt = await aQuarter()
    const unlucky = await aProject({ clothPieceId: spoilt })
    const second = granted(await kept(spoilt, unlucky.id))
    const parts = everyPart(spoilt, (key) => (key === 'w1-1' ? null : {}))
    const done = granted(await carryOutCut(carrying(second.planId, spoilt, parts)))
    expect(await clothOf(unlucky.id)).toBeNull()
    // The part that was spoilt is waste: 121 square inches more than the 39 planned.
    expect(squareInches(done.pieces[0]?.wasteUm2 ?? 0)).toBe(39 + 121)
  })

  it('lets nothing of a refused plan stand', async () => {
    const pieceId = await aQuarter({ label: 'R-1', labelKey: 'r-1' })
    await aQuarter({ label: 'R-2', labelKey: 'r-2' })
    const { planId } = granted(await kept(pieceId))
    const before = await everything()
    const refusals: [CarryOut, object][] = [
      [
        carrying(
          planId,
          pieceId,
          everyPart(pieceId, (key) => (key === 'offcut-1' ? inches(18, 12) : {})),
        ),
        { kind: 'more-than-it-was', pieceName: 'R-1' },
      ],
      [
        carrying(
          planId,
          pieceId,
          everyPart(pieceId, (key) => (key === 'w1-1' ? inches(28, 3) : {})),
        ),
        { kind: 'part-too-large', pieceName: 'R-1' },
      ],
      // The last part's label is taken: the first ones are written by then, and a new place.
      [
        carrying(
          planId,
          pieceId,
          everyPart(pieceId, (key) => (key === 'offcut-1' ? { label: 'r-2' } : { placeLabel: 'Box new' })),
        ),
        { kind: 'label-taken', label: 'r-2' },
      ],
      [
        carrying(planId, pieceId, [{ ...(everyPart(pieceId)[0] as ReturnType<typeof everyPart>[number]), key: 'w9-1' }]),
        { kind: 'no-such-part', key: 'w9-1' },
      ],
      [carrying(planId, pieceId, []), { kind: 'nothing-cut', pieceName: 'R-1' }],
      [{ ...carrying(planId, pieceId), pieces: [] }, { kind: 'nothing-cut' }],
      [
        { ...carrying(planId, pieceId), pieces: [...carrying(planId, pieceId).pieces, ...carrying(planId, pieceId).pieces] },
        { kind: 'not-in-plan' },
      ],
      [carrying(planId, 'another'), { kind: 'not-in-plan', pieceId: 'another' }],
      [{ ...carrying(planId, pieceId), version: 1 }, { kind: 'changed-meanwhile' }],
      [carrying('nothing', pieceId), { kind: 'no-such-plan' }],
    ]
    for (const [input, error] of refusals) expect(await carryOutCut(input)).toMatchObject({ ok: false, error })
    expect(await everything()).toEqual(before)
  })

  it('leaves nothing behind when the write breaks half way', async () => {
    const pieceId = await aQuarter()
    const { planId } = granted(await kept(pieceId))
    const before = await everything()
    // The parts before the last are written by then.
    const parts = everyPart(pieceId)
    const last = parts.at(-1) as (typeof parts)[number]
    Object.defineProperty(last, 'placeLabel', {
      get: () => {
        throw new Error('the lamp went out')
      },
    })
    await expect(carryOutCut(carrying(planId, pieceId, parts))).rejects.toThrow('the lamp went out')
    expect(await everything()).toEqual(before)
    expect((await carryOutCut(carrying(planId, pieceId))).ok).toBe(true)
  })

  it('is refused with what became of a piece that is not as it was', async () => {
    const { prisma } = open()
    const pieceId = await aQuarter({ label: 'C-1', labelKey: 'c-1' })
    const { planId } = granted(await kept(pieceId))
    await prisma.clothPiece.update({ where: { id: pieceId }, data: inches(17.5, 26.5) })
    expect(await carryOutCut(carrying(planId, pieceId))).toEqual({
      ok: false,
      error: { kind: 'piece-changed', pieceName: 'C-1', was: inches(18, 27), is: inches(17.5, 26.5) },
    })
    const stale = await aQuarter({ ...inches(17.5, 26.5), label: 'C-2', labelKey: 'c-2' })
    expect(await kept(stale)).toMatchObject({ error: { kind: 'piece-changed', pieceName: 'C-2' } })

    await prisma.clothPiece.update({ where: { id: pieceId }, data: { ...inches(18, 27), goneAt: new Date() } })
    expect(await carryOutCut(carrying(planId, pieceId))).toMatchObject({ error: { kind: 'piece-gone', pieceName: 'C-1' } })
    await prisma.clothPiece.update({ where: { id: pieceId }, data: { goneAt: null } })
    await prisma.project.create({
      data: { id: newId(), designId: otherDesignId, ownerId: shop.id, clothPieceId: pieceId, status: 'kitted' },
    })
    expect(await carryOutCut(carrying(planId, pieceId))).toMatchObject({
      error: { kind: 'piece-reserved', pieceName: 'C-1', titles: ['Nine Wrens'] },
    })
  })

  it('frees the pieces of a plan that were not cut after all', async () => {
    const [first, second] = [await aQuarter(), await aQuarter()]
    const { planId } = granted(
      await keepCutPlan({
        title: 'Two of them',
        about: about(),
        request: requestOf({ id: first, ...inches(18, 27) }, { id: second, ...inches(18, 27) }),
        plan: planOf(fatQuarter(first), fatQuarter(second)),
      }),
    )
    granted(await carryOutCut(carrying(planId, first)))
    expect(await reservedIn(second)).toEqual([false, false])
    expect(await findClothPiece(second)).toMatchObject({ isGone: false, version: 0, offcuts: [] })
  })

  it('lets one of two who confirm at once do it', async () => {
    const pieceId = await aQuarter()
    const { planId } = granted(await kept(pieceId))
    const both = await Promise.all([carryOutCut(carrying(planId, pieceId)), carryOutCut(carrying(planId, pieceId))])
    expect(both.filter(({ ok }) => ok)).toHaveLength(1)
    expect(both.find(({ ok }) => !ok)).toMatchObject({ error: { kind: 'plan-closed' } })
    expect(await open().prisma.clothPiece.count({ where: { parentId: pieceId } })).toBe(5)
  })

  it('offers a piece that is kept for a project to that project alone', async () => {
    const project = await aProject()
    const other = await aProject({ designId: otherDesignId })
    const theirs = await aQuarter({ ownerId: hanne.id, keptForProjectId: null })
    const pieceId = await aQuarter({ keptForProjectId: project.id, ownerId: hanne.id })
    await open().prisma.project.updateMany({ where: { id: { in: [project.id, other.id] } }, data: { ownerId: hanne.id } })
    const wish = (of: string, projectId: string | null): AskedWish => ({
      ...{ kind: 'design', designId: of, projectId, over: null, margins: settings.margins.ornament, cloth: 'advised' },
      ...{ copies: 1, priority: 'wanted', worth: 1 },
    })
    const offeredTo = async (...wishes: AskedWish[]) => {
      const { candidates } = await readCutChoices(anAsk(wishes), { ownerIds: [hanne.id], settings })
      return candidates.map(({ piece, fits }) => [piece.id, fits.map(({ wishId }) => wishId)])
    }
    expect(await offeredTo(wish(designId, project.id))).toEqual([
      [theirs, ['w1']],
      [pieceId, ['w1']],
    ])
    expect(await offeredTo(wish(otherDesignId, other.id), wish(designId, null))).toEqual([[theirs, ['w1', 'w2']]])
    expect(await offeredTo(wish(otherDesignId, other.id), wish(designId, project.id))).toEqual([
      [theirs, ['w1', 'w2']],
      [pieceId, ['w2']],
    ])
    // The shop's cloth is not cut for her project, nor is anything for a project that is not there.
    const shops = await readCutChoices(anAsk([wish(designId, project.id), wish(designId, 'nobody')]), {
      ownerIds: [shop.id],
      settings,
    })
    expect(shops.candidates).toEqual([])
    expect(shops.stuck).toEqual([
      { wishId: 'w2', why: 'gone' },
      { wishId: 'w1', why: 'no-piece' },
    ])
  })
})
