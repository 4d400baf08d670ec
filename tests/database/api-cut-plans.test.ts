import { beforeAll, expect, it } from 'vitest'
import {
  carryOutCutPlanOperation,
  getCutJob,
  getCutPlan,
  giveUpCutPlanOperation,
  keepCutPlanOperation,
  listCutPlansOperation,
  startCutJobOperation,
  stopCutJobOperation,
} from '#api/cut-plans'
import { listClothOperation } from '#api/stock'
import { newId } from '#lib/db/new-id'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { GET as cloth } from '../../app/api/v1/cloth/route'
import { GET as job } from '../../app/api/v1/cut-jobs/[jobId]/route'
import { POST as stop } from '../../app/api/v1/cut-jobs/[jobId]/stop/route'
import { POST as start } from '../../app/api/v1/cut-jobs/route'
import { POST as carryOut } from '../../app/api/v1/cut-plans/[cutPlanId]/carry-out/route'
import { POST as giveUp } from '../../app/api/v1/cut-plans/[cutPlanId]/give-up/route'
import { GET as plan } from '../../app/api/v1/cut-plans/[cutPlanId]/route'
import { POST as keep, GET as plans } from '../../app/api/v1/cut-plans/route'
import { bundleWorkers } from '../../prisma/bundle-workers.mjs'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { aPlace, theShop } from './things'

const inches = (width: number, height: number) => ({ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH })

describeOnEachEngine('plans of cuts over the API', ({ open }) => {
  const shop = theShop()
  const [box, lanterns, unsized, quarter, oddment] = [newId(), newId(), newId(), newId(), newId()]

  beforeAll(async () => {
    await bundleWorkers()
    const { prisma } = open()
    await prisma.owner.create({ data: shop })
    await prisma.place.create({ data: aPlace(box, 'Box L3', 'box') })
    const advised = { advisedThreads: 28, advisedPerUm: UM_PER_INCH, advisedOver: 2, advisedWeave: 'single' }
    const named = (title: string) => ({ title, titleKey: title.toLowerCase() })
    await prisma.chart.create({
      data: {
        ...{ id: newId(), ...named('Seven Lanterns'), ownerId: shop.id },
        designs: {
          create: [
            { id: lanterns, ...named('Seven Lanterns'), widthStitches: 84, heightStitches: 84, ...advised },
            { id: unsized, ...named('Nine Wrens') },
          ],
        },
      },
    })
    const piece = {
      ...{ ownerId: shop.id, name: 'Ostravane evenweave', colourName: 'Oat', weave: 'single', isSquared: true },
      ...{ endsThreads: 28, endsPerUm: UM_PER_INCH, picksThreads: 28, picksPerUm: UM_PER_INCH, sizeCertainty: 'measured' },
      ...{ homePlaceId: box, currentPlaceId: box },
    }
    await prisma.clothPiece.createMany({
      data: [
        { ...piece, id: quarter, label: 'E-05', labelKey: 'e-05', ...inches(18, 27) },
        { ...piece, id: oddment, label: 'ER-1', labelKey: 'er-1', ...inches(6, 9) },
      ],
    })
  })

  const begin = (body: object) => answer(startCutJobOperation, start, { body })
  async function ended(jobId: string) {
    for (;;) {
      const now = await answer(getCutJob, job, { parts: { jobId } })
      if (now.state !== 'running') return now
      await new Promise((resolve) => setTimeout(resolve, 20))
    }
  }
  /** Two ornaments of 10 × 10 in and one 6 × 12, from the fat quarter. */
  const ornaments = {
    wishes: [
      { kind: 'design', designId: lanterns, finishing: 'ornament', copies: 2 },
      { kind: 'size', ...inches(6, 12) },
    ],
  }

  it('searches in the background, keeps what it finds, and sets the piece aside', async () => {
    const begun = await begin(ornaments)
    expect(begun).toMatchObject({ timeLimitSeconds: 20 })
    const done = await ended(begun.jobId)
    // 84 stitches over two on 28 count are 6 in, and 2 in on each side: 10 × 10. Two of them upright in 18 × 27 leave 8 in beside.
    expect(done).toMatchObject({ state: 'searched', found: { copies: 3, cutCopies: 3, isProved: true, leftOut: [] } })
    const [cut] = done.found?.pieces ?? []
    expect(cut).toMatchObject({ clothPieceId: quarter, label: 'E-05', ...inches(18, 27) })
    const wanted = cut?.parts.filter(({ kind }) => kind === 'wanted') ?? []
    expect(wanted.map(({ title, sizeText }) => [title, sizeText]).sort()).toEqual([
      ['6 × 12 in', expect.stringMatching(/^(6 × 12|12 × 6) in$/)],
      ['Seven Lanterns', '10 × 10 in'],
      ['Seven Lanterns', '10 × 10 in'],
    ])
    expect(cut?.steps[0]).toMatch(/^Cut straight (across|up), /)

    const kept = await answer(keepCutPlanOperation, keep, { body: { jobId: begun.jobId, title: 'Autumn class' } })
    expect(kept).toMatchObject({
      title: 'Autumn class',
      status: 'kept',
      objective: 'largest offcut',
      found: done.found,
      made: [],
    })
    expect((await problem(keep, { body: { jobId: begun.jobId, title: 'Once more' } })).detail).toContain('Autumn class')
    const { pieces } = await answer(listClothOperation, cloth)
    expect(pieces.find(({ clothPieceId }) => clothPieceId === quarter)?.plannedIn).toEqual([
      { cutPlanId: kept.cutPlanId, title: 'Autumn class' },
    ])
    expect((await answer(listClothOperation, cloth, { path: 'cloth?free=true' })).pieces.map(({ label }) => label)).toEqual([
      'ER-1',
    ])
    // Nothing else that takes a piece of 10 × 10 is free.
    expect(await problem(start, { body: { wishes: ornaments.wishes.slice(0, 1) } })).toMatchObject({
      status: 409,
      detail: 'No free piece takes any of it.',
    })

    const listed = await answer(listCutPlansOperation, plans)
    expect(listed.cutPlans).toMatchObject([{ cutPlanId: kept.cutPlanId, status: 'kept', pieces: [{ label: 'E-05' }] }])
    const parts = { cutPlanId: kept.cutPlanId }
    expect(await answer(giveUpCutPlanOperation, giveUp, { parts, body: { version: 0 } })).toMatchObject({ status: 'dropped' })
    expect((await problem(giveUp, { parts, body: {} })).status).toBe(409)
    expect(await answer(getCutPlan, plan, { parts })).toMatchObject({ status: 'dropped', version: 1 })
  })

  it('writes down what was cut, with all the cloth accounted for', async () => {
    const { jobId } = await begin(ornaments)
    await ended(jobId)
    const kept = await answer(keepCutPlanOperation, keep, { body: { jobId, title: 'Autumn class' } })
    const path = { cutPlanId: kept.cutPlanId }
    const [cut] = kept.found.pieces
    const all = (cut?.parts ?? []).map(({ key, widthUm, heightUm }, at) => ({ key, widthUm, heightUm, label: `E-05-${at + 1}` }))
    const tooMuch = all.map((part, at) => (at === 0 ? { ...part, ...inches(18, 20) } : part))
    expect(await problem(carryOut, { parts: path, body: { pieces: [{ clothPieceId: quarter, parts: tooMuch }] } })).toMatchObject(
      {
        status: 409,
        detail: expect.stringContaining('E-05'),
      },
    )
    const done = await answer(carryOutCutPlanOperation, carryOut, {
      parts: path,
      body: { version: 0, pieces: [{ clothPieceId: quarter, parts: all }], who: 'Nell Oxtoby' },
    })
    expect(done.cutPlan).toMatchObject({ status: 'cut', version: 1 })
    expect(done.cutPlan.made.map(({ label, parentId }) => [label, parentId])).toEqual(all.map(({ label }) => [label, quarter]))
    const madeUm2 = done.cutPlan.made.reduce((sum, { widthUm, heightUm }) => sum + widthUm * heightUm, 0)
    expect(madeUm2 + (done.pieces[0]?.wasteUm2 ?? 0)).toBe(18 * 27 * UM_PER_INCH ** 2)
    const { pieces } = await answer(listClothOperation, cloth)
    expect(pieces.map(({ label }) => label).sort()).toEqual(['ER-1', ...all.map(({ label }) => label)].sort())
    expect((await problem(carryOut, { parts: path, body: { pieces: [{ clothPieceId: quarter, parts: all }] } })).detail).toBe(
      'It was carried out already.',
    )
  })

  it('says what is wrong with what is asked, and what nobody knows', async () => {
    const size = { kind: 'size', ...inches(4, 4) }
    expect(await problem(start, { body: { wishes: [size, { kind: 'design', designId: unsized }] } })).toMatchObject({
      status: 422,
      errors: [{ field: '/wishes/1', message: 'Nobody knows how large the design is.' }],
    })
    expect(await problem(start, { body: { wishes: [{ kind: 'design', designId: 'none' }] } })).toMatchObject({
      errors: [{ field: '/wishes/0' }],
    })
    expect(
      await problem(start, { body: { wishes: [{ kind: 'design', designId: lanterns, finishing: 'gilded' }] } }),
    ).toMatchObject({
      errors: [{ field: '/wishes/0/finishing' }],
    })
    expect(await problem(start, { body: { wishes: [size, { ...size, copies: 200 }] } })).toMatchObject({
      errors: [{ field: '/wishes' }],
    })
    expect((await problem(start, { body: { wishes: [size], pieceIds: ['none'] } })).detail).toContain('none')
    expect((await problem(job, { parts: { jobId: 'none' } })).status).toBe(404)
    expect((await problem(stop, { method: 'POST', parts: { jobId: 'none' } })).status).toBe(404)
    expect((await problem(plan, { parts: { cutPlanId: 'none' } })).status).toBe(404)
    expect((await problem(giveUp, { body: {}, parts: { cutPlanId: 'none' } })).status).toBe(404)
    expect((await problem(keep, { body: { jobId: 'none', title: 'Class' } })).errors).toMatchObject([{ field: '/jobId' }])
  })

  it('stops a search with the best it has', async () => {
    const { jobId } = await begin({ wishes: [{ kind: 'size', ...inches(2, 3) }], pieceIds: [oddment], timeLimitSeconds: 60 })
    const stopped = await answer(stopCutJobOperation, stop, { method: 'POST', parts: { jobId } })
    expect(['stopped', 'searched']).toContain(stopped.state)
  })
})
