import 'server-only'
import { tickMoment } from '#lib/project/later-tick'
import { afterTick, type TickedStatus, type WalkLineStatus, type WalkStatus } from '#lib/project/walk'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { inParts, readInParts } from './in-parts'
import type { NoSuchWalk, WalkClosed } from './walk-refusal'

export type LineTick = { lineId: string; status: TickedStatus; tickedAt: Date; by?: string | null }

export type TickRefused = NoSuchWalk | WalkClosed

/**
 * Write ticks down, each as far as it is later than what stands. Ticks that were sent before change nothing, in whatever order they come
 * (see `afterTick`). Ticks of lines that are carried out, or that are no longer on the list, are passed over.
 *
 * @param input.sentAt  what the ticker's clock said when they were sent, to put a clock right that is plainly wrong
 * @returns the lines that are not on the list any more
 */
export function tickLines(input: {
  walkId: string
  ticks: readonly LineTick[]
  sentAt?: Date
}): Promise<Result<{ written: number; unknownLineIds: string[] }, TickRefused>> {
  return write<{ written: number; unknownLineIds: string[] }, TickRefused>(async ({ tx, at, revision }) => {
    const { walkId, ticks, sentAt } = input
    const walk = await tx.walk.findUnique({ where: { id: walkId }, select: { status: true } })
    if (!walk) return refused({ kind: 'no-such-walk', walkId })
    if (walk.status !== 'open') return refused({ kind: 'walk-closed', status: walk.status as WalkStatus })
    const rows = await readInParts(
      ticks.map(({ lineId }) => lineId),
      (ids) =>
        tx.walkLine.findMany({
          where: { id: { in: ids }, walkId },
          select: { id: true, status: true, tickedAt: true, tickedBy: true, carriedAt: true, insteadBatchId: true },
        }),
    )
    const byId = new Map(rows.map((row) => [row.id, row]))
    const lines = new Map(
      rows.map((row) => [
        row.id,
        { status: row.status as WalkLineStatus, tickedAtMs: row.tickedAt?.getTime() ?? null, tickedBy: row.tickedBy },
      ]),
    )
    const changed = new Set<string>()
    const unknownLineIds = new Set<string>()
    for (const { lineId, status, tickedAt, by = null } of ticks) {
      const line = lines.get(lineId)
      if (!line) unknownLineIds.add(lineId)
      if (!line || byId.get(lineId)?.carriedAt) continue
      const sentAtMs = sentAt?.getTime()
      const tickedAtMs = tickMoment({ tickedAtMs: tickedAt.getTime(), sentAtMs }, at.getTime())
      const now = afterTick(line, { status, tickedAtMs, by })
      if (now === line) continue
      lines.set(lineId, now)
      changed.add(lineId)
    }

    // A row of many bags is ticked at once: those that end alike are written together.
    const alike = new Map<string, string[]>()
    for (const id of changed) {
      const { status, tickedAtMs, tickedBy } = lines.get(id) as NonNullable<ReturnType<typeof lines.get>>
      const key = JSON.stringify([status, tickedAtMs, tickedBy, byId.get(id)?.insteadBatchId])
      alike.set(key, [...(alike.get(key) ?? []), id])
    }
    for (const [key, ids] of alike) {
      const [status, tickedAtMs, tickedBy, insteadBatchId] = JSON.parse(key)
      // Ticked after another batch was taken for it, a line is that batch's from then on.
      const batch = insteadBatchId === null ? {} : { batchId: insteadBatchId as string, insteadBatchId: null }
      for (const part of inParts(ids))
        await tx.walkLine.updateMany({
          where: { id: { in: part } },
          data: { status, tickedAt: new Date(tickedAtMs), tickedBy, revision, ...batch },
        })
    }
    return ok({ written: changed.size, unknownLineIds: [...unknownLineIds] })
  })
}
