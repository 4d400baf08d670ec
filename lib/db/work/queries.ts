import 'server-only'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'

export type WorkRow = {
  id: string
  version: number
  /** yyyy-mm-dd */
  day: string
  stitches: number
  minutes: number
  donePerMille: number | null
  note: string | null
  photoFile: string | null
  who: string | null
}

const columns = {
  ...{ id: true, version: true, day: true, stitches: true, minutes: true, donePerMille: true, note: true },
  ...{ photoFile: true, who: true },
} as const satisfies Prisma.WorkEntrySelect

/** A page of a project's log, the latest day first. */
export async function listWork(
  projectId: string,
  page: { offset: number; limit: number },
): Promise<{ entries: WorkRow[]; total: number }> {
  const { prisma } = database()
  const where = { projectId, goneAt: null }
  const [entries, total] = await Promise.all([
    prisma.workEntry.findMany({
      ...{ where, select: columns, orderBy: [{ day: 'desc' }, { id: 'desc' }], skip: page.offset, take: page.limit },
    }),
    prisma.workEntry.count({ where }),
  ])
  return { entries, total }
}

/** What was taken out of a project's log last, to be put back; null when nothing was. */
export const findRemovedWork = (projectId: string): Promise<WorkRow | null> =>
  database().prisma.workEntry.findFirst({
    ...{ where: { projectId, goneAt: { not: null } }, select: columns, orderBy: [{ goneAt: 'desc' }, { id: 'desc' }] },
  })

/** An entry of a project, in its log or taken out of it. */
export const findWork = (projectId: string, entryId: string): Promise<WorkRow | null> =>
  database().prisma.workEntry.findFirst({ where: { id: entryId, projectId }, select: columns })

/** Since when somebody sits at a project; null when nobody does. */
export const findTimer = async (projectId: string): Promise<Date | null> =>
  (await database().prisma.workTimer.findUnique({ where: { projectId } }))?.startedAt ?? null

export type RunningTimer = { project: { id: string; title: string }; startedAt: Date }

/** At which works somebody sits now, the longest first. */
export async function listTimers(ownerIds: readonly string[]): Promise<RunningTimer[]> {
  const rows = await database().prisma.workTimer.findMany({
    where: { project: { ownerId: { in: [...ownerIds] }, goneAt: null } },
    select: { startedAt: true, project: { select: { id: true, design: { select: { title: true } } } } },
    orderBy: [{ startedAt: 'asc' }, { projectId: 'asc' }],
  })
  return rows.map(({ startedAt, project }) => ({ startedAt, project: { id: project.id, title: project.design.title } }))
}

/** What was logged on a day, by project: the entries' ids and versions, the latest first. */
export async function listWorkOfDay(
  ownerIds: readonly string[],
  day: string,
): Promise<Map<string, { id: string; version: number }[]>> {
  const rows = await database().prisma.workEntry.findMany({
    where: { day, goneAt: null, project: { ownerId: { in: [...ownerIds] }, goneAt: null } },
    select: { id: true, version: true, projectId: true },
    orderBy: { id: 'desc' },
  })
  const byProject = new Map<string, { id: string; version: number }[]>()
  for (const { projectId, ...entry } of rows) byProject.set(projectId, [...(byProject.get(projectId) ?? []), entry])
  return byProject
}
