import 'server-only'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { Prisma } from '../generated/sqlite/client'
import type { Write } from '../write-gate'
import type { WorkingProject } from './chart-refusal'

/** Projects by what they are worked from, the first begun first. */
export async function readProjects({ tx }: Pick<Write, 'tx'>, where: Prisma.ProjectWhereInput): Promise<WorkingProject[]> {
  const rows = await tx.project.findMany({
    where,
    select: { id: true, status: true, design: { select: { title: true } } },
    orderBy: { id: 'asc' },
  })
  return rows.map(({ id, status, design }) => ({ id, status: status as ProjectStatus, title: design.title }))
}
