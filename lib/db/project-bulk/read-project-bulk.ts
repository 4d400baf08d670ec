import 'server-only'
import { createHash } from 'node:crypto'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { type BulkProject, type ProjectBulkChange, type ProjectBulkLine, planProjectBulk } from '#lib/project/plan-project-bulk'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database, type Transaction } from '../client'

export const mostProjects = 5_000

export type ProjectBulkRequest = { projectIds: readonly string[]; change: ProjectBulkChange }

export type ProjectBulkReading = { lines: ProjectBulkLine[]; versions: Map<string, number>; fingerprint: string }

type Reader = Pick<Transaction, 'project'>

const columns = {
  ...{ id: true, version: true, status: true, dueOn: true, occasionKey: true, plannedOn: true, forWhom: true, stars: true },
} as const

/** What a change would do to some projects, in the order they are named; what is gone is left out. */
export async function readProjectBulk(tx: Reader, { projectIds, change }: ProjectBulkRequest): Promise<ProjectBulkReading> {
  const found = new Map<string, BulkProject & { version: number }>()
  for (const some of chunks([...new Set(projectIds)])) {
    const rows = await tx.project.findMany({ where: { id: { in: some }, goneAt: null }, select: columns })
    for (const row of rows) found.set(row.id, { ...row, status: row.status as ProjectStatus })
  }
  const projects = [...new Set(projectIds)].flatMap((id) => found.get(id) ?? [])
  const restsOn = projects.map(({ id, version }) => [id, version])
  return {
    lines: planProjectBulk(change, projects),
    versions: new Map(projects.map(({ id, version }) => [id, version])),
    fingerprint: createHash('sha256')
      .update(JSON.stringify([change, restsOn]))
      .digest('base64url'),
  }
}

/** The same outside a write, for a look before it is done. */
export const previewProjectBulk = (request: ProjectBulkRequest): Promise<ProjectBulkReading> =>
  readProjectBulk(database().prisma, request)
