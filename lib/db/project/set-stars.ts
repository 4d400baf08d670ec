import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { NoSuchProject } from '../stock/change-batch'
import { write } from '../write'

/** Say how much some projects are wished for, 1 to 5; null takes the stars off again. The later press stands. */
export function setStars(input: { projectIds: readonly string[]; stars: number | null }): Promise<Result<null, NoSuchProject>> {
  return write<null, NoSuchProject>(async ({ tx, touch }) => {
    const { projectIds, stars } = input
    const there = await tx.project.findMany({
      where: { id: { in: [...projectIds] }, goneAt: null },
      select: { id: true },
      orderBy: { id: 'asc' },
    })
    const missing = projectIds.find((id) => !there.some((one) => one.id === id))
    if (missing !== undefined) return refused({ kind: 'no-such-project', projectId: missing })
    await tx.project.updateMany({
      where: { id: { in: there.map(({ id }) => id) }, goneAt: null },
      data: { stars, version: { increment: 1 } },
    })
    for (const { id } of there) touch('project', id)
    return ok(null)
  })
}
