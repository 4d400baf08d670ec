import { beforeAll, beforeEach, expect, it } from 'vitest'
import { getAllowance } from '#api/allowance'
import { getDesign, getDesignCoverage } from '#api/designs'
import { addChart } from '#lib/db/chart/add-chart'
import type { DesignInput } from '#lib/db/chart/add-design'
import { editDesign } from '#lib/db/chart/edit-design'
import { findDesign } from '#lib/db/chart/find-design'
import { type KeyLineInput, saveThreadList } from '#lib/db/chart/save-thread-list'
import { newId } from '#lib/db/new-id'
import type { Leftover } from '#lib/db/project/finish-leftovers'
import { finishProject } from '#lib/db/project/finish-project'
import { readFinishSheet } from '#lib/db/project/finish-sheet'
import { kitProject } from '#lib/db/project/kit-project'
import { moveProject } from '#lib/db/project/move-project'
import { findProject } from '#lib/db/project/queries'
import { startProject } from '#lib/db/project/start-project'
import { findLearntAllowance, listUseReadings } from '#lib/db/settings/use-readings'
import { receiveThread } from '#lib/db/stock/receive-thread'
import type { StitchTally } from '#lib/thread/stitches'
import { ask } from '#tests/unit/api/ask'
import { GET as allowance } from '../../app/api/v1/allowance/route'
import { GET as designCoverage } from '../../app/api/v1/designs/[designId]/coverage/route'
import { GET as design } from '../../app/api/v1/designs/[designId]/route'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, addLarkholm, aLeaflet, aPlace, aStart, goods, hanneDrewitt, skein } from './things'

/** The pitch at 14 to the inch in tenths of a millimetre. */
const pitchTenths = 254 / 14

describeOnEachEngine('thread use', ({ open }) => {
  const owner = hanneDrewitt()
  const drawer = newId()
  const asked = `?owner=${owner.id}`
  const threads: Record<string, string> = {}
  let titles = 0

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: owner })
    await prisma.place.create({ data: aPlace(drawer, 'T2.2-05', 'compartment') })
    const makerId = await addLarkholm(open())
    for (const [name, putUpMilligrams, codes] of [
      ['stranded', 4_600, ['0311', '0742']],
      ['pearl', null, ['0087']],
    ] as const) {
      const lineId = newId()
      const line = { makerId, name, nameKey: name, strands: 6, putUpStrandTenths: skein, putUpMilligrams }
      await prisma.threadLine.create({ data: { id: lineId, ...line } })
      for (const code of codes) {
        const id = newId()
        threads[code] = id
        await prisma.thread.create({ data: { id, lineId, code } })
      }
    }
  })

  // One skein of each thread in its drawer, and nothing else.
  beforeEach(async () => {
    const { prisma } = open()
    const other = newId()
    await prisma.owner.create({ data: { id: other, name: other, nameKey: other } })
    await prisma.batch.updateMany({ where: { ownerId: owner.id }, data: { ownerId: other } })
    await prisma.project.updateMany({ where: { ownerId: owner.id }, data: { ownerId: other } })
    for (const threadId of Object.values(threads)) {
      granted(await receiveThread(goods({ threadId, ownerId: owner.id, wholePutUps: 1, homePlaceId: drawer })))
    }
  })

  const threadOf = (code: string) => threads[code] as string

  const onLinen = (title: string, allowance: DesignInput['allowance']) =>
    aDesign(title, { advised: { count: { threads: 28, perUm: 25_400 }, over: 2 }, allowance })

  const worked = (code: string, tally: StitchTally | null, statedHundredths: number | null = null): KeyLineInput => ({
    ...{ symbol: code, note: null, tally },
    threads: [{ makerName: 'Larkholm', lineName: null, code, name: null, strands: 2, statedHundredths, putUpTenths: null }],
  })

  /** A design with one list of these key lines. */
  async function charted(keyLines: KeyLineInput[], own: DesignInput['allowance'] = null) {
    titles += 1
    const title = `Nine Wrens ${titles}`
    const design = onLinen(title, own)
    const { designId } = granted(await addChart({ ...aLeaflet(title, owner.id), isAnother: true, design }))
    const { listId } = granted(await saveThreadList({ designId, list: null, name: 'Cotton', keyLines, mayAdd: new Set() }))
    return { title, designId, listId }
  }

  /** Started, kitted from the drawer, and being stitched. */
  async function stitching({ designId, listId }: { designId: string; listId: string }) {
    const start = aStart({ designId, threadListId: listId, ownerId: owner.id })
    const { projectId } = granted(await startProject(start))
    granted(await kitProject({ projectId, bagLabel: `K-${titles}`, takesChart: false }))
    granted(await moveProject({ projectId, to: 'stitching', today: '2026-10-01' }))
    return projectId
  }

  const finish = (projectId: string, leftovers: Leftover[], missingBatchIds: string[] = []) =>
    finishProject({
      ...{ projectId, finishedOn: '2026-11-20', hoursTenths: 405, stitchesDone: 8_000, used: [], leftovers, missingBatchIds },
      ...{ cloth: { kind: 'used', offcuts: [] }, finishing: null, forWhom: null, placeLabel: null, note: null, photo: null },
    })

  const partOf = async (code: string) =>
    open().prisma.batch.findFirstOrThrow({
      where: { ownerId: owner.id, threadId: threadOf(code), goneAt: null },
      select: { wholePutUps: true, partStrandTenths: true, partCertainty: true },
    })

  it('keeps satin and eyelets of a key, and counts them', async () => {
    const { designId } = await charted([worked('0311', { satin: 60, eyelet: 4, bead: 12 })])
    expect((await findDesign(designId))?.lists[0]?.keyLines[0]?.tally).toMatchObject({ satin: 60, eyelet: 4, bead: 12, full: 0 })
    const answered = await ask(designCoverage, { parts: { designId }, path: asked })
    const { cover, beadCount } = getDesignCoverage.answer.parse(answered.body)
    // Two strands, allowance 1.5: satin 60 × 2, eyelets 4 × (8 + 8 √2), beads 12 × (√2 + 1) pitches, and 12 × 3 mm flat.
    const pitches = 60 * 2 + 4 * (8 + 8 * Math.SQRT2) + 12 * (Math.SQRT2 + 1)
    expect(cover.threads[0]?.need.strandTenths).toBe(Math.ceil(pitches * pitchTenths * 2 * 1.5 + 12 * 30 * 2))
    expect(beadCount).toBe(12)
  })

  it('reckons a design with its own allowance, in every answer', async () => {
    // Of one 8 m skein, two strands at 14 to the inch, come 1,826 crosses at 1.5, 1,521 at 1.8 and 1,711 at 1.6.
    const { title, designId } = await charted([worked('0311', { full: 1_700 })])
    const answers = async () => {
      const of = { parts: { designId }, path: asked }
      const inBrief = getDesign.answer.parse((await ask(design, of)).body)
      const inFull = getDesignCoverage.answer.parse((await ask(designCoverage, of)).body)
      expect(inFull.cover.isStitchable).toBe(inBrief.threads?.isStitchable)
      return [inFull.allowance, inFull.cover.isStitchable]
    }
    expect(await answers()).toEqual([1.5, true])
    let version = 0
    for (const [own, factor, isStitchable] of [
      [{ profile: 'scattered' }, 1.8, false],
      [{ profile: 'own', hundredths: 160 }, 1.6, true],
      [{ profile: 'solid blocks' }, 1.3, true],
      [null, 1.5, true],
    ] as const) {
      expect((await editDesign({ id: designId, version: version++, design: onLinen(title, own) })).ok).toBe(true)
      expect((await findDesign(designId))?.design.allowance).toEqual(own)
      expect(await answers()).toEqual([factor, isStitchable])
    }
  })

  it('learns from leftovers that were weighed or measured, of threads the key counts in stitches', async () => {
    const { title, ...made } = await charted([
      worked('0311', { full: 1_000, knotOneWrap: 30 }),
      worked('0742', null, 80),
      worked('0087', { half: 900 }),
    ])
    const projectId = await stitching(made)
    expect(
      (await readFinishSheet(projectId))?.threads.map(({ thread, putUpMilligrams }) => [thread.code, putUpMilligrams]),
    ).toEqual([
      ['0087', null],
      ['0311', 4_600],
      ['0742', 4_600],
    ])
    const finished = await finish(projectId, [
      { threadId: threadOf('0311'), how: 'weighed', milligrams: 1_840 },
      { threadId: threadOf('0742'), how: 'measured', strandTenths: 60_000 },
      { threadId: threadOf('0087'), how: 'measured', strandTenths: 360_000 },
    ])
    expect(finished.ok).toBe(true)
    // 1.84 of 4.6 g is 0.4 of a skein.
    expect(await partOf('0311')).toEqual({ wholePutUps: 0, partStrandTenths: 0.4 * skein, partCertainty: 'measured' })
    expect(await partOf('0742')).toEqual({ wholePutUps: 0, partStrandTenths: 60_000, partCertainty: 'measured' })
    expect(await partOf('0087')).toEqual({ wholePutUps: 0, partStrandTenths: 360_000, partCertainty: 'measured' })

    const { readings } = await listUseReadings([owner.id], { limit: 10 })
    const told = readings.map(({ thread, how, usedStrandTenths, plainStrandTenths, flatStrandTenths, piece }) => [
      ...[thread.code, how, usedStrandTenths, plainStrandTenths, flatStrandTenths, piece.title],
    ])
    expect(told.sort()).toEqual([
      ['0087', 'measured', skein - 360_000, Math.ceil(900 * (Math.SQRT2 + 1) * pitchTenths * 2), 0, title],
      ['0311', 'weighed', 0.6 * skein, Math.ceil(1_000 * 2 * (Math.SQRT2 + 1) * pitchTenths * 2), 30 * 120 * 2, title],
    ])
    expect(await findLearntAllowance([owner.id])).toEqual({ learnt: null, readingCount: 2 })
  })

  it('offers what was learnt, and changes nothing by itself', async () => {
    for (const left of [0.3, 0.35, 0.4]) {
      const projectId = await stitching(await charted([worked('0311', { full: 1_200 })]))
      const finished = await finish(projectId, [{ threadId: threadOf('0311'), how: 'measured', strandTenths: left * skein }])
      expect(finished.ok).toBe(true)
      await open().prisma.batch.updateMany({
        where: { ownerId: owner.id, threadId: threadOf('0311') },
        data: { wholePutUps: 1, partStrandTenths: 0, partCertainty: 'none' },
      })
    }
    const answered = getAllowance.answer.parse((await ask(allowance, { path: `${asked}&limit=2` })).body)
    // 0.65 of a skein over 1,200 crosses of two strands: 312,000 ÷ 210,243.5.
    expect(answered).toMatchObject({ allowance: 1.5, readingCount: 3, learnt: { factor: 1.48, colourCount: 3, pieceCount: 3 } })
    expect(answered.readings).toHaveLength(2)
    const after = answered.next ?? ''
    const rest = getAllowance.answer.parse((await ask(allowance, { path: `${asked}&limit=2&after=${after}` })).body)
    expect([rest.readings.length, rest.next]).toEqual([1, null])
  })

  it('writes nothing when a leftover cannot be', async () => {
    const projectId = await stitching(await charted([worked('0311', { full: 500 }), worked('0087', { full: 500 })]))
    const red = threadOf('0311')
    const refusals = [
      await finish(projectId, [{ threadId: threadOf('0087'), how: 'weighed', milligrams: 100 }]),
      await finish(projectId, [{ threadId: red, how: 'measured', strandTenths: skein + 1 }]),
      await finish(projectId, [{ threadId: threadOf('0742'), how: 'measured', strandTenths: 0 }]),
    ]
    expect(refusals.map((refused) => !refused.ok && refused.error)).toEqual([
      { kind: 'no-weight', threadId: threadOf('0087') },
      { kind: 'more-left-than-brought', threadId: red, broughtStrandTenths: expect.any(Number), leftStrandTenths: skein + 1 },
      { kind: 'nothing-in-bag', threadId: threadOf('0742') },
    ])
    expect(await findProject(projectId)).toMatchObject({ status: 'stitching' })
    expect((await listUseReadings([owner.id], { limit: 10 })).readings).toEqual([])
  })
})
