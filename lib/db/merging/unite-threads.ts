import 'server-only'
import { formerCodeKey } from '#lib/thread/former-code'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { newId } from '../new-id'
import { readRows, type StepKeeper, type Values } from './keep-steps'

const movingColumns = {
  id: true,
  lineId: true,
  code: true,
  name: true,
  version: true,
  line: {
    select: {
      id: true,
      name: true,
      strands: true,
      putUpStrandTenths: true,
      putUpWord: true,
      maker: { select: { id: true, name: true } },
    },
  },
} as const satisfies Prisma.ThreadSelect

/** A thread with what its line says, as a merge needs it. */
export type MovingThread = Omit<Prisma.ThreadGetPayload<{ select: typeof movingColumns }>, 'line'> & {
  makerName: string
  line: { id: string; name: string; strands: number; putUpStrandTenths: number; putUpWord: string }
}

const movingOf = ({ line, ...thread }: Prisma.ThreadGetPayload<{ select: typeof movingColumns }>): MovingThread => {
  const { maker, ...rest } = line
  return { ...thread, makerName: maker.name, line: rest }
}

export async function readMovingThread(tx: Transaction, id: string): Promise<MovingThread | null> {
  const row = await tx.thread.findFirst({ where: { id, goneAt: null }, select: movingColumns })
  return row && movingOf(row)
}

/** Every thread of a line, removed ones too, in the order they came in. */
export async function readMovingThreads(tx: Transaction, lineId: string): Promise<MovingThread[]> {
  const rows = await tx.thread.findMany({ where: { lineId }, select: movingColumns, orderBy: { id: 'asc' } })
  return rows.map(movingOf)
}

const keyed = (rows: readonly Values[]) => rows.map(({ id }) => ({ id: String(id) }))

export type United = { counts: Record<string, number>; batchIds: string[] }

/**
 * What a thread's line said and its rows leave unsaid is said outright before the thread goes under another line: what a put-up is called,
 * and how long the put-ups are that a key states. So no amount changes its meaning.
 */
export async function sayOutright(
  keeper: StepKeeper,
  threadId: string,
  from: MovingThread['line'],
  to: MovingThread['line'],
): Promise<void> {
  const { tx } = keeper.write
  if (from.putUpWord !== to.putUpWord) {
    const silent = await readRows(tx, 'batch', { threadId, putUpWord: null })
    await keeper.change('batch', keyed(silent), { putUpWord: null }, { putUpWord: from.putUpWord })
  }
  if (from.putUpStrandTenths !== to.putUpStrandTenths) {
    const silent = await readRows(tx, 'keyLineThread', { threadId, statedHundredths: { not: null }, statedPutUpTenths: null })
    const statedPutUpTenths = Math.round(from.putUpStrandTenths / from.strands)
    await keeper.change('keyLineThread', keyed(silent), { statedPutUpTenths: null }, { statedPutUpTenths })
  }
}

/** Keys that name a thread: their lists are reckoned anew. */
export async function touchKeys(keeper: StepKeeper, threadId: string): Promise<number> {
  const lists = await keeper.write.tx.threadList.findMany({
    where: { keyLines: { some: { threads: { some: { threadId } } } } },
    select: { id: true },
  })
  for (const { id } of lists) keeper.touch('list', id)
  return lists.length
}

/** Everything that names the one thread names the other; then the one is taken away. Its former codes, and its own, lead to the other. */
export async function uniteThreads(
  keeper: StepKeeper,
  { kept, gone }: { kept: MovingThread; gone: MovingThread },
): Promise<United> {
  const { tx } = keeper.write
  const [from, to] = [gone.id, kept.id]
  await sayOutright(keeper, from, gone.line, kept.line)
  const lists = await touchKeys(keeper, from)

  const batches = await readRows(tx, 'batch', { threadId: from })
  for (const [table, rows] of [
    ['batch', batches],
    ['keyLineThread', await readRows(tx, 'keyLineThread', { threadId: from })],
    ['threadOrder', await readRows(tx, 'threadOrder', { threadId: from })],
    ['threadBarcode', await readRows(tx, 'threadBarcode', { threadId: from })],
    ['kitLot', await readRows(tx, 'kitLot', { threadId: from })],
    ['formerThreadCode', await readRows(tx, 'formerThreadCode', { threadId: from })],
    ['buyListLine', await readRows(tx, 'buyListLine', { threadId: from })],
  ] as const)
    await keeper.change(table, keyed(rows), { threadId: from }, { threadId: to })
  const instead = await readRows(tx, 'buyListLine', { insteadThreadId: from })
  await keeper.change('buyListLine', keyed(instead), { insteadThreadId: from }, { insteadThreadId: to })
  for (const row of await readRows(tx, 'threadOffer', { threadId: from })) {
    const before = { threadId: from, lineId: row.lineId as string }
    await keeper.change('threadOffer', keyed([row]), before, { threadId: to, lineId: kept.line.id })
  }
  for (const { id, goneAt } of batches) if (goneAt === null) keeper.touch('batch', String(id))

  await unitePairs(keeper, 'standIn', ['threadId', 'standInThreadId'], [], { from, to })
  await unitePairs(keeper, 'conversion', ['threadId', 'otherThreadId'], ['sourceKey'], { from, to })
  await uniteSwaps(keeper, { from, to })
  await uniteReadings(keeper, { from, to })
  await uniteRules(keeper, { from, to })
  await uniteChecks(keeper, { from, to })
  await fillGaps(keeper, { from, to })

  const codeKey = formerCodeKey({ makerName: gone.makerName, lineName: gone.line.name, code: gone.code })
  // Nobody is asked for by a code that is on record: what was remembered of it is.
  for (const row of await readRows(tx, 'formerThreadCode', { codeKey })) await keeper.drop('formerThreadCode', row)
  await keeper.add('formerThreadCode', {
    ...{ id: newId(), threadId: to, makerName: gone.makerName, lineName: gone.line.name, code: gone.code, name: gone.name },
    codeKey,
  })
  for (const row of await readRows(tx, 'thread', { id: from })) await keeper.drop('thread', row)
  keeper.touch('thread', from)
  keeper.touch('thread', to)
  if (batches.length > 0 || lists > 0) keeper.touch('standIn', to)
  const held = batches.filter(({ goneAt }) => goneAt === null)
  return { counts: { batches: held.length, lists }, batchIds: held.map(({ id }) => String(id)) }
}

/** Rows that name two threads, each pair once: the pair is said of the kept one, unless it is said already or says nothing then. */
async function unitePairs(
  keeper: StepKeeper,
  table: 'standIn' | 'conversion',
  [one, other]: readonly [string, string],
  marks: readonly string[],
  { from, to }: { from: string; to: string },
): Promise<void> {
  const { tx } = keeper.write
  const rows = await readRows(tx, table, { OR: [{ [one]: { in: [from, to] } }, { [other]: { in: [from, to] } }] })
  const nameOf = (row: Values) => JSON.stringify([...marks, one, other].map((name) => row[name]))
  const isOld = (row: Values) => row[one] === from || row[other] === from
  const said = new Set(rows.filter((row) => !isOld(row)).map(nameOf))
  for (const row of rows.filter(isOld)) {
    const before: Values = {}
    const after: Values = {}
    for (const name of [one, other]) {
      if (row[name] !== from) continue
      before[name] = from
      after[name] = to
    }
    const moved = { ...row, ...after }
    if (moved[one] === moved[other] || said.has(nameOf(moved))) await keeper.drop(table, row)
    else await keeper.change(table, keyed([row]), before, after)
    said.add(nameOf(moved))
  }
  if (rows.some(isOld) && table === 'standIn') keeper.touch('standIn', to)
}

/** A project worked in another thread for the one given up is worked in it for the kept one; in the kept one itself, it is no swap any more. */
async function uniteSwaps(keeper: StepKeeper, { from, to }: { from: string; to: string }): Promise<void> {
  const { tx } = keeper.write
  const rows = await readRows(tx, 'projectSwap', {
    OR: [{ threadId: { in: [from, to] } }, { standInThreadId: from }],
  })
  const taken = new Set(rows.filter(({ threadId }) => threadId === to).map(({ projectId }) => projectId))
  for (const row of rows) {
    const threadId = row.threadId === from ? to : (row.threadId as string)
    const standInThreadId = row.standInThreadId === from ? to : (row.standInThreadId as string)
    if (threadId === row.threadId && standInThreadId === row.standInThreadId) continue
    keeper.touch('project', String(row.projectId))
    const isSecond = row.threadId === from && taken.has(row.projectId as string)
    if (threadId === standInThreadId || isSecond) await keeper.drop('projectSwap', row)
    else
      await keeper.change(
        'projectSwap',
        keyed([row]),
        { threadId: row.threadId as string, standInThreadId: row.standInThreadId as string },
        { threadId, standInThreadId },
      )
  }
}

/** What a finished piece took of both is what it took of the one. */
async function uniteReadings(keeper: StepKeeper, { from, to }: { from: string; to: string }): Promise<void> {
  const { tx } = keeper.write
  const mine = new Map((await readRows(tx, 'useReading', { threadId: to })).map((row) => [row.projectId, row]))
  for (const row of await readRows(tx, 'useReading', { threadId: from })) {
    const there = mine.get(row.projectId as string)
    if (!there) {
      await keeper.change('useReading', keyed([row]), { threadId: from }, { threadId: to })
      continue
    }
    const amounts = ['usedStrandTenths', 'plainStrandTenths', 'flatStrandTenths'] as const
    const before = Object.fromEntries(amounts.map((name) => [name, there[name] as number]))
    const after = Object.fromEntries(amounts.map((name) => [name, (there[name] as number) + (row[name] as number)]))
    await keeper.change('useReading', keyed([there]), before, after)
    await keeper.drop('useReading', row)
  }
}

/** How early a rule buys: a point before a minimum, then by its figures. */
const eagerness = (row: Values): string =>
  [
    row.kind === 'point' ? 1 : 0,
    ...[row.minimumPutUps, row.demandHundredths, row.leadWeeks, row.spreadHundredths, row.coverWeeks].map((value) =>
      String(value ?? 0).padStart(9, '0'),
    ),
  ].join(' ')

/** Where both have a rule for an owner, the one that buys sooner stands. */
async function uniteRules(keeper: StepKeeper, { from, to }: { from: string; to: string }): Promise<void> {
  const { tx } = keeper.write
  const mine = new Map((await readRows(tx, 'reorderRule', { threadId: to })).map((row) => [row.ownerId, row]))
  for (const row of await readRows(tx, 'reorderRule', { threadId: from })) {
    const there = mine.get(row.ownerId as string)
    if (there && eagerness(there) >= eagerness(row)) {
      await keeper.drop('reorderRule', row)
      continue
    }
    if (there) await keeper.drop('reorderRule', there)
    await keeper.change('reorderRule', keyed([row]), { threadId: from }, { threadId: to })
  }
}

/** A line of a kit's check names its thread in a text. Where both were checked in one bag, the one that found something wrong stands. */
async function uniteChecks(keeper: StepKeeper, { from, to }: { from: string; to: string }): Promise<void> {
  const { tx } = keeper.write
  const [old, now] = [`thread:${from}`, `thread:${to}`]
  const mine = new Map((await readRows(tx, 'kitBagCheck', { item: now })).map((row) => [row.bagId, row]))
  for (const row of await readRows(tx, 'kitBagCheck', { item: old })) {
    const there = mine.get(row.bagId as string)
    if (there && (row.status === 'there' || there.status !== 'there')) {
      await keeper.drop('kitBagCheck', row)
      continue
    }
    if (there) await keeper.drop('kitBagCheck', there)
    await keeper.change('kitBagCheck', keyed([row]), { item: old }, { item: now })
  }
}

/** What is not known of the kept one, and is of the other, is taken over: its name, its colour, what it was filed under, the least to keep. */
async function fillGaps(keeper: StepKeeper, { from, to }: { from: string; to: string }): Promise<void> {
  const { tx } = keeper.write
  const [[mine], [theirs]] = [await readRows(tx, 'thread', { id: to }), await readRows(tx, 'thread', { id: from })]
  if (!mine || !theirs) return
  const before: Values = {}
  const after: Values = {}
  for (const group of [['name'], ['labL', 'labA', 'labB', 'labCertainty'], ['family'], ['note'], ['minimumPutUps']]) {
    if (mine[group[0] as string] !== null || theirs[group[0] as string] === null) continue
    for (const name of group) {
      before[name] = mine[name] ?? null
      after[name] = theirs[name] ?? null
    }
  }
  if (Object.keys(after).length > 0) await keeper.change('thread', [{ id: to }], before, after)
}
