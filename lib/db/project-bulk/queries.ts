import 'server-only'
import { z } from 'zod'
import type { WhyLeft } from '#lib/place/new-home'
import type { ProjectBulkChange, ProjectFacts } from '#lib/project/plan-project-bulk'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database } from '../client'

const text = z.string().nullable()
const factsSchema = z
  .object({ dueOn: text, occasionKey: text, plannedOn: text, forWhom: text, stars: z.int().nullable() })
  .partial()
const keptSchema = z.object({
  projects: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('due'), dueOn: text }),
    z.object({ kind: z.literal('planned'), plannedOn: text }),
    z.object({ kind: z.literal('for-whom'), forWhom: text }),
    z.object({ kind: z.literal('stars'), stars: z.int().nullable() }),
  ]),
  steps: z.array(z.object({ id: z.string(), before: factsSchema, versionAfter: z.int() })),
  left: z.array(z.object({ id: z.string(), why: z.enum(['changed-since', 'gone', 'place-gone']) })),
})

/** What it takes to undo one line: what was there before, and the version it got. */
export type ProjectBulkStep = { id: string; before: Partial<ProjectFacts>; versionAfter: number }

/** `left`: once undone, what was left alone. */
export type KeptProjectBulk = { change: ProjectBulkChange; steps: ProjectBulkStep[]; left: { id: string; why: WhyLeft }[] }

/** How such a change begins in the table it shares with other changes of many. */
export const ofProjects = { stepsJson: { startsWith: '{"projects":' } }

export const projectStepsText = ({ change, steps, left }: KeptProjectBulk): string =>
  JSON.stringify({ projects: change, steps, left })

/** @throws what zod throws when it is not of that shape */
export function readProjectSteps(json: string): KeptProjectBulk {
  const { projects, steps, left } = keptSchema.parse(JSON.parse(json))
  return { change: projects, steps: steps as ProjectBulkStep[], left }
}

export type ProjectBulkHead = { id: string; at: Date; who: string | null; what: string; isUndone: boolean }

const headColumns = { id: true, at: true, who: true, what: true, status: true } as const

/** The changes made to many projects, latest first. */
export async function listProjectBulks(limit: number): Promise<ProjectBulkHead[]> {
  const rows = await database().prisma.bulkEdit.findMany({
    where: ofProjects,
    select: headColumns,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(({ status, ...row }) => ({ ...row, isUndone: status === 'undone' }))
}

/** One with what it kept, or null. */
export async function findProjectBulk(id: string): Promise<(ProjectBulkHead & KeptProjectBulk) | null> {
  const row = await database().prisma.bulkEdit.findFirst({
    where: { id, ...ofProjects },
    select: { ...headColumns, stepsJson: true },
  })
  if (!row) return null
  const { stepsJson, status, ...head } = row
  return { ...head, isUndone: status === 'undone', ...readProjectSteps(stepsJson) }
}

/** What some projects are called: by the titles of their designs. What is gone keeps its name. */
export async function nameProjects(ids: readonly string[]): Promise<Map<string, string>> {
  const names = new Map<string, string>()
  for (const some of chunks([...new Set(ids)])) {
    const where = { id: { in: some } }
    const rows = await database().prisma.project.findMany({ where, select: { id: true, design: { select: { title: true } } } })
    for (const { id, design } of rows) names.set(id, design.title)
  }
  return names
}
