import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { type CountStatus, type LineOutcome, planSignOff } from '#lib/stock/stocktake'
import { write } from '../write'
import type { CloseRefused } from './count-refusal'

const raised = { version: { increment: 1 } } as const

/** End the counting, so that it can be compared. Lines nobody counted stay uncounted. */
export function finishCounting(input: { countId: string }): Promise<Result<null, CloseRefused>> {
  return write<null, CloseRefused>(async ({ tx }) => {
    const { countId } = input
    const count = await tx.stockCount.findUnique({ where: { id: countId }, select: { status: true } })
    if (!count) return refused({ kind: 'no-such-count' })
    if (count.status !== 'open') return refused({ kind: 'not-open', status: count.status as CountStatus })
    const counted = await tx.stockCountLine.count({ where: { countId, counted: { not: null } } })
    if (counted === 0) return refused({ kind: 'nothing-counted' })
    await tx.stockCount.update({ where: { id: countId }, data: { status: 'counted', ...raised } })
    return ok(null)
  })
}

/** Give a count up. What was corrected by it stays corrected. */
export function dropCount(input: { countId: string }): Promise<Result<null, CloseRefused>> {
  return write<null, CloseRefused>(async ({ tx, at }) => {
    const { countId } = input
    const count = await tx.stockCount.findUnique({ where: { id: countId }, select: { status: true } })
    if (!count) return refused({ kind: 'no-such-count' })
    const status = count.status as CountStatus
    if (status !== 'open' && status !== 'counted') return refused({ kind: 'not-open', status })
    await tx.stockCount.update({ where: { id: countId }, data: { status: 'dropped', closedAt: at, ...raised } })
    return ok(null)
  })
}

/** Sign a count off, by another person than who counted. */
export function signCount(input: { countId: string; by: string }): Promise<Result<null, CloseRefused>> {
  return write<null, CloseRefused>(async ({ tx, at }) => {
    const { countId, by } = input
    const count = await tx.stockCount.findUnique({ where: { id: countId }, select: { status: true } })
    if (!count) return refused({ kind: 'no-such-count' })
    const lines = await tx.stockCountLine.findMany({
      where: { countId },
      select: { expected: true, counted: true, countedBy: true, outcome: true },
    })
    const signed = planSignOff(
      count.status as CountStatus,
      lines.map((line) => ({ ...line, outcome: line.outcome as LineOutcome | null })),
      by,
    )
    if (!signed.ok) return signed
    await tx.stockCount.update({ where: { id: countId }, data: { status: 'signed', signedBy: by, closedAt: at, ...raised } })
    return ok(null)
  })
}
