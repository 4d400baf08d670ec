import 'server-only'
import { findUntouched, type Untouched } from '#lib/planning/pace/untouched'
import type { ProjectStatus } from '#lib/project/life-cycle'
import { database } from '../../client'
import { getSettings } from '../../settings/settings'

export type WorkBegun = {
  id: string
  title: string
  status: ProjectStatus
  startedOn: string | null
  /** The last day in its log. */
  lastWorkedOn: string | null
}

export type WorksBegun = {
  /** Under the needle or resting. */
  works: WorkBegun[]
  untouched: Untouched<WorkBegun>[]
  limitDays: number
}

/** What was begun and is not done, and what of it was not touched for longer than the settings say. `today` is yyyy-mm-dd. */
export async function readWorksBegun(ownerIds: readonly string[], today: string): Promise<WorksBegun> {
  const { prisma } = database()
  const begun = { ownerId: { in: [...ownerIds] }, goneAt: null, status: { in: ['stitching', 'resting'] } }
  const [{ planning }, projects, worked] = await Promise.all([
    getSettings(),
    prisma.project.findMany({
      where: begun,
      select: { id: true, status: true, startedOn: true, design: { select: { title: true } } },
      orderBy: { id: 'asc' },
    }),
    prisma.workEntry.groupBy({ by: ['projectId'], where: { goneAt: null, project: begun }, _max: { day: true } }),
  ])
  const last = new Map(worked.map(({ projectId, _max }) => [projectId, _max.day]))
  const works = projects.map(({ id, status, startedOn, design }) => ({
    ...{ id, title: design.title, status: status as ProjectStatus, startedOn, lastWorkedOn: last.get(id) ?? null },
  }))
  const limitDays = planning.untouchedDays
  return { works, untouched: findUntouched(works, { today, limitDays }), limitDays }
}
