import { beforeAll, expect, it } from 'vitest'
import { listPieceDesigns } from '#api/piece-designs'
import { listClothOperation } from '#api/stock'
import { stitchSize } from '#lib/chart/design-size'
import { fitPiece } from '#lib/cloth/fit'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { overOn } from '#lib/coverage/cloth-answer'
import { type Answers, clothSettings } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addCloth, type ClothInput } from '#lib/db/cloth/add-cloth'
import { measureCloth } from '#lib/db/cloth/edit-cloth'
import { listCloth } from '#lib/db/cloth/queries'
import { removeCloth } from '#lib/db/cloth/remove-cloth'
import { startProject } from '#lib/db/project/start-project'
import { seedCollection } from '#seed/seed'
import { GET as pieceDesigns } from '../../app/api/v1/cloth/[clothPieceId]/designs/route'
import { GET as cloth } from '../../app/api/v1/cloth/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aStart } from './things'

const inch = 25_400
const perInch = (threads: number) => ({ threads, perUm: inch })

const aPiece = (change: Partial<ClothInput> & { ownerId: string }): Parameters<typeof addCloth>[0] => ({
  ...{ placeLabel: null, label: null, makerName: null, name: 'Harrowmere Linen', colourName: null, lab: null },
  ...{ weave: 'single', ends: perInch(32), picks: perInch(32), countCertainty: 'label' },
  ...{ widthUm: 18 * inch, heightUm: 27 * inch, isSquared: true, sizeCertainty: 'measured' },
  ...{ isTurnable: true, oneWayBecause: null, dyeing: null, washState: 'unknown', washedOn: null, note: null },
  ...change,
})

describeOnEachEngine('cloth answered for every design', ({ open }) => {
  let ownerId = ''
  beforeAll(async () => {
    await seedCollection(open(), { size: 'home', seed: 5, report: () => {} })
    const held = await open().prisma.clothPiece.groupBy({ by: ['ownerId'], _count: true, orderBy: { _count: { id: 'desc' } } })
    ownerId = held[0]?.ownerId as string
  }, 60_000)

  /** As a process that has just started would have them. */
  const answersAnew = () => {
    delete (globalThis as { larderAnswers?: unknown }).larderAnswers
    return getAnswers()
  }
  const everyAnswer = (answers: Answers): string[] => {
    const kept = answers.cloth([ownerId])
    const { rowOf, fit, kinds } = kept.columns
    const designs = [...answers.world.designs.keys()].sort().map((id) => {
      const counts = kept
        .kindsFor(id)
        .map((kind) => [kind.kind, kind.over, kind.fitCount, kind.nearCount, kind.best.id, kind.fit.kind])
      const { best, ranked, toBuy } = kept.choiceFor(id) ?? {}
      return JSON.stringify([id, fit[rowOf(id)], counts, best?.piece.id, ranked?.map(({ piece }) => piece.id), toBuy])
    })
    return [...kinds, ...designs]
  }

  it('is right after each change of cloth, caught up from its change rows', async () => {
    const pieces = (await listCloth([ownerId])).filter(({ isReserved }) => !isReserved)
    await getAnswers()
    const { listId, designId } = await open()
      .prisma.threadList.findFirstOrThrow({ select: { id: true, designId: true } })
      .then((list) => ({ listId: list.id, designId: list.designId }))
    const changes = [
      async () =>
        granted(await addCloth(aPiece({ ownerId, label: 'L-900', ends: perInch(31), picks: perInch(33), isTurnable: false }))),
      ...pieces.slice(0, 1).map(({ id, version, widthUm, heightUm }, index) => async () => {
        const size = { widthUm: widthUm - index * inch, heightUm: Math.round(heightUm / 2) }
        return granted(
          await measureCloth({ id, version, ...size, isSquared: index % 2 === 0, sizeCertainty: 'measured', note: null }),
        )
      }),
      async () => {
        const { id, version } = pieces[4] as (typeof pieces)[number]
        return granted(await removeCloth({ id, version, ending: 'passed on', note: null }))
      },
      async () =>
        granted(await startProject(aStart({ designId, threadListId: listId, ownerId, clothPieceId: pieces[5]?.id ?? null }))),
    ]
    let before = everyAnswer(await getAnswers())
    for (const change of changes) {
      await change()
      const said = everyAnswer(await getAnswers())
      expect(said).not.toEqual(before)
      expect(said).toEqual(everyAnswer(await answersAnew()))
      before = said
    }
  })

  it('says of a piece which designs it takes, best use first', async () => {
    const answers = await getAnswers()
    const settings = clothSettings(answers.world.settings)
    const piece = answers.world.pieces.find((one) => one.ownerId === ownerId && one.weave === 'single' && !one.isReserved)
    if (!piece) throw new Error('the collection has no single-thread cloth')
    const all = await answer(listPieceDesigns, pieceDesigns, {
      path: `cloth/${piece.id}/designs?owner=${ownerId}&chartOwner=any&limit=200`,
      parts: { clothPieceId: piece.id },
    })
    expect(all.isReserved).toBe(false)
    const takes = [...answers.world.designs.values()].filter(({ design }) => {
      const size = stitchSize(design)
      if (!size || (design.advised?.insists && design.advised.weave !== null && design.advised.weave !== piece.weave))
        return false
      return ([1, 2] as const).some((over) => fitPiece({ ...size, over, ...settings }, piece).kind !== 'too-small')
    })
    expect(all.total).toBe(takes.length)
    const rank = (use: (typeof all.designs)[number]) =>
      (use.fit.kind === 'fits' ? 0 : 2) + (use.isAdvised && use.isUsualOver ? 0 : 1)
    const ranks = all.designs.map(rank)
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
    for (const use of all.designs) {
      const design = answers.world.designs.get(use.designId)?.design
      const size = design && stitchSize(design)
      if (!design || !size) throw new Error(use.designId)
      expect(use.isUsualOver).toBe(use.over === overOn(piece.weave, design.advised))
      expect(use.isAdvised).toBe(design.advised === null || isAdvisedCloth(piece, design.advised))
      expect(use.fit.kind).toBe(fitPiece({ ...size, over: use.over, ...settings }, piece).kind)
    }
    const asked = async (query: string) =>
      answer(listPieceDesigns, pieceDesigns, {
        path: `cloth/${piece.id}/designs?owner=${ownerId}&chartOwner=any&${query}`,
        parts: { clothPieceId: piece.id },
      })
    const overOne = await asked('over=1&asAsked=true')
    expect(overOne.designs.every(({ over, fit }) => over === 1 && fit.kind === 'fits')).toBe(true)
    const ready = await asked('stitchableNow=true')
    expect(ready.designs.every(({ isStitchableNow }) => isStitchableNow)).toBe(true)
    expect(ready.total).toBeLessThan(all.total)
    const second = await asked(`limit=1&after=${all.designs[0]?.designId}`)
    expect(second.designs.map(({ designId }) => designId)).toEqual([all.designs[1]?.designId])
    const gone = await problem(pieceDesigns, { path: 'cloth/none/designs', parts: { clothPieceId: 'none' } })
    expect(gone.status).toBe(404)
  })

  // Question 10 of the trade: "Have I 32-count in anything grey-blue at least 14 × 18?"
  it('finds 32 count in anything grey-blue at least 14 × 18, near counts and either way round', async () => {
    const mist = { L: 66, a: -2, b: -7 }
    const add = async (label: string, change: Partial<ClothInput>) => {
      granted(await addCloth(aPiece({ ownerId, label, name: 'Found', lab: mist, ...change })))
    }
    await add('Q-1', { widthUm: 14 * inch, heightUm: 18 * inch })
    await add('Q-2', { ends: perInch(31), picks: perInch(33), widthUm: 18 * inch, heightUm: 14 * inch })
    await add('Q-3', { lab: null, colourName: 'Storm Blue Grey' })
    await add('Q-4', { widthUm: 13.5 * inch })
    await add('Q-5', { lab: { L: 85, a: 1.5, b: 16 } })
    await add('Q-6', { ends: perInch(28), picks: perInch(28) })
    await add('Q-7', { widthUm: 18 * inch, heightUm: 14 * inch, isTurnable: false })
    const found = await answer(listClothOperation, cloth, {
      path: `cloth?owner=${ownerId}&count=32&colour=grey-blue&sizeAtLeast=14+x+18&free=true&limit=200`,
    })
    const ours = found.pieces.filter(({ name }) => name === 'Found').map(({ label }) => label)
    expect(ours.sort()).toEqual(['Q-1', 'Q-2', 'Q-3'])
    for (const { widthUm, heightUm } of found.pieces) {
      expect(Math.min(widthUm, heightUm)).toBeGreaterThanOrEqual(14 * inch)
      expect(Math.max(widthUm, heightUm)).toBeGreaterThanOrEqual(18 * inch)
    }
    const unread = await problem(cloth, { path: 'cloth?sizeAtLeast=large' })
    expect(unread).toMatchObject({ status: 400, errors: [{ parameter: 'sizeAtLeast', accepted: '14 x 18 in, 35 x 45 cm' }] })
  })
})
