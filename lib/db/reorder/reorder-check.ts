import 'server-only'
import { grouped } from '#lib/grouped'
import type { AbcStanding } from '#lib/stock/abc'
import { compareExact } from '#lib/stock/batch'
import { checkReorder, chooseRule, type ReorderCheck, stockInPutUps } from '#lib/stock/reorder'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type BoughtThread, byMakerAndCode, readBoughtThreads } from '../order/bought-threads'
import { readToCome } from '../order/queries'
import { listOwners } from '../owner/owners'
import { readBatches } from '../stock/apply-stock-change'
import { ruleColumns, toRule } from './rules'
import { readClasses } from './use-figures'

export type ReorderRow = {
  thread: BoughtThread
  ownerId: string
  ownerName: string
  check: ReorderCheck
  /** A part of unknown length is there, and not counted. */
  isSomeHeld: boolean
  /** Null when none of it was used in the year. */
  abc: AbcStanding | null
}

/**
 * Every thread these owners have a rule for, held against it, each owner apart; by maker and code, then owner.
 *
 * A minimum that stands with the thread holds for each of the owners who has or had some of it; where none has, for the first asked.
 * The usual minimum of a line whose lots matter holds in shops, for what they have or had.
 *
 * @param asked.threadId  only this one
 * @param asked.now       the year that ABC classes go by ends here; null leaves the classes out, and is quicker
 */
export async function readReorderCheck(asked: {
  ownerIds: readonly string[]
  threadId?: string
  now: Date | null
}): Promise<ReorderRow[]> {
  const { prisma } = database()
  const owners = (await listOwners()).filter(({ id }) => asked.ownerIds.includes(id))
  const ownerIds = owners.map(({ id }) => id)
  const shopIds = owners.filter(({ kind }) => kind === 'shop').map(({ id }) => id)
  const isKept = {
    goneAt: null,
    ...(asked.threadId !== undefined && { id: asked.threadId }),
    OR: [
      { minimumPutUps: { not: null } },
      { reorderRules: { some: { ownerId: { in: ownerIds } } } },
      { line: { lotsMatter: true }, batches: { some: { ownerId: { in: shopIds }, goneAt: null } } },
    ],
  } satisfies Prisma.ThreadWhereInput
  const [threads, minimums, rules, stock, toCome, classes] = await Promise.all([
    readBoughtThreads(isKept),
    prisma.thread.findMany({ where: isKept, select: { id: true, minimumPutUps: true } }),
    prisma.reorderRule.findMany({ where: { ownerId: { in: ownerIds }, thread: isKept }, select: ruleColumns }),
    readBatches(prisma, { ownerId: { in: ownerIds }, thread: isKept }),
    readToCome(ownerIds),
    asked.now === null ? new Map<string, AbcStanding>() : readClasses({ ownerIds, now: asked.now }),
  ])
  const ruleOf = new Map(rules.map((row) => [`${row.threadId} ${row.ownerId}`, toRule(row)]))
  const batchesOf = grouped(stock.batches, ({ threadId, ownerId }) => `${threadId} ${ownerId}`)
  const promisesOf = grouped(stock.promises, ({ batchId }) => batchId)
  const rows: ReorderRow[] = []
  for (const { id: threadId, minimumPutUps } of minimums) {
    const thread = threads.get(threadId)
    if (!thread) continue
    const isHeldBySome = ownerIds.some((ownerId) => batchesOf.has(`${threadId} ${ownerId}`))
    for (const [at, owner] of owners.entries()) {
      const batches = batchesOf.get(`${threadId} ${owner.id}`) ?? []
      const isTheirs = batches.length > 0 || (!isHeldBySome && at === 0)
      const chosen = chooseRule({
        own: ruleOf.get(`${threadId} ${owner.id}`) ?? null,
        threadMinimumPutUps: isTheirs ? minimumPutUps : null,
        lotsMatter: thread.line.lotsMatter,
        usesDefault: owner.kind === 'shop' && batches.length > 0,
      })
      if (!chosen) continue
      const onOrder = (toCome.get(threadId) ?? []).filter(({ ownerId }) => ownerId === owner.id)
      rows.push({
        thread,
        ownerId: owner.id,
        ownerName: owner.name,
        check: checkReorder({
          chosen,
          stock: stockInPutUps(
            batches,
            batches.flatMap(({ id }) => promisesOf.get(id) ?? []),
          ),
          onOrderPutUps: onOrder.reduce((sum, { putUps }) => sum + putUps, 0),
        }),
        isSomeHeld: batches.some(({ partCertainty }) => partCertainty === 'some'),
        abc: classes.get(threadId) ?? null,
      })
    }
  }
  return rows.sort((a, b) => byMakerAndCode(a.thread, b.thread) || compareExact(a.ownerId, b.ownerId))
}
