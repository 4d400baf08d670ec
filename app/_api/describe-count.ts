import type { z } from 'zod'
import type { CountRefusal } from '#lib/db/count/count-refusal'
import { type CountRecord, findCount, readSheet, type SheetLine } from '#lib/db/count/queries'
import { readComparison } from '#lib/db/count/read-comparison'
import { describeCountRefusal } from '#words/count'
import type { getCountComparison, getCountSheet } from './counts'
import { notFound, Problem } from './problem'

const tagOf = (place: { id: string; label: string }) => ({ placeId: place.id, label: place.label })

export const describeCount = ({ id, title, place, status, startedAt, startedBy, closedAt, signedBy }: CountRecord) => ({
  ...{ countId: id, title, place: tagOf(place), status },
  ...{ startedAt: startedAt.toISOString(), startedBy, closedAt: closedAt?.toISOString() ?? null, signedBy },
})

const describeLine = ({ id, place, thread, found, lot, ownerName, ...line }: SheetLine) => ({
  ...{ lineId: id, place: tagOf(place), found, lot, owner: ownerName },
  thread: thread && {
    threadId: thread.id,
    maker: thread.makerName,
    line: thread.lineName,
    code: thread.code,
    name: thread.name,
  },
  ...{ counted: line.counted, countedAt: line.countedAt?.toISOString() ?? null, countedBy: line.countedBy },
  ...{ outcome: line.outcome, note: line.note },
})

/** The blind sheet of a count, or that there is none. */
export async function describeSheet(countId: string): Promise<z.input<typeof getCountSheet.answer> | Problem> {
  const count = await findCount(countId)
  if (!count) return notFound('count', countId)
  const { lines } = await readSheet(count)
  return { ...describeCount(count), lines: lines.map(describeLine) }
}

/** A count held against the record; refused while it is open. */
export async function describeComparison(countId: string): Promise<z.input<typeof getCountComparison.answer> | Problem> {
  const count = await findCount(countId)
  if (!count) return notFound('count', countId)
  if (count.status === 'open') return new Problem('refused', describeCountRefusal({ kind: 'not-compared', status: 'open' }))
  const { accuracy, lines, suspects, out } = await readComparison(count)
  return {
    ...{ ...describeCount(count), accuracy },
    lines: lines.map((line) => ({
      ...describeLine(line),
      ...{ batchId: line.batchId, expected: line.expected, hasMoved: line.hasMoved },
    })),
    suspects: suspects.map(({ underId, overId, ...pair }) => ({ underLineId: underId, overLineId: overId, ...pair })),
    out: out.map(({ batchId, threadName, wholePutUps, home, current }) => ({
      ...{ batchId, thread: threadName, wholePutUps, home: tagOf(home), current: tagOf(current) },
    })),
  }
}

/** Why nothing was done, as the API says it. */
export const describeCountProblem = (refusal: CountRefusal, countId: string): Problem =>
  refusal.kind === 'no-such-count' ? notFound('count', countId) : new Problem('refused', describeCountRefusal(refusal))
