import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { ChangedMeanwhile } from '../../stock/apply-stock-change'
import { write } from '../../write'
import type { NoSuchPart } from './save-part'

export type TickPartRefused = NoSuchPart | ChangedMeanwhile | { kind: 'not-yet'; day: string }

/** A part is stitched, on a day up to today (yyyy-mm-dd); or (null) it is not after all. */
export function tickPart(input: {
  id: string
  version?: number
  doneOn: string | null
  today: string
}): Promise<Result<{ projectId: string }, TickPartRefused>> {
  return write<{ projectId: string }, TickPartRefused>(async ({ tx, touch }) => {
    const { id, version, doneOn, today } = input
    if (doneOn !== null && doneOn > today) return refused({ kind: 'not-yet', day: doneOn })
    const there = await tx.stitchAlongPart.findUnique({ where: { id }, select: { version: true, projectId: true } })
    if (!there) return refused({ kind: 'no-such-part', id })
    const claimed = await tx.stitchAlongPart.updateMany({
      where: { id, version: version ?? there.version },
      data: { doneOn, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('project', there.projectId)
    return ok({ projectId: there.projectId })
  })
}
