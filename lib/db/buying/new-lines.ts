import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { bulkInsert } from '../bulk-insert'
import { newId } from '../new-id'
import { readInParts } from '../walk/in-parts'
import type { Write } from '../write-gate'

/** A line to be put on a list: a thread, or what is no thread in words. */
export type NewLine = {
  /** Made by whoever sends it, so that it is put down once; left out, it is made here. */
  lineId?: string
  thread: {
    threadId: string
    /** Null: as its line calls one, and as long as its line says. */
    putUpWord: string | null
    putUpStrandTenths: number | null
    packPutUps: number
    isOneLot: boolean
    matchLot: string | null
  } | null
  /** Of what is no thread. */
  text: string | null
  putUps: number
  supplier: string | null
  /** Of one pack. */
  priceMinor: number | null
  note: string | null
}

/** More than this is no list to shop by. */
export const mostLines = 1_000

/**
 * Write lines at the end of a list; those whose id is on record already are passed over.
 *
 * @throws {RangeError} if a line is of neither or both, or its number of put-ups is not a whole number above nought.
 */
export async function insertNewLines(
  { tx, engine, revision }: Write,
  listId: string,
  lines: readonly NewLine[],
): Promise<Result<string[], { kind: 'no-such-thread'; threadId: string } | { kind: 'too-many-lines'; most: number }>> {
  const wrong = lines.find(
    ({ thread, text, putUps }) => (thread === null) === (text === null) || !Number.isSafeInteger(putUps) || putUps < 1,
  )
  if (wrong) throw new RangeError(`insertNewLines: ${JSON.stringify(wrong)}`)
  const given = lines.map((line) => ({ ...line, id: line.lineId ?? newId() }))
  const known = new Set(
    (
      await readInParts(
        given.map(({ id }) => id),
        (ids) => tx.buyListLine.findMany({ where: { id: { in: ids } }, select: { id: true } }),
      )
    ).map(({ id }) => id),
  )
  const added = given.filter(({ id }) => !known.has(id))
  const { _max, _count } = await tx.buyListLine.aggregate({
    where: { buyListId: listId },
    _max: { position: true },
    _count: true,
  })
  if (_count + added.length > mostLines) return refused({ kind: 'too-many-lines', most: mostLines })
  const threads = await readInParts([...new Set(added.flatMap(({ thread }) => thread?.threadId ?? []))], (ids) =>
    tx.thread.findMany({
      where: { id: { in: ids }, goneAt: null },
      select: { id: true, lineId: true },
    }),
  )
  const putUps = await tx.threadLine.findMany({ select: { id: true, putUpStrandTenths: true } })
  const putUpOf = new Map(putUps.map((line) => [line.id, line.putUpStrandTenths]))
  const lineOf = new Map(threads.map(({ id, lineId }) => [id, lineId]))
  const missing = added.find(({ thread }) => thread && !lineOf.has(thread.threadId))?.thread
  if (missing) return refused({ kind: 'no-such-thread', threadId: missing.threadId })
  const first = (_max.position ?? -1) + 1
  const rows = added.map(({ id, thread, text, putUps: count, supplier, priceMinor, note }, turn) => ({
    ...{ id, buyListId: listId, position: first + turn, threadId: thread?.threadId ?? null, text },
    putUpWord: thread?.putUpWord ?? null,
    putUpStrandTenths: thread ? (thread.putUpStrandTenths ?? (putUpOf.get(lineOf.get(thread.threadId) ?? '') as number)) : 0,
    ...{ putUps: count, packPutUps: thread?.packPutUps ?? 1, isOneLot: thread?.isOneLot ?? false },
    ...{ matchLot: thread?.matchLot ?? null, supplier, priceMinor, note, status: 'open', revision },
  }))
  await bulkInsert(tx, engine, 'BuyListLine', rows)
  return ok(given.map(({ id }) => id))
}
