import 'server-only'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { Prisma } from '../generated/sqlite/client'
import { beyondSight } from '../sight/sighted-client'
import type { Write } from '../write-gate'
import type { WorkingProject } from './chart-refusal'

/**
 * Projects by what they are worked from, the first begun first. Also those of owners that are not seen: a chart somebody works from stays,
 * and no more is told of them than its own title.
 */
export async function readProjects({ tx }: Pick<Write, 'tx'>, where: Prisma.ProjectWhereInput): Promise<WorkingProject[]> {
  const rows = await beyondSight(tx).project.findMany({
    where,
    select: { id: true, status: true, design: { select: { title: true } } },
    orderBy: { id: 'asc' },
  })
  return rows.map(({ id, status, design }) => ({ id, status: status as ProjectStatus, title: design.title }))
}
