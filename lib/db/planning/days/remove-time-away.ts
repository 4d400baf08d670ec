import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../../write'
import type { NoSuchTimeAway } from './save-time-away'

/** She is not away then after all. */
export function removeTimeAway(id: string): Promise<Result<null, NoSuchTimeAway>> {
  return write<null, NoSuchTimeAway>(async ({ tx }) => {
    const gone = await tx.timeAway.deleteMany({ where: { id } })
    return gone.count === 0 ? refused({ kind: 'no-such-time-away', id }) : ok(null)
  })
}
