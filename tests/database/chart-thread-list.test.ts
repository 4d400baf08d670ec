import { beforeAll, expect, it } from 'vitest'
import { addChart } from '#lib/db/chart/add-chart'
import { newThreadKey } from '#lib/db/chart/ensure-threads'
import { findDesign } from '#lib/db/chart/find-design'
import { findThreadList } from '#lib/db/chart/queries'
import { removeThreadList } from '#lib/db/chart/remove-thread-list'
import { type KeyLineInput, type KeyThreadInput, saveThreadList } from '#lib/db/chart/save-thread-list'
import { newId } from '#lib/db/new-id'
import { addThread } from '#lib/db/thread/add-thread'
import { removeThread } from '#lib/db/thread/remove-thread'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, aLeaflet, hanneDrewitt } from './things'

const aThread = (code: string, over: Partial<KeyThreadInput> = {}): KeyThreadInput => ({
  makerName: 'Larkholm',
  lineName: 'Stranded Cotton',
  code,
  name: null,
  strands: 2,
  statedHundredths: null,
  putUpTenths: null,
  ...over,
})
const aLine = (threads: KeyThreadInput[], over: Partial<KeyLineInput> = {}): KeyLineInput => ({
  symbol: null,
  note: null,
  tally: null,
  threads,
  ...over,
})

describeOnEachEngine('thread lists by hand', ({ open }) => {
  const owner = hanneDrewitt()
  let designId = ''
  let count = 0
  const save = (keyLines: KeyLineInput[], over: Partial<Parameters<typeof saveThreadList>[0]> = {}) =>
    saveThreadList({ designId, list: null, name: `List ${++count}`, keyLines, mayAdd: 'all', ...over })
  async function saved(...given: Parameters<typeof save>) {
    const result = await save(...given)
    if (!result.ok) throw new Error(`not saved: ${JSON.stringify(result.error)}`)
    return result.value
  }
  const changesOf = async (noun: string) => open().prisma.change.count({ where: { noun } })

  beforeAll(async () => {
    await open().prisma.owner.create({ data: owner })
    const chart = { ...aLeaflet('Orchard Gate', owner.id), isAnother: false, design: aDesign('Orchard Gate') }
    designId = granted(await addChart(chart)).designId
  })

  it('keeps a key as it was typed, blends, counts, stated put-ups and zeros too', async () => {
    const keyLines = [
      aLine([aThread('0017', { name: 'Deep Mussel' })], {
        symbol: '●',
        tally: { full: 2_940, backstitch: 120 },
        note: 'outline',
      }),
      aLine([aThread('0017', { strands: 1, statedHundredths: 30, putUpTenths: 73_152 }), aThread('17', { strands: 1 })], {
        symbol: '◆',
      }),
      aLine([aThread('12', { makerName: 'Quillwater', lineName: 'Filament', statedHundredths: 200, putUpTenths: 500_000 })]),
    ]
    const { listId, version, added } = await saved(keyLines, { name: 'Cotton' })
    expect(version).toBe(0)
    expect(added.map(({ code, isNewMaker, isNewLine }) => [code, isNewMaker, isNewLine])).toEqual([
      ['0017', true, true],
      ['17', true, true],
      ['12', true, true],
    ])
    expect(await findThreadList(designId, listId)).toMatchObject({
      name: 'Cotton',
      keyLines: [
        {
          symbol: '●',
          note: 'outline',
          tally: { full: 2_940, backstitch: 120 },
          threads: [{ code: '0017', name: 'Deep Mussel' }],
        },
        {
          symbol: '◆',
          tally: null,
          threads: [
            { code: '0017', strands: 1, stated: { hundredths: 30, putUpTenths: 73_152 } },
            { code: '17', strands: 1, stated: null },
          ],
        },
        { threads: [{ makerName: 'Quillwater', lineName: 'Filament', stated: { hundredths: 200, putUpTenths: 500_000 } }] },
      ],
    })
    const [filament] = await open().prisma.threadLine.findMany({ where: { nameKey: 'filament' } })
    expect(filament).toMatchObject({ strands: 6, putUpStrandTenths: 3_000_000 })
  })

  it('finds threads again however maker and line are spelt, never by a code that only looks the same', async () => {
    const before = await changesOf('thread')
    const first = await saved([aLine([aThread('0017', { makerName: 'LARKHOLM', lineName: 'stranded  cotton' })])])
    expect([first.added, await changesOf('thread')]).toEqual([[], before])
    const second = await saved([aLine([aThread('017')])])
    expect(second.added).toMatchObject([{ code: '017', isNewMaker: false, isNewLine: false, closeCodes: ['0017', '17'] }])
    expect(await changesOf('thread')).toBe(before + 1)
  })

  it('makes no thread that is not meant, and tells all that would be new at once', async () => {
    const lines = [
      aLine([aThread('0400')]),
      aLine([aThread('0400')]),
      aLine([aThread('5', { makerName: 'Larkhelm', lineName: null })]),
    ]
    const refused = await save(lines, { mayAdd: new Set() })
    expect(refused).toMatchObject({
      error: {
        kind: 'new-threads',
        threads: [
          { makerName: 'Larkholm', lineName: 'Stranded Cotton', code: '0400', isNewMaker: false },
          { makerName: 'Larkhelm', lineName: 'Thread', code: '5', isNewMaker: true, isNewLine: true },
        ],
      },
    })
    expect(await open().prisma.maker.count({ where: { nameKey: 'larkhelm' } })).toBe(0)
    const meant = [{ makerName: 'larkholm', lineName: 'stranded cotton', code: '0400' }]
    const mayAdd = new Set(meant.map(newThreadKey))
    expect(await save(lines, { mayAdd })).toMatchObject({ error: { kind: 'new-threads' } })
    expect((await save(lines.slice(0, 2), { mayAdd })).ok).toBe(true)
  })

  it('takes the line as read where only one can be meant', async () => {
    await saved([aLine([aThread('12', { makerName: 'Quillwater', lineName: null })])])
    await saved([aLine([aThread('9', { lineName: 'Pearl' })])])
    const told = await saved([aLine([aThread('0017', { lineName: null })])])
    expect((await findThreadList(designId, told.listId))?.keyLines[0]?.threads[0]?.lineName).toBe('Stranded Cotton')
    expect(await save([aLine([aThread('0017')]), aLine([aThread('0555', { lineName: null })])])).toEqual({
      ok: false,
      error: {
        kind: 'which-line',
        lineNumber: 2,
        makerName: 'Larkholm',
        code: '0555',
        lineNames: ['Pearl', 'Stranded Cotton'],
      },
    })
  })

  it('replaces the key whole, under the version it was read at', async () => {
    const { listId } = await saved([aLine([aThread('0017')]), aLine([aThread('17')])], { name: 'Hand-dyed' })
    const again = { list: { id: listId, version: 0 }, name: 'Hand-dyed silk' }
    expect(await saved([aLine([aThread('17')], { tally: { full: 5 } })], again)).toMatchObject({ listId, version: 1 })
    const list = await findThreadList(designId, listId)
    expect(list).toMatchObject({ name: 'Hand-dyed silk', keyLines: [{ tally: { full: 5 }, threads: [{ code: '17' }] }] })
    expect(list?.keyLines).toHaveLength(1)
    expect(await save([], again)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect(await save([], { name: 'HAND-DYED  SILK' })).toMatchObject({ error: { kind: 'list-taken' } })
    expect(await save([], { designId: 'none' })).toMatchObject({ error: { kind: 'no-such-design' } })
    expect((await findDesign(designId))?.lists.find(({ id }) => id === listId)?.keyLines).toHaveLength(1)
    expect(await open().prisma.change.count({ where: { noun: 'design', nounId: designId } })).toBeGreaterThan(2)
  })

  it('takes a key of two thousand lines, blends in their order', async () => {
    const blends = Array.from({ length: 2_000 }, (_, index) =>
      aLine([aThread('0017', { strands: 1 }), aThread('17', { strands: 3 })], { tally: { full: index + 1 } }),
    )
    const { listId } = await saved(blends)
    const list = await findThreadList(designId, listId)
    expect(
      list?.keyLines.map(({ tally, threads }) => [tally?.full, ...threads.map(({ code, strands }) => `${code}/${strands}`)]),
    ).toEqual(blends.map((_, index) => [index + 1, '0017/1', '17/3']))
  }, 30_000)

  it('a name from the key fills a gap and overrules nothing', async () => {
    await saved([aLine([aThread('0742')])])
    await saved([aLine([aThread('0742', { name: 'Harbour Blue' })])])
    const { listId } = await saved([aLine([aThread('0742', { name: 'Blue' })])])
    expect((await findThreadList(designId, listId))?.keyLines[0]?.threads[0]?.name).toBe('Harbour Blue')
    const twice = await saved([aLine([aThread('0743')]), aLine([aThread('0743', { name: 'Pale Harbour' })])])
    const list = await findThreadList(designId, twice.listId)
    expect(list?.keyLines.map(({ threads }) => threads[0]?.name)).toEqual(['Pale Harbour', 'Pale Harbour'])
  })

  it('a thread that was removed comes back under its code', async () => {
    const line = await open().prisma.threadLine.findFirstOrThrow({ where: { nameKey: 'stranded cotton' } })
    const unsaid = { name: null, lab: null, labCertainty: null, family: null, isLeaving: false, note: null, minimumPutUps: null }
    const added = await addThread({ line: { id: line.id }, code: '0901', ...unsaid })
    const threadId = added.ok ? added.value.threadId : ''
    expect((await removeThread({ threadId, version: 0 })).ok).toBe(true)
    expect(await save([aLine([aThread('0901')])], { mayAdd: new Set() })).toMatchObject({ error: { kind: 'new-threads' } })
    const { listId } = await saved([aLine([aThread('0901')])])
    expect((await findThreadList(designId, listId))?.keyLines[0]?.threads[0]?.threadId).toBe(threadId)
    expect((await open().prisma.thread.findUniqueOrThrow({ where: { id: threadId } })).goneAt).toBeNull()
  })

  it('stays while a project is worked from it or was finished from it; one given up lets go', async () => {
    const { listId } = await saved([aLine([aThread('0017')])])
    const data = { id: newId(), designId, ownerId: owner.id, threadListId: listId, status: 'kitted' }
    await open().prisma.project.create({ data })
    const projects = open().prisma.project
    expect(await removeThreadList({ id: listId, version: 0 })).toMatchObject({
      error: { kind: 'in-work', projects: [{ title: 'Orchard Gate', status: 'kitted' }] },
    })
    await projects.update({ where: { id: data.id }, data: { status: 'finished', finishedOn: '2026-09-01' } })
    expect(await removeThreadList({ id: listId, version: 0 })).toMatchObject({ error: { kind: 'in-work' } })
    await projects.update({ where: { id: data.id }, data: { status: 'abandoned', finishedOn: null } })
    expect(await removeThreadList({ id: listId, version: 3 })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    expect(await removeThreadList({ id: listId, version: 0 })).toEqual({ ok: true, value: { designId } })
    expect(await findThreadList(designId, listId)).toBeNull()
    expect(await projects.findUniqueOrThrow({ where: { id: data.id } })).toMatchObject({ threadListId: null, version: 1 })
  })
})
