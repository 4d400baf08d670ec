import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../../write'
import type { NoSuchOccasion } from './save-occasion'

/** Keep a day no longer. Works that were due for it stay due on their day. */
export function removeOccasion(id: string): Promise<Result<{ projects: number }, NoSuchOccasion>> {
  return write<{ projects: number }, NoSuchOccasion>(async ({ tx }) => {
    const gone = await tx.occasion.deleteMany({ where: { id } })
    if (gone.count === 0) return refused({ kind: 'no-such-occasion', occasionKey: id })
    const freed = await tx.project.updateMany({
      where: { occasionKey: id },
      data: { occasionKey: null, version: { increment: 1 } },
    })
    return ok({ projects: freed.count })
  })
}
