import 'server-only'
import { grouped } from '#lib/grouped'
import { type KitPair, kitPairs } from '#lib/planning/together/shared-threads'
import type { ProjectStatus } from '#lib/project/life-cycle'
import type { Answers } from '../../answers/answers'
import { database } from '../../client'

/** What is not kitted yet. */
export const unkittedStatuses = ['wanted', 'planned'] as const satisfies readonly ProjectStatus[]

export type PairedProject = { projectId: string; designId: string; status: (typeof unkittedStatuses)[number]; threads: number }

export type KitPairs = {
  pairs: (Omit<KitPair, 'designIds'> & { projects: [PairedProject, PairedProject] })[]
  /** Projects looked at. */
  looked: number
  /** More than are looked at. */
  passedOver: number
}

/** Two of so many are some 45,000 pairs. */
const mostLookedAt = 300

/**
 * Which two of what is wanted or planned to kit at once, by the threads their lists share. A project without a list of its own goes by
 * its design's first.
 */
export async function readKitPairs(answers: Answers, ownerIds: readonly string[]): Promise<KitPairs> {
  const rows = await database().prisma.project.findMany({
    where: { status: { in: [...unkittedStatuses] }, goneAt: null, ownerId: { in: [...ownerIds] } },
    select: { id: true, designId: true, threadListId: true, status: true },
    orderBy: { id: 'asc' },
  })
  const { needs } = answers
  const projects = rows.slice(0, mostLookedAt).flatMap(({ id: projectId, designId, threadListId, status }) => {
    const own = needs.rowsOf(designId)
    const row = own.find((one) => needs.listAt(one) === threadListId) ?? own[0]
    if (row === undefined) return []
    const { threads, start, end } = needs.needsOf(row)
    const threadIds = Array.from({ length: end - start }, (_, at) => needs.threadIds[threads[start + at] as number] as string)
    return [{ projectId, designId, status: status as PairedProject['status'], threadIds, threads: threadIds.length }]
  })
  const named = new Map(projects.map((project) => [project.projectId, project]))
  // Two copies of one design are one kit of two: no pair.
  const onePerDesign = [...grouped(projects, ({ designId }) => designId).values()].map(
    ([first]) => first as (typeof projects)[number],
  )
  const projectOf = (projectId: string): PairedProject => {
    const { threadIds: _, ...project } = named.get(projectId) as (typeof projects)[number]
    return project
  }
  const pairs = kitPairs(onePerDesign.map(({ projectId, threadIds }) => ({ designId: projectId, threadIds }))).map(
    ({ designIds: [one, other], ...pair }) => ({
      ...pair,
      projects: [projectOf(one), projectOf(other)] as [PairedProject, PairedProject],
    }),
  )
  return { pairs, looked: onePerDesign.length, passedOver: Math.max(0, rows.length - mostLookedAt) }
}
