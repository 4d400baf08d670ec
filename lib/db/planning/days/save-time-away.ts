import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../../new-id'
import type { ChangedMeanwhile } from '../../stock/apply-stock-change'
import { write } from '../../write'

export type TimeAwaySaid = { fromOn: string; toOn: string; what: string | null }
export type NoSuchTimeAway = { kind: 'no-such-time-away'; id: string }
export type TimeAwayRefused =
  | ChangedMeanwhile
  | { kind: 'no-such-owner'; ownerId: string }
  | NoSuchTimeAway
  | { kind: 'ends-before-it-begins' }

/** Say when an owner is away: a new time, or one that is there said otherwise. */
export function saveTimeAway(
  input: TimeAwaySaid & ({ ownerId: string } | { id: string; version?: number }),
): Promise<Result<{ id: string }, TimeAwayRefused>> {
  return write<{ id: string }, TimeAwayRefused>(async ({ tx }) => {
    const { fromOn, toOn, what } = input
    if (toOn < fromOn) return refused({ kind: 'ends-before-it-begins' })
    if ('ownerId' in input) {
      const { ownerId } = input
      if ((await tx.owner.count({ where: { id: ownerId } })) === 0) return refused({ kind: 'no-such-owner', ownerId })
      const id = newId()
      await tx.timeAway.create({ data: { id, ownerId, fromOn, toOn, what } })
      return ok({ id })
    }
    const { id, version } = input
    const there = await tx.timeAway.findUnique({ where: { id }, select: { version: true } })
    if (!there) return refused({ kind: 'no-such-time-away', id })
    const claimed = await tx.timeAway.updateMany({
      where: { id, version: version ?? there.version },
      data: { fromOn, toOn, what, version: { increment: 1 } },
    })
    return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok({ id })
  })
}
