import { listProjectsUnderWay } from '#lib/db/project/queries'
import { listBrokenPromises } from '#lib/db/stock/broken-promises'
import { listWorkOfDay } from '#lib/db/work/queries'
import type { Run } from '#lib/listing/runs'
import { underWayStatuses } from '#lib/project/life-cycle'
import { counted } from '#words/amounts'
import { filterOf, type ProjectsQuery } from '../_listing/projects-query'
import type { ProjectListRow } from './project-columns'
import { statusHeads } from './words'

export type ProjectsFound = {
  rows: ProjectListRow[]
  /** Of all that are found, in the order of the list. */
  ids: string[]
  /** Headings of the whole list. */
  runs: Run[]
  /** How many there are, whatever is chosen. */
  every: number
  /** Of those, by state. */
  everyByStatus: Awaited<ReturnType<typeof listProjectsUnderWay>>['byStatus']
}

type Asked = { ownerIds: readonly string[]; today: string; page: number; perPage: number }

/** A page of the projects under way that the choices find, the nearest to the needle first. */
export async function findProjects(query: ProjectsQuery, { today, ...asked }: Asked): Promise<ProjectsFound> {
  const { ownerIds } = asked
  const [found, broken, worked] = await Promise.all([
    listProjectsUnderWay({ ...asked, filter: filterOf(query), today }),
    listBrokenPromises({ ownerIds }),
    listWorkOfDay(ownerIds, today),
  ])
  const brokenCounts = new Map<string, number>()
  for (const { projectId } of broken) brokenCounts.set(projectId, (brokenCounts.get(projectId) ?? 0) + 1)
  let first = 0
  const runs = underWayStatuses.flatMap((status): Run[] => {
    const count = found.byStatus[status] ?? 0
    const run = { title: statusHeads[status], note: counted(count, 'project'), first }
    first += count
    return count > 0 ? [run] : []
  })
  return {
    ...{ ids: found.ids, runs, every: found.every, everyByStatus: found.everyByStatus },
    rows: found.rows.map((row) => {
      const [last] = worked.get(row.id) ?? []
      return { ...row, brokenCount: brokenCounts.get(row.id) ?? 0, today: last ? { id: last.id, version: last.version } : null }
    }),
  }
}
