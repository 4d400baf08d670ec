import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import type { OpinionPair } from '#lib/thread/substitution-opinions'
import { bulkInsert } from '../bulk-insert'
import { database } from '../client'
import { newId } from '../new-id'
import { write } from '../write'

export type ConversionRefused =
  | { kind: 'no-name' }
  | { kind: 'nothing-said' }
  | { kind: 'no-such-thread'; threadId: string }
  | { kind: 'no-such-list' }

/** SQLite takes no more than 999 parameters in a statement. */
const idsAtOnce = 500

const chunksOf = (ids: readonly string[]): string[][] =>
  Array.from({ length: Math.ceil(ids.length / idsAtOnce) }, (_, at) => ids.slice(at * idsAtOnce, (at + 1) * idsAtOnce))

/**
 * Keep somebody's list of what stands for what, in one write. A list of the same name is added to; what it says already stays as it is.
 * An opinion is nobody's acceptance: coverage never counts it.
 */
export function addConversions(input: {
  sourceName: string
  pairs: readonly OpinionPair[]
}): Promise<Result<{ sourceKey: string; addedCount: number; knownCount: number }, ConversionRefused>> {
  return write<{ sourceKey: string; addedCount: number; knownCount: number }, ConversionRefused>(async ({ tx, engine }) => {
    const asked = input.sourceName.trim()
    const sourceKey = textKey(asked)
    if (sourceKey === '') return refused({ kind: 'no-name' })
    if (input.pairs.length === 0) return refused({ kind: 'nothing-said' })
    const threadIds = [...new Set(input.pairs.flatMap(({ threadId, otherThreadId }) => [threadId, otherThreadId]))]
    for (const ids of chunksOf(threadIds)) {
      const there = await tx.thread.findMany({ where: { id: { in: ids }, goneAt: null }, select: { id: true } })
      const missing = ids.find((id) => !there.some((thread) => thread.id === id))
      if (missing !== undefined) return refused({ kind: 'no-such-thread', threadId: missing })
    }
    const kept = await tx.conversion.findMany({
      where: { sourceKey },
      select: { sourceName: true, threadId: true, otherThreadId: true },
    })
    const sourceName = kept[0]?.sourceName ?? asked
    const keyOf = ({ threadId, otherThreadId }: OpinionPair) => JSON.stringify([threadId, otherThreadId])
    const known = new Set(kept.map(keyOf))
    const added = new Map<string, OpinionPair>()
    for (const pair of input.pairs) if (!known.has(keyOf(pair))) added.set(keyOf(pair), pair)
    await bulkInsert(
      tx,
      engine,
      'Conversion',
      [...added.values()].map(({ threadId, otherThreadId }) => ({ id: newId(), sourceName, sourceKey, threadId, otherThreadId })),
    )
    return ok({ sourceKey, addedCount: added.size, knownCount: input.pairs.length - added.size })
  }, 60_000)
}

/** Forget all that one list says. */
export function removeConversions(sourceKey: string): Promise<Result<{ removedCount: number }, ConversionRefused>> {
  return write<{ removedCount: number }, ConversionRefused>(async ({ tx }) => {
    const { count } = await tx.conversion.deleteMany({ where: { sourceKey } })
    return count === 0 ? refused({ kind: 'no-such-list' }) : ok({ removedCount: count })
  })
}

export type ConversionList = { sourceKey: string; sourceName: string; pairCount: number }

/** Whose lists are on record, by name. */
export async function listConversionLists(): Promise<ConversionList[]> {
  const groups = await database().prisma.conversion.groupBy({
    by: ['sourceKey', 'sourceName'],
    _count: { _all: true },
    orderBy: [{ sourceKey: 'asc' }, { sourceName: 'asc' }],
  })
  return groups.map(({ sourceKey, sourceName, _count }) => ({ sourceKey, sourceName, pairCount: _count._all }))
}

/** What one list says of one thread. */
export type Opinion = OpinionPair & { sourceName: string }

/** A page of what one list says, in the order it was brought in. */
export async function listConversions(
  sourceKey: string,
  page: { limit: number; after?: string },
): Promise<(Opinion & { id: string })[]> {
  return database().prisma.conversion.findMany({
    where: { sourceKey, ...(page.after ? { id: { gt: page.after } } : {}) },
    select: { id: true, sourceName: true, threadId: true, otherThreadId: true },
    orderBy: { id: 'asc' },
    take: page.limit,
  })
}

/**
 * What any list says would do for these threads, by thread: only what is said of them outright. That A will do for B and B for C says
 * nothing of A for C, and that A will do for B nothing of B for A.
 */
export async function readOpinionsOf(threadIds: readonly string[]): Promise<Map<string, Opinion[]>> {
  const opinions = new Map<string, Opinion[]>()
  for (const ids of chunksOf([...new Set(threadIds)])) {
    const rows = await database().prisma.conversion.findMany({
      where: { threadId: { in: ids }, otherThread: { goneAt: null } },
      select: { sourceName: true, threadId: true, otherThreadId: true },
      orderBy: [{ sourceKey: 'asc' }, { otherThreadId: 'asc' }],
    })
    for (const row of rows) opinions.set(row.threadId, [...(opinions.get(row.threadId) ?? []), row])
  }
  return opinions
}
