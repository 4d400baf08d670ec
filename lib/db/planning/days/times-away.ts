import 'server-only'
import { database } from '../../client'

/** Days on which somebody does not stitch, yyyy-mm-dd, the first and the last of them. */
export type TimeAway = {
  id: string
  version: number
  owner: { id: string; name: string }
  fromOn: string
  toOn: string
  what: string | null
}

/** The earliest first. */
export const listTimesAway = (ownerIds: readonly string[]): Promise<TimeAway[]> =>
  database().prisma.timeAway.findMany({
    where: { ownerId: { in: [...ownerIds] } },
    select: { id: true, version: true, fromOn: true, toOn: true, what: true, owner: { select: { id: true, name: true } } },
    orderBy: [{ fromOn: 'asc' }, { id: 'asc' }],
  })
