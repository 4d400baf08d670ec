import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { KeyReading, ReadFacts, ReadField, ReadKeyLine } from '#lib/chart/key-text/reading'
import { unknownKeyOf } from '#lib/chart/unknown-threads'
import { addChart } from '#lib/db/chart/add-chart'
import { findDesign } from '#lib/db/chart/find-design'
import { findThreadList } from '#lib/db/chart/queries'
import { readCovers } from '#lib/db/chart/read-covers'
import { saveThreadList } from '#lib/db/chart/save-thread-list'
import { prepareFile } from '#lib/db/file/prepare-file'
import { listFiles } from '#lib/db/file/queries'
import { correctReading, undoCorrection } from '#lib/db/reading/correct-reading'
import {
  findStagedReading,
  keepStagedCover,
  listStagedReadings,
  type StagedReading,
  stageReading,
} from '#lib/db/reading/reading-store'
import { type ReadingTarget, type SaveReading, saveReading } from '#lib/db/reading/save-reading'
import { readText } from '#lib/db/reading/start-reading'
import { undoSavedReading } from '#lib/db/reading/undo-saved-reading'
import { addThread } from '#lib/db/thread/add-thread'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, aLeaflet, aThread, hanneDrewitt, stranded, theShop } from './things'

const field = <T>(value: T): ReadField<T> => ({ value, confidence: 1, line: 0 })
const noFacts: ReadFacts = {
  ...{ title: null, designer: null, widthStitches: null, heightStitches: null, measuredWidthUm: null, measuredHeightUm: null },
  ...{ count: null, over: null, weave: null, cloth: null },
}
type ReadThread = ReadKeyLine['threads'][number]
const named = (code: string, match: ReadThread['match'], maker = 'Larkholm', threadLine = 'stranded'): ReadThread => ({
  named: { maker: field(maker), threadLine: field(threadLine), code: field(code), name: null, strands: field(2) },
  match,
})
const known = (code: string, threadId: string) => named(code, { kind: 'known', threadId, confidence: 1, by: 'code' })
const fresh = (code: string, maker?: string, line?: string) => named(code, { kind: 'new', lacks: [] }, maker, line)
const aLine = (symbol: string, thread: ReadThread, stitches: number): ReadKeyLine => ({
  ...{ from: [0], symbol: field(symbol), threads: [thread], stitches: null, rest: null },
  amounts: [{ kind: 'stitches', stitch: 'full', count: field(stitches) }],
})

describeOnEachEngine('reading a key and saving it', ({ open }) => {
  const [hanne, shop] = [hanneDrewitt(), theShop()]
  let folder = ''
  let threadId = ''
  const before = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-readings-'))
    process.env.LARDER_DATA = folder
    await open().prisma.owner.create({ data: hanne })
    await open().prisma.owner.create({ data: shop })
    threadId = granted(await addThread({ ...aThread('0311', { name: 'Deep Mussel' }), line: stranded() })).threadId
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  const stage = (reading: KeyReading, over: Partial<StagedReading> = {}, bytes: Uint8Array | null = null) =>
    stageReading(
      {
        ...{ ownerId: hanne.id, groupId: 'g', position: 0, name: 'salt-road.pdf', source: { kind: 'text' }, designId: null },
        ...{ state: { kind: 'read' }, pageCount: null, wasPhotographed: false, hasCover: false, before: [] },
        review: { lines: [{ page: 0, cells: [] }], lessons: [], edits: [], dismissed: [], reading },
        ...over,
      },
      bytes,
    )
  const twoLines = (): KeyReading => ({
    designs: [
      {
        facts: { ...noFacts, widthStitches: field(140), heightStitches: field(98), count: field({ threads: 28, perUm: 25_400 }) },
        lists: [{ name: null, lines: [aLine('●', known('0311', threadId), 1_240), aLine('■', fresh('9911'), 44)] }],
      },
    ],
    unread: [],
  })
  const asChart = (title: string, over: object = {}): ReadingTarget => ({
    kind: 'chart',
    chart: { ...aLeaflet(title, hanne.id), isAnother: false, ...over },
    designs: [{ index: 0, title, lists: [{ index: 0, name: 'Cotton' }] }],
  })
  const save = (staged: StagedReading, target: ReadingTarget, over: Partial<SaveReading> = {}) =>
    saveReading({
      ...{ id: staged.id, version: staged.version, ownerIds: [hanne.id], target, mayAdd: new Set<string>(), newLines: [] },
      ...{ leavesOut: false, keepsFile: true, isAnotherFile: false, keepsCover: true, who: null, ...over },
    })
  const kiln = unknownKeyOf({ makerName: 'Larkholm', lineName: 'stranded', code: '9911' })
  const threadOf = (code: string) => open().prisma.thread.findFirst({ where: { code, goneAt: null } })

  it('adds no thread that is not ticked, and says which line waits for it', async () => {
    const staged = await stage(twoLines())
    const refusal = { kind: 'lines-lack', lines: [{ design: 0, list: 0, why: { kind: 'not-to-be-added', line: 1 } }] }
    expect(await save(staged, asChart('The Salt Road'))).toEqual({ ok: false, error: refusal })
    expect(await open().prisma.chart.count()).toBe(0)
    expect((await findStagedReading(staged.id, [hanne.id]))?.state.kind).toBe('read')
  })

  it('saves a chart with its list, file and cover in one change, and takes all of it back', async () => {
    const bytes = new TextEncoder().encode('%PDF-1.4\n% the salt road\n%%EOF\n')
    const file = granted(await prepareFile('salt-road.pdf', bytes))
    const source = { kind: 'pdf', mime: file.mime, bytes: bytes.length, sha256: file.sha256 } as const
    const staged = await stage(twoLines(), { source, hasCover: true, pageCount: 6 }, bytes)
    await keepStagedCover(
      staged.id,
      await sharp({ create: { width: 60, height: 80, channels: 3, background: '#468' } })
        .webp()
        .toBuffer(),
    )

    const saved = granted(await save(staged, asChart('The Salt Road', { kind: 'file' }), { mayAdd: new Set([kiln]) }))
    expect(saved).toMatchObject({ lineCount: 2, leftOut: 0, addedThreads: 1 })
    const [designId = ''] = saved.designIds
    const detail = await findDesign(designId)
    expect(detail).toMatchObject({
      design: {
        ...{ title: 'The Salt Road', size: { kind: 'stitches', width: 140, height: 98 } },
        advised: { count: { threads: 28, perUm: 25_400 }, over: 2 },
      },
      chart: { kind: 'file', owner: { id: hanne.id } },
      lists: [{ name: 'Cotton', isIncomplete: false }],
    })
    expect(await findThreadList(designId, saved.listIds[0] ?? '')).toMatchObject({
      keyLines: [
        { symbol: '●', tally: { full: 1_240 }, threads: [{ threadId, strands: 2 }] },
        { symbol: '■', tally: { full: 44 }, threads: [{ code: '9911', lineName: 'stranded' }] },
      ],
    })
    expect(await listFiles({ noun: 'chart', id: saved.chartId })).toMatchObject([
      { name: 'salt-road.pdf', pages: 6, role: 'chart' },
    ])
    expect((await readCovers([saved.chartId])).size).toBe(1)
    expect((await open().prisma.chart.findFirst())?.coverHash).toMatch(/^[0-9a-f]{16}$/)
    expect((await findStagedReading(staged.id, [hanne.id]))?.state).toMatchObject({ kind: 'saved', changeId: saved.changeId })
    expect(await save({ ...staged, version: 1 }, asChart('Twice'))).toEqual({ ok: false, error: { kind: 'not-under-review' } })

    expect(granted(await undoSavedReading({ changeId: saved.changeId }))).toEqual({ readingId: staged.id, factsLeft: 0 })
    expect(await findDesign(designId)).toBeNull()
    expect(await threadOf('9911')).toBeNull()
    expect(await threadOf('0311')).toMatchObject({ id: threadId })
    expect(await open().prisma.keptFile.count({ where: { goneAt: null } })).toBe(0)
    const moved = await open().prisma.movement.aggregate({ where: { chartId: saved.chartId }, _sum: { wholeDelta: true } })
    expect(moved._sum.wholeDelta).toBe(0)
    expect(await undoSavedReading({ changeId: saved.changeId })).toEqual({ ok: false, error: { kind: 'already-undone' } })

    // Under review again, it can be saved once more.
    const again = (await findStagedReading(staged.id, [hanne.id])) as StagedReading
    expect(again.state).toEqual({ kind: 'read' })
    const twice = granted(await save(again, asChart('The Salt Road'), { mayAdd: new Set([kiln]) }))
    expect(await threadOf('9911')).not.toBeNull()
    // A thread that only came back by it goes again too.
    granted(await undoSavedReading({ changeId: twice.changeId }))
    expect(await threadOf('9911')).toBeNull()
  })

  it('refuses the later of two people who look over the same reading', async () => {
    const staged = await stage(twoLines())
    const title = 'Nine Wrens'
    const both = await Promise.all([
      save(staged, asChart(title), { leavesOut: true }),
      save(staged, asChart(title, { isAnother: true }), { leavesOut: true }),
    ])
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true])
    expect(both.find(({ ok }) => !ok)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await open().prisma.chart.count({ where: { title } })).toBe(1)
  })

  it('leaves out what is not ready where that is said, and marks the list as not whole', async () => {
    const staged = await stage(twoLines())
    const saved = granted(await save(staged, asChart('Winter Post'), { leavesOut: true }))
    expect(saved).toMatchObject({ lineCount: 1, leftOut: 1, addedThreads: 0 })
    expect((await findDesign(saved.designIds[0] ?? ''))?.lists).toMatchObject([{ isIncomplete: true }])
  })

  it('says that a chart of the title is held before it adds another', async () => {
    const refusal = await save(await stage(twoLines()), asChart('Winter Post'), { leavesOut: true })
    expect(refusal).toMatchObject({ ok: false, error: { kind: 'title-held' } })
  })

  it('makes new lines as they are said to be', async () => {
    const reading = twoLines()
    reading.designs[0]?.lists[0]?.lines.push(aLine('▲', fresh('Tarn Blue', 'Oddny Loft', 'Hand-dyed'), 5))
    const tarn = unknownKeyOf({ makerName: 'Oddny Loft', lineName: 'Hand-dyed', code: 'Tarn Blue' })
    const newLines = [{ makerName: 'Oddny Loft', lineName: 'Hand-dyed', strands: 12, putUpTenths: 45_720 }]
    granted(await save(await stage(reading), asChart('Three Jugs'), { mayAdd: new Set([kiln, tarn]), newLines }))
    const line = await open().prisma.threadLine.findFirst({ where: { name: 'Hand-dyed' } })
    // 5 yd are 45,720 tenths of a millimetre, in twelve strands.
    expect(line).toMatchObject({ strands: 12, putUpStrandTenths: 548_640 })
  })

  it('adds a list to a design that is there, fills in what it lacks, and takes back both', async () => {
    const design = aDesign('Orchard Gate', { clothName: 'Ostravane' })
    const { designId } = granted(await addChart({ ...aLeaflet('Orchard Gate', hanne.id), isAnother: false, design }))
    const list = { designId, list: null, name: 'Printed list', keyLines: [], mayAdd: 'all' } as const
    granted(await saveThreadList(list))
    const staged = await stage(twoLines(), { designId })
    const target = (name: string): ReadingTarget => ({
      kind: 'designs',
      designs: [{ index: 0, designId, fillsFacts: true, lists: [{ index: 0, name }] }],
    })
    expect(await save(staged, target('printed LIST'), { leavesOut: true })).toMatchObject({
      ok: false,
      error: { kind: 'list-taken' },
    })
    expect((await findDesign(designId))?.design.size).toEqual({ kind: 'unknown' })
    const saved = granted(await save(staged, target('Cotton'), { leavesOut: true }))
    expect(await findDesign(designId)).toMatchObject({
      design: { size: { kind: 'stitches', width: 140, height: 98 }, advised: { name: 'Ostravane', over: 2 } },
      lists: [{ name: 'Printed list' }, { name: 'Cotton' }],
    })
    granted(await undoSavedReading({ changeId: saved.changeId }))
    expect(await findDesign(designId)).toMatchObject({
      design: { size: { kind: 'unknown' }, advised: null },
      lists: [{ name: 'Printed list' }],
    })
  })

  it('takes nothing back once the list was changed', async () => {
    const saved = granted(await save(await stage(twoLines()), asChart('Hearth and Heron'), { leavesOut: true }))
    const [designId = '', listId = ''] = [saved.designIds[0], saved.listIds[0]]
    granted(await saveThreadList({ designId, list: { id: listId, version: 0 }, name: 'Cotton', keyLines: [], mayAdd: 'all' }))
    expect(await undoSavedReading({ changeId: saved.changeId })).toEqual({ ok: false, error: { kind: 'changed-since' } })
    expect(await findDesign(designId)).not.toBeNull()
  })

  it('shows a reading to nobody but its owner', async () => {
    const staged = await stage(twoLines())
    expect(await findStagedReading(staged.id, [shop.id])).toBeNull()
    expect(await listStagedReadings([shop.id])).toEqual([])
    expect((await listStagedReadings([hanne.id])).map(({ id }) => id)).toContain(staged.id)
    expect(await save(staged, asChart('Fourth Sunday'), { ownerIds: [shop.id] })).toEqual({
      ok: false,
      error: { kind: 'no-such-reading' },
    })
  })

  it('reads a pasted key against the record, keeps each correction, and takes it back', async () => {
    const text =
      'Quince and Compass\nLarkholm stranded\n● 0311 Deep Mussel, 2 strands, 1,240 stitches\n■ 9912 Kiln Red, 2 strands, 44 stitches'
    const staged = granted(await readText({ text, ownerId: hanne.id, designId: null }))
    const lineOf = (one: StagedReading | null) => one?.review?.reading.designs[0]?.lists[0]?.lines ?? []
    expect(lineOf(staged).map(({ threads }) => threads[0]?.match)).toMatchObject([{ kind: 'known', threadId }, { kind: 'new' }])
    const which = { id: staged.id, ownerIds: [hanne.id] }
    const place = { design: 0, list: 0, line: 1 }
    const edit = { field: 'symbol', value: '□' } as const
    const corrections = [{ kind: 'field', place, edit, teachesRest: false }] as const
    const corrected = granted(await correctReading({ ...which, version: 0, corrections }))
    expect(lineOf(corrected.staged)[1]?.symbol).toMatchObject({ value: '□', byHand: true })
    // A second device that has not seen it is told, and what it sent is not taken.
    expect(await correctReading({ ...which, version: 0, corrections })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
    expect(lineOf(await findStagedReading(staged.id, [hanne.id]))[1]?.symbol?.value).toBe('□')
    const undone = granted(await undoCorrection({ ...which, version: 1 }))
    expect(lineOf(undone.staged)[1]?.symbol?.value).toBe('■')
    expect(await undoCorrection({ ...which, version: 2 })).toEqual({ ok: false, error: { kind: 'nothing-to-undo' } })
    const beyond = [{ kind: 'remove line', place: { ...place, line: 9 } }] as const
    expect(await correctReading({ ...which, version: 2, corrections: beyond })).toEqual({
      ok: false,
      error: { kind: 'no-such-line' },
    })
  })

  it('asks for a text before it reads one', async () => {
    expect(await readText({ text: ' \n ', ownerId: hanne.id, designId: null })).toEqual({
      ok: false,
      error: { kind: 'text-empty' },
    })
  })
})
