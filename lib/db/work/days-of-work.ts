import 'server-only'
import type { DayWork } from '#lib/planning/pace/pace'
import { database } from '../client'

/** What these owners stitched each day, whatever on, in stitches; from a day on, yyyy-mm-dd, or all of it. */
export async function readDaysOfWork(ownerIds: readonly string[], since?: string): Promise<DayWork[]> {
  const rows = await database().prisma.workEntry.groupBy({
    by: ['day'],
    where: { goneAt: null, ...(since && { day: { gte: since } }), project: { ownerId: { in: [...ownerIds] }, goneAt: null } },
    _sum: { stitches: true, minutes: true },
    orderBy: { day: 'asc' },
  })
  return rows.map(({ day, _sum }) => ({ day, amount: _sum.stitches ?? 0, minutes: _sum.minutes ?? 0 }))
}
