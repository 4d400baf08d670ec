import { beforeAll, expect, it } from 'vitest'
import { finishOperations } from '#api/finishes'
import { listTravellingOperation } from '#api/projects'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { listUnframed } from '#lib/db/finish/list-unframed'
import { findFinish, readYear } from '#lib/db/finish/read-finishes'
import { sendAway } from '#lib/db/loan/send'
import { newId } from '#lib/db/new-id'
import { finishProject } from '#lib/db/project/finish-project'
import { kitProject } from '#lib/db/project/kit-project'
import { listTravelling } from '#lib/db/project/list-travelling'
import { moveProject } from '#lib/db/project/move-project'
import { setFrame } from '#lib/db/project/set-frame'
import { startProject } from '#lib/db/project/start-project'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { GET as getYear } from '../../app/api/v1/finishes/[year]/route'
import { GET as getYears } from '../../app/api/v1/finishes/route'
import { GET as getFinish } from '../../app/api/v1/projects/[projectId]/finish/route'
import { POST as postFrame } from '../../app/api/v1/projects/[projectId]/frame/route'
import { GET as getTravelling } from '../../app/api/v1/projects/travelling/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addCharted, addKey, addLarkholm, aPlace, aStart, goods, hanneDrewitt, skein } from './things'

describeOnEachEngine('finished pieces', ({ open }) => {
  const hanne = hanneDrewitt()
  const ids = { drawer: newId(), maud: newId(), line: newId(), red: newId(), chart: newId(), design: newId(), list: newId() }
  const inch = (inches: number) => inches * UM_PER_INCH
  let projectId = ''

  // Rook Hill in Snow of scenario A1, 140 × 98 on 28 over two: 10 × 7 in.
  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: hanne })
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T1', 'drawer'), aPlace(ids.maud, 'Maud Ferriby', 'framer')] })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: {
        id: ids.line,
        makerId,
        name: 'stranded',
        nameKey: 'stranded',
        strands: 6,
        putUpStrandTenths: skein,
        priceMinor: 115,
      },
    })
    await prisma.thread.create({ data: { id: ids.red, lineId: ids.line, code: '0311' } })
    granted(await receiveThread(goods({ threadId: ids.red, ownerId: hanne.id, wholePutUps: 4, homePlaceId: ids.drawer })))
    await addCharted(open(), { ownerId: hanne.id, title: 'Rook Hill in Snow', chartId: ids.chart, designId: ids.design })
    await prisma.chart.update({ where: { id: ids.chart }, data: { priceMinor: 1_100 } })
    await prisma.design.update({ where: { id: ids.design }, data: { widthStitches: 140, heightStitches: 98 } })
    const keyed = [{ threadId: ids.red, strands: 2, statedHundredths: 200 }]
    await addKey(open(), { id: ids.list, designId: ids.design, name: 'cotton', keyed })
    const { id: clothPieceId } = granted(
      await addCloth({
        ...{ label: 'L-1', makerName: null, name: 'evenweave', colourName: null, lab: null, weave: 'single' as const },
        ...{ ends: { threads: 28, perUm: UM_PER_INCH }, picks: { threads: 28, perUm: UM_PER_INCH } },
        ...{ widthUm: inch(18), heightUm: inch(27), countCertainty: 'label' as const, isSquared: true },
        ...{ sizeCertainty: 'measured' as const, isTurnable: true, oneWayBecause: null, dyeing: null, washState: 'new' as const },
        ...{ washedOn: null, note: null, ownerId: hanne.id, placeLabel: null },
      }),
    )
    await prisma.clothPiece.update({ where: { id: clothPieceId }, data: { priceMinor: 1_450 } })
    projectId = granted(
      await startProject(aStart({ designId: ids.design, threadListId: ids.list, ownerId: hanne.id, clothPieceId, over: 2 })),
    ).projectId
    granted(await kitProject({ projectId, bagLabel: 'K-07', takesChart: false }))
  })

  it('are small enough to take along while kitted, whichever way round, with their bag', async () => {
    const within = async (width: number, height: number) =>
      listTravelling({ ownerIds: [hanne.id], most: { widthUm: inch(width), heightUm: inch(height) } })
    expect(await within(7, 10)).toMatchObject({
      works: [{ id: projectId, size: { widthUm: inch(10), heightUm: inch(7) }, cloth: { label: 'L-1' }, bag: { label: 'K-07' } }],
      unknown: 0,
    })
    expect(await within(7, 9.9)).toEqual({ works: [], unknown: 0 })
    const said = await answer(listTravellingOperation, getTravelling, {
      path: `projects/travelling?owner=${hanne.id}&widthUm=${inch(10)}`,
    })
    expect(said).toMatchObject({ projects: [{ projectId, bag: { label: 'K-07' } }] })
    granted(await moveProject({ projectId, to: 'stitching', today: '2026-05-02' }))
    expect(await within(10, 10)).toEqual({ works: [], unknown: 0 })
  })

  it('take no frame before the last stitch', async () => {
    expect(await setFrame({ projectId, otherCostMinor: 1 })).toEqual({
      ...{ ok: false, error: { kind: 'not-stitched', status: 'stitching' } },
    })
    expect(await setFrame({ projectId: newId(), otherCostMinor: 1 })).toMatchObject({
      ok: false,
      error: { kind: 'no-such-project' },
    })
    expect(await problem(postFrame, { parts: { projectId }, body: { otherCostMinor: 1 } })).toMatchObject({
      detail: expect.stringContaining('not stitched yet'),
    })
    expect(await listUnframed([hanne.id])).toEqual([])
  })

  it('are not framed while stitched, and then with the framer, since when and at what price', async () => {
    granted(await moveProject({ projectId, to: 'stitched', today: '2026-09-01' }))
    expect(await listUnframed([hanne.id])).toMatchObject([{ title: 'Rook Hill in Snow', status: 'stitched', sent: null }])
    granted(
      await sendAway({
        ...{ withLabel: 'Maud Ferriby', withKind: 'framer', ownerId: hanne.id, reason: 'framing', fromOn: '2026-09-10' },
        ...{ dueOn: '2026-10-08', note: null, things: [], projectId, priceMinor: 4_500 },
      }),
    )
    const [away] = await listUnframed([hanne.id])
    expect(away?.sent).toMatchObject({ fromOn: '2026-09-10', dueOn: '2026-10-08', priceMinor: 4_500 })
    expect(away?.sent?.place).toMatchObject({ label: 'Maud Ferriby', kind: 'framer' })
    expect(await listUnframed([newId()])).toEqual([])
  })

  it('have the colours really used, the cost and the frame', async () => {
    granted(
      await finishProject({
        ...{ projectId, finishedOn: '2026-09-30', hoursTenths: 1_120, stitchesDone: 11_270, missingBatchIds: [] },
        // A skein and a half of the two.
        used: [{ threadId: ids.red, strandTenths: (skein * 3) / 2 }],
        // 18 × 7 in of the cloth came back.
        cloth: { kind: 'used', offcuts: [{ widthUm: inch(18), heightUm: inch(7), label: 'L-1a', placeLabel: null }] },
        ...{ finishing: 'Framed', forWhom: 'Ines Coldwell', placeLabel: 'Maud Ferriby', note: null, photo: null },
      }),
    )
    const { version } = await open().prisma.project.findUniqueOrThrow({ where: { id: projectId } })
    granted(await setFrame({ projectId, version, otherCostMinor: 650 }))
    expect(await setFrame({ projectId, version, otherCostMinor: 1 })).toMatchObject({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })

    const found = await findFinish(projectId)
    expect(found?.colours).toMatchObject([{ thread: { code: '0311' }, strandTenths: (skein * 3) / 2, how: null }])
    // 1.5 × 1.15 = 1.725; 14.50 × 360/486 = 10.74; the chart 11.00, the framer 45.00 and 6.50.
    expect(found?.cost.lines.map(({ kind, costMinor }) => [kind, costMinor])).toEqual([
      ['thread', 173],
      ['cloth', 1_074],
      ['chart', 1_100],
      ['sent', 4_500],
      ['other', 650],
    ])
    expect(found?.cost).toMatchObject({ totalMinor: 7_497, unknown: 0 })
    // 0.75 in are seen around 10 × 7 in.
    expect(found?.frame.measured).toBeNull()
    expect(found?.frame.reckoned?.opening).toEqual({ widthUm: inch(11.5), heightUm: inch(8.5) })
    expect(await findFinish(newId())).toBeNull()
  })

  it('have their frame as it was measured, over the API too, and are summed by their year', async () => {
    const frame = { widthUm: inch(14), heightUm: inch(11) }
    const kept = await answer(finishOperations.setFrame, postFrame, { parts: { projectId }, body: { frame } })
    expect(kept).toMatchObject({ frame: { measured: frame }, otherCostMinor: 650, forWhom: 'Ines Coldwell' })
    expect(await answer(finishOperations.find, getFinish, { parts: { projectId } })).toEqual(kept)

    const { sum, finishes } = await readYear([hanne.id], '2026')
    expect(sum).toMatchObject({ pieces: 1, stitches: 11_270, hoursTenths: 1_120, threadTenths: 120_000, firstId: projectId })
    expect(sum.months[8]).toMatchObject({ month: '2026-09', pieces: 1, stitches: 11_270 })
    expect(finishes).toHaveLength(1)
    expect((await readYear([hanne.id], '2025')).sum).toMatchObject({ pieces: 0, firstId: null })
    const year = await answer(finishOperations.year, getYear, {
      parts: { year: '2026' },
      path: `finishes/2026?owner=${hanne.id}`,
    })
    expect(year.threadByPiece).toEqual([{ projectId, threadTenths: 120_000 }])
    expect(year).toMatchObject({ pieces: 1, cost: { totalMinor: 7_497 }, longest: { projectId, hoursTenths: 1_120, days: null } })
    const years = await answer(finishOperations.list, getYears, { path: `finishes?owner=${hanne.id}` })
    expect(years.years).toEqual([{ year: '2026', pieces: 1, stitches: 11_270, hoursTenths: 1_120 }])
    // Finished, and at the framer's still.
    expect(years.unframed).toMatchObject([{ projectId, status: 'finished', sent: { priceMinor: 4_500 } }])
  })
})
