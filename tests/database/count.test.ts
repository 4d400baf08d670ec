import { beforeAll, expect, it } from 'vitest'
import { dropCount, finishCounting, signCount } from '#lib/db/count/close-count'
import { decideLine } from '#lib/db/count/decide-line'
import { enterCounts } from '#lib/db/count/enter-counts'
import { listNotCounted } from '#lib/db/count/not-counted'
import { findCount, listCounts, readSheet, type SheetLine } from '#lib/db/count/queries'
import { readComparison } from '#lib/db/count/read-comparison'
import { startCount } from '#lib/db/count/start-count'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { takeThread } from '#lib/db/stock/take-thread'
import type { Result } from '#lib/result'
import { describeOnEachEngine } from './engines'
import { granted as grantedOf } from './granted'
import { addLarkholm, aPlace, goods, skein, theShop } from './things'

const granted = async <T, E>(asked: Promise<Result<T, E>>): Promise<T> => grantedOf(await asked)

describeOnEachEngine('counts', ({ open }) => {
  const ids = { shop: newId(), line: newId(), drawer: newId(), bag: newId() }
  const compartments = new Map<string, string>()
  const batchOf = new Map<string, string>()
  const ines = 'Ines Coldwell'
  const hanne = 'Hanne Drewitt'

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.create({ data: theShop(ids.shop) })
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T2.1', 'drawer'), aPlace(ids.bag, 'K-07', 'bag')] })
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: ids.line, makerId, name: 'stranded', nameKey: 'stranded', strands: 6, putUpStrandTenths: skein },
    })
    // The stock of the trade notes' scenario A14.
    const owned = [
      ['0311', 10],
      ['0742', 6],
      ['Ecru', 5],
      ['0087', 4],
      ['1204', 3],
    ] as const
    for (const [index, [code, wholePutUps]] of owned.entries()) {
      const threadId = newId()
      await prisma.thread.create({ data: { id: threadId, lineId: ids.line, code } })
      const placeId = newId()
      compartments.set(code, placeId)
      await prisma.place.create({
        data: {
          ...aPlace(placeId, `T2.1-${index + 1}`, 'compartment'),
          ...{ parentId: ids.drawer, path: `/${ids.drawer}/${placeId}/` },
        },
      })
      const got = await granted(receiveThread(goods({ threadId, ownerId: ids.shop, wholePutUps, homePlaceId: placeId })))
      batchOf.set(code, got.batchId)
    }
    await granted(
      takeThread({
        batchId: batchOf.get('1204') as string,
        wholePutUps: 1,
        takesPart: false,
        toPlaceId: ids.bag,
        projectId: null,
      }),
    )
  })

  const sheetOf = async (countId: string) => {
    const count = await findCount(countId)
    if (!count) throw new Error('no count')
    return (await readSheet(count)).lines
  }
  const lineOf = async (countId: string, code: string): Promise<SheetLine> => {
    const line = (await compare(countId)).lines.find(({ thread }) => thread?.code === code)
    if (!line) throw new Error(`no line of ${code}`)
    return line
  }
  const compare = async (countId: string) => {
    const count = await findCount(countId)
    if (!count) throw new Error('no count')
    return readComparison(count)
  }
  const enter = async (countId: string, by: string, figures: Record<string, number>) => {
    const lines = await sheetOf(countId)
    const entered = lines.flatMap(({ id, thread, countedAt }) => {
      const counted = figures[thread?.code ?? '']
      return counted === undefined ? [] : [{ lineId: id, counted, sawCountedAt: countedAt }]
    })
    return granted(enterCounts({ countId, by, entered }))
  }
  const decide = (countId: string, lineId: string, outcome: 'accepted' | 'recount' | 'left', sawCounted: number | null) =>
    decideLine({ countId, lineId, outcome, sawCounted, by: hanne, reasonOf: ({ title }) => `Count of ${title}` })

  /** What a batch's movements add up to, and what its row says. */
  const bookOf = async (code: string) => {
    const { prisma } = open()
    const batchId = batchOf.get(code) as string
    const [row, sum] = await Promise.all([
      prisma.batch.findUniqueOrThrow({ where: { id: batchId } }),
      prisma.movement.aggregate({ where: { batchId }, _sum: { wholeDelta: true } }),
    ])
    return { whole: row.wholePutUps, journal: sum._sum.wholeDelta }
  }

  let countId = ''

  it('begins with a line for all that lies there, and says nothing of what is expected', async () => {
    const started = await granted(startCount({ placeId: ids.drawer, by: ines }))
    countId = started.countId
    expect(started.lines).toBe(5)
    const lines = await sheetOf(countId)
    expect(lines.map(({ place, thread }) => [place.label, thread?.code])).toEqual([
      ['T2.1-1', '0311'],
      ['T2.1-2', '0742'],
      ['T2.1-3', 'Ecru'],
      ['T2.1-4', '0087'],
      ['T2.1-5', '1204'],
    ])
    expect(JSON.stringify(lines)).not.toContain('expected')
  })

  it('does not begin a second count of the same places, nor of none, nor of an unknown place', async () => {
    const compartment = compartments.get('0311') as string
    expect(await startCount({ placeId: compartment, by: hanne })).toMatchObject({
      error: { kind: 'already-counting', countId, title: 'T2.1' },
    })
    const empty = newId()
    await open().prisma.place.create({ data: aPlace(empty, 'T9', 'drawer') })
    expect(await startCount({ placeId: empty, by: hanne })).toMatchObject({ error: { kind: 'nothing-there' } })
    expect(await startCount({ placeId: newId(), by: hanne })).toMatchObject({ error: { kind: 'no-such-place' } })
  })

  it('keeps what two people count at once, and shows the later the other’s figure', async () => {
    expect(await finishCounting({ countId })).toMatchObject({ error: { kind: 'nothing-counted' } })
    const seen = await sheetOf(countId)
    const first = seen.find(({ thread }) => thread?.code === '0311') as SheetLine
    const asSeen = (counted: number) => [{ lineId: first.id, counted, sawCountedAt: null }]
    // Both at once: whoever comes second is told, unless it is the same figure.
    const both = await Promise.all([
      enterCounts({ countId, by: ines, entered: asSeen(8) }),
      enterCounts({ countId, by: 'Nell Oxtoby', entered: asSeen(9) }),
    ])
    const [won, lost] = both
      .map((result) => (result.ok ? result.value : null))
      .sort((a, b) => (b?.written ?? 0) - (a?.written ?? 0))
    expect(won).toMatchObject({
      written: 1,
      conflicts: [],
      foundLineIds: [],
      entered: [{ lineId: first.id }],
      unknownLineIds: [],
    })
    expect(lost).toMatchObject({ written: 0, conflicts: [{ lineId: first.id }] })
    const stands = (await sheetOf(countId)).find(({ id }) => id === first.id)
    expect(lost?.conflicts[0]).toMatchObject({ counted: stands?.counted, countedBy: stands?.countedBy })
    // Having seen it, they settle on 8.
    await enter(countId, ines, { '0311': 8 })
    expect(await enterCounts({ countId, by: hanne, entered: asSeen(8) })).toMatchObject({ value: { written: 0, conflicts: [] } })
    await enter(countId, ines, { '0742': 8, Ecru: 5, '0087': 4, '1204': 2 })
    const nowhere = newId()
    expect(
      await enterCounts({ countId, by: ines, entered: [{ lineId: nowhere, counted: 1, sawCountedAt: null }] }),
    ).toMatchObject({ value: { written: 0, unknownLineIds: [nowhere] } })
  })

  it('keeps when a figure was counted that waited on a device, and gives back what was counted meanwhile', async () => {
    const line = (await sheetOf(countId)).find(({ thread }) => thread?.code === 'Ecru') as SheetLine
    const anHourAgo = new Date(Date.now() - 3_600_000)
    const late = { lineId: line.id, counted: 4, countedAt: anHourAgo }
    // Written on the device an hour ago, before the five were counted here; sent only now.
    const met = await granted(enterCounts({ countId, by: hanne, entered: [{ ...late, sawCountedAt: null }], sentAt: new Date() }))
    expect(met).toMatchObject({ written: 0, entered: [], conflicts: [{ lineId: line.id, counted: 5, countedBy: ines }] })
    expect(met.conflicts[0]?.countedAt).toEqual(line.countedAt)
    // Chosen over the other, having seen it: it stands, and no earlier than what it replaces.
    const chosen = await granted(enterCounts({ countId, by: hanne, entered: [{ ...late, sawCountedAt: line.countedAt }] }))
    expect(chosen).toMatchObject({ written: 1, conflicts: [], entered: [{ lineId: line.id }] })
    expect(chosen.entered[0]?.countedAt.getTime()).toBe((line.countedAt?.getTime() ?? 0) + 1)
    // The next figure is written at once with what that answer said.
    const saw = chosen.entered[0]?.countedAt as Date
    await granted(enterCounts({ countId, by: ines, entered: [{ lineId: line.id, counted: 5, sawCountedAt: saw }] }))
    // A line nobody counted yet takes the moment of the device; a clock an hour ahead is put right.
    const other = (await sheetOf(countId)).find(({ thread }) => thread?.code === '0742') as SheetLine
    const ahead = new Date(Date.now() + 3_600_000)
    const again = { lineId: other.id, counted: 7, sawCountedAt: other.countedAt, countedAt: ahead }
    const { entered } = await granted(enterCounts({ countId, by: ines, entered: [again], sentAt: ahead }))
    expect(entered[0]?.countedAt.getTime()).toBeLessThanOrEqual(Date.now())
    await enter(countId, ines, { '0742': 8 })
  })

  it('compares as scenario A14 has it', async () => {
    await granted(finishCounting({ countId }))
    expect(await sheetOf(countId)).toEqual([])
    const compared = await compare(countId)
    expect(compared.accuracy).toEqual({ lines: 5, linesCounted: 5, linesRight: 3, expected: 27, counted: 27, grossError: 4 })
    const [less, more] = [await lineOf(countId, '0311'), await lineOf(countId, '0742')]
    expect(compared.suspects).toMatchObject([{ underId: less.id, overId: more.id, putUps: 2 }])
    expect(compared.out).toMatchObject([{ threadName: 'Larkholm 1204', wholePutUps: 1, current: { label: 'K-07' } }])
    expect(compared.lines.some(({ hasMoved }) => hasMoved)).toBe(false)
    const { counts } = await listCounts({ offset: 0, limit: 10 })
    expect(counts).toMatchObject([{ id: countId, status: 'counted', lines: 5, linesCounted: 5, linesRight: 3 }])
  })

  it('corrects one line at a time, with the movement that says why', async () => {
    const { id } = await lineOf(countId, '0311')
    expect(await decide(countId, id, 'accepted', 7)).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    await granted(decide(countId, id, 'accepted', 8))
    expect(await bookOf('0311')).toEqual({ whole: 8, journal: 8 })
    const last = await open().prisma.movement.findFirstOrThrow({
      where: { batchId: batchOf.get('0311') as string },
      orderBy: { revision: 'desc' },
    })
    expect(last).toMatchObject({ kind: 'correct', wholeDelta: -2, who: hanne, reason: 'Count of T2.1' })
    expect(await decide(countId, id, 'accepted', 8)).toMatchObject({ error: { kind: 'decided-already' } })
    const right = await lineOf(countId, 'Ecru')
    expect(await decide(countId, right.id, 'accepted', 5)).toMatchObject({ error: { kind: 'not-different' } })
  })

  it('does not correct what moved since, until it is counted again', async () => {
    const { id } = await lineOf(countId, '0742')
    await granted(
      takeThread({
        batchId: batchOf.get('0742') as string,
        wholePutUps: 1,
        takesPart: false,
        toPlaceId: ids.bag,
        projectId: null,
      }),
    )
    expect((await compare(countId)).lines.filter(({ hasMoved }) => hasMoved).map((line) => line.id)).toEqual([id])
    expect(await decide(countId, id, 'accepted', 8)).toMatchObject({ error: { kind: 'moved-since' } })
    expect(await bookOf('0742')).toEqual({ whole: 5, journal: 5 })
    await granted(decide(countId, id, 'recount', 8))
    expect(await signCount({ countId, by: 'Nell Oxtoby' })).toMatchObject({ error: { kind: 'undecided', lines: 1 } })
    expect((await sheetOf(countId)).map((line) => line.id)).toEqual([id])
    await enter(countId, ines, { '0742': 7 })
    // Held against the five of this moment: two over, not one.
    expect((await compare(countId)).lines.find((line) => line.id === id)).toMatchObject({
      expected: 5,
      counted: 7,
      hasMoved: false,
    })
    await granted(decide(countId, id, 'accepted', 7))
    expect(await bookOf('0742')).toEqual({ whole: 7, journal: 7 })
  })

  it('is signed off by another person than who counted, once', async () => {
    expect(await signCount({ countId, by: ' ines  COLDWELL' })).toMatchObject({ error: { kind: 'own-work' } })
    await granted(signCount({ countId, by: hanne }))
    expect(await findCount(countId)).toMatchObject({ status: 'signed', signedBy: hanne })
    expect(await signCount({ countId, by: hanne })).toMatchObject({ error: { kind: 'not-compared', status: 'signed' } })
    expect(await dropCount({ countId })).toMatchObject({ error: { kind: 'not-open', status: 'signed' } })
  })

  it('writes down what is found and not on the record, and takes it off again', async () => {
    const again = await granted(startCount({ placeId: ids.drawer, by: ines, title: 'T2.1 again' }))
    const placeId = compartments.get('Ecru') as string
    const find = (found: string, where: string, counted: number) =>
      enterCounts({ countId: again.countId, by: ines, entered: [], found: [{ found, placeId: where, counted }] })
    expect(await find('Larkholm 0742', ids.bag, 1)).toMatchObject({ error: { kind: 'not-in-count' } })
    const [keptId = ''] = (await granted(find('Larkholm 0742', placeId, 2))).foundLineIds
    const [mistakenId = ''] = (await granted(find('nothing', placeId, 1))).foundLineIds
    const seen = (await sheetOf(again.countId)).find(({ id }) => id === mistakenId)
    await granted(
      enterCounts({
        countId: again.countId,
        by: ines,
        entered: [{ lineId: mistakenId, counted: 0, sawCountedAt: seen?.countedAt ?? null }],
      }),
    )
    await enter(again.countId, ines, { '0742': 5 })
    await granted(finishCounting({ countId: again.countId }))
    const compared = await compare(again.countId)
    // Two of seven 0742 stand with the Ecru: one line under, one found.
    expect(compared.accuracy).toMatchObject({ lines: 6, linesCounted: 2, linesRight: 0, expected: 7, counted: 7, grossError: 4 })
    expect(compared.suspects).toMatchObject([{ overId: keptId, putUps: 2, nearness: 'neighbouring-place' }])
    expect(compared.elsewhere).toMatchObject([{ lineId: keptId }])
    expect(compared.elsewhere[0]?.where.map(({ label, wholePutUps }) => [label, wholePutUps]).sort()).toEqual([
      ['K-07', 1],
      ['T2.1-2', 7],
    ])
    expect(await decide(again.countId, keptId, 'accepted', 2)).toMatchObject({ error: { kind: 'not-on-record' } })
    await granted(dropCount({ countId: again.countId }))
  })

  it('knows what was not counted, and takes no word for it from a count given up', async () => {
    const now = new Date()
    const due = (since: Date) => listNotCounted({ ownerIds: [ids.shop], since, now })
    const yearAgo = new Date(now.getTime() - 365 * 24 * 60 * 60 * 1_000)
    // All in the drawer was counted today; what is in the bag never was.
    expect((await due(yearAgo)).map(({ place, due: lines, never }) => [place.label, lines, never])).toEqual([['K-07', 2, 2]])
    const tomorrow = new Date(now.getTime() + 24 * 60 * 60 * 1_000)
    const later = await due(tomorrow)
    expect(later.find(({ place }) => place.label === 'T2.1')).toMatchObject({ batches: 5, due: 5, never: 0 })
  })
})
