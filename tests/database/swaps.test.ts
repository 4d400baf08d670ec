import { beforeAll, expect, it } from 'vitest'
import {
  addConversionsOperation,
  getConversionList,
  getDesignSwaps,
  getThreadSwaps,
  listConversionListsOperation,
} from '#api/swaps'
import type { Lab } from '#lib/colour/lab'
import { addChart } from '#lib/db/chart/add-chart'
import { saveThreadList } from '#lib/db/chart/save-thread-list'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { addStandIn } from '#lib/db/thread/add-stand-in'
import { addThread } from '#lib/db/thread/add-thread'
import { addConversions, listConversionLists, readOpinionsOf, removeConversions } from '#lib/db/thread/conversions'
import { listThreadsCalled } from '#lib/db/thread/find-thread'
import { listLines } from '#lib/db/thread/list-lines'
import { ask } from '#tests/unit/api/ask'
import { POST as removeConversion } from '../../app/api/v1/conversions/[sourceKey]/remove/route'
import { GET as conversion } from '../../app/api/v1/conversions/[sourceKey]/route'
import { GET as conversions, POST as postConversions } from '../../app/api/v1/conversions/route'
import { GET as designSwaps } from '../../app/api/v1/designs/[designId]/swaps/route'
import { GET as threadSwaps } from '../../app/api/v1/threads/[threadId]/swaps/route'
import { answer } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, aLeaflet, aThread, goods, hanneDrewitt, stranded } from './things'

describeOnEachEngine('swaps', ({ open }) => {
  const ownerId = newId()
  let designId = ''
  const ids = new Map<string, string>()
  const id = (code: string) => ids.get(code) ?? ''

  let lineId: string | null = null
  async function add(code: string, lab: Lab | null, skeins: number) {
    const labCertainty = lab && ('measured' as const)
    const line = lineId === null ? stranded() : { id: lineId }
    granted(await addThread({ ...aThread(code, { lab, labCertainty }), line }))
    lineId = (await listLines())[0]?.id ?? null
    const [thread] = await listThreadsCalled(code)
    ids.set(code, thread?.id ?? '')
    if (skeins === 0) return
    granted(await receiveThread(goods({ threadId: id(code), ownerId, lot: '18', wholePutUps: skeins, homePlaceId: null })))
  }

  beforeAll(async () => {
    await open().prisma.owner.create({ data: hanneDrewitt(ownerId) })
    // The colours of scenario A5: 1204 is missing, 1205 held; X is nearer to 1204, but too near 1205.
    await add('1204', { L: 46, a: 38, b: 18 }, 0)
    await add('1205', { L: 49.5, a: 35.5, b: 20.5 }, 1)
    await add('X', { L: 48, a: 36.5, b: 19.5 }, 1)
    await add('Y', { L: 43.5, a: 39.5, b: 17 }, 1)
    await add('0087', { L: 20, a: 2, b: 1 }, 0)
    const title = 'Quince and Compass'
    const chart = { ...aLeaflet(title, ownerId), isAnother: false, design: aDesign(title) }
    designId = granted(await addChart(chart)).designId
    const keyLine = (code: string, symbol: string) => ({
      symbol,
      note: null,
      tally: { full: 200 },
      threads: [
        { makerName: 'Larkholm', lineName: 'stranded', code, name: null, strands: 2, statedHundredths: null, putUpTenths: null },
      ],
    })
    granted(
      await saveThreadList({
        designId,
        list: null,
        name: 'Cotton',
        keyLines: [keyLine('1204', 'a'), keyLine('1205', 'b')],
        mayAdd: 'all',
      }),
    )
  })

  const swapsOf = (query = 'cloth=%23dcc6b0') =>
    answer(getDesignSwaps, designSwaps, { path: `designs/x/swaps?${query}`, parts: { designId } })

  it('proposes Y for 1204, and says why the nearer X was not taken', async () => {
    const swaps = await swapsOf()
    expect(swaps).toMatchObject({ isProven: true, servedCount: 1, toBuyCount: 0 })
    const [line] = swaps.lines
    expect(line).toMatchObject({
      thread: { code: '1204' },
      status: 'none',
      chosenBy: 'assignment',
      swap: { thread: { code: 'Y' }, isAccepted: true, deltaE00: expect.closeTo(2.57, 2) },
    })
    const x = line?.nearer.find(({ thread }) => thread.code === 'X')
    expect(x?.findings.filter(({ weight }) => weight === 'rejects')).toMatchObject([
      { rule: 'apart', kind: 'too-near', figures: { deltaE: expect.closeTo(1.75, 2), least: 3, chosenThreadId: id('1205') } },
    ])
  })

  it('answers what could stand in for 1204 without looking like 1205', async () => {
    const ask22 = (query: string) =>
      answer(getThreadSwaps, threadSwaps, { path: `threads/x/swaps?${query}`, parts: { threadId: id('1204') } })
    const kept = await ask22(`apart=${id('1205')}`)
    expect(kept.swaps.map(({ judged }) => [judged.thread.code, judged.isAccepted])).toEqual([
      ['Y', true],
      ['X', false],
      ['1205', false],
    ])
    const alone = await ask22('')
    expect(alone.swaps.map(({ judged }) => judged.thread.code)).toEqual(['X', 'Y', '1205'])
  })

  it('keeps a list as somebody’s opinion, in one write, and shows it without counting it as accepted', async () => {
    const pairs = [
      { threadId: id('1204'), otherThreadId: id('0087') },
      { threadId: id('0087'), otherThreadId: id('X') },
    ]
    const before = await open().prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
    const kept = await answer(addConversionsOperation, postConversions, { body: { sourceName: 'Marsh Elder list', pairs } })
    const after = await open().prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
    expect(kept).toEqual({ sourceKey: 'marsh elder list', addedCount: 2, knownCount: 0 })
    expect(after.number - before.number).toBe(1)

    const [line] = (await swapsOf()).lines
    expect(line?.opinions).toMatchObject([{ sourceName: 'Marsh Elder list', thread: { code: '0087' } }])
    expect(line?.swap?.thread.code).toBe('Y')
    expect(line?.status).toBe('none')
  })

  it('never joins two opinions into a third, nor turns one round', async () => {
    const opinions = await readOpinionsOf([id('1204'), id('0087'), id('X')])
    expect(opinions.get(id('1204'))?.map(({ otherThreadId }) => otherThreadId)).toEqual([id('0087')])
    expect(opinions.get(id('0087'))?.map(({ otherThreadId }) => otherThreadId)).toEqual([id('X')])
    expect(opinions.has(id('X'))).toBe(false)
  })

  it('adds to a list of the same name, and forgets one list without touching another', async () => {
    const pair = { threadId: id('1204'), otherThreadId: id('0087') }
    const again = granted(
      await addConversions({
        sourceName: ' MARSH ELDER LIST',
        pairs: [pair, { threadId: id('1205'), otherThreadId: id('X') }, { threadId: id('1205'), otherThreadId: id('X') }],
      }),
    )
    expect(again).toEqual({ sourceKey: 'marsh elder list', addedCount: 1, knownCount: 2 })
    granted(await addConversions({ sourceName: 'Two Wrens', pairs: [pair] }))
    expect((await answer(listConversionListsOperation, conversions)).lists).toEqual([
      { sourceKey: 'marsh elder list', sourceName: 'Marsh Elder list', pairCount: 3 },
      { sourceKey: 'two wrens', sourceName: 'Two Wrens', pairCount: 1 },
    ])
    const parts = { sourceKey: 'marsh elder list' }
    const first = await answer(getConversionList, conversion, { path: 'conversions/x?limit=2', parts })
    const rest = await answer(getConversionList, conversion, { path: `conversions/x?limit=2&after=${first.next}`, parts })
    expect([...first.pairs, ...rest.pairs]).toHaveLength(3)
    expect(rest.next).toBeNull()
    expect((await ask(removeConversion, { method: 'POST', parts })).body).toEqual({ removedCount: 3 })
    expect((await ask(removeConversion, { method: 'POST', parts })).status).toBe(404)
    expect((await listConversionLists()).map(({ sourceName }) => sourceName)).toEqual(['Two Wrens'])
  })

  it('refuses a list without a name or threads, and writes nothing of one with an unknown thread', async () => {
    const pair = { threadId: id('1204'), otherThreadId: id('0087') }
    expect(await addConversions({ sourceName: ' ', pairs: [pair] })).toMatchObject({ ok: false, error: { kind: 'no-name' } })
    expect(await addConversions({ sourceName: 'Nine', pairs: [] })).toMatchObject({ ok: false, error: { kind: 'nothing-said' } })
    const unknown = [pair, { threadId: id('1204'), otherThreadId: newId() }]
    expect(await addConversions({ sourceName: 'Nine', pairs: unknown })).toMatchObject({ error: { kind: 'no-such-thread' } })
    expect(await removeConversions('nine')).toMatchObject({ ok: false, error: { kind: 'no-such-list' } })
  })

  it('takes an accepted stand-in as chosen, and judges it against the colours as chosen', async () => {
    granted(await addStandIn({ threadId: id('1204'), standInThreadId: id('X'), source: 'by daylight' }))
    const [line] = (await swapsOf()).lines
    expect(line).toMatchObject({ status: 'swap', chosenBy: 'stand-in', swap: { thread: { code: 'X' }, isAccepted: false } })
    expect(line?.others.map(({ thread }) => thread.code)).toEqual(['Y'])
  })
})
