import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import { readInParts } from './in-parts'
import { readPull, readPulledProjects } from './read-pull'
import type { WalkRefusal } from './walk-refusal'
import { insertLines, untouchedLine } from './write-lines'

export type StartPullRefused = Extract<
  WalkRefusal,
  { kind: 'no-such-project' | 'project-not-open' | 'already-pulling' | 'nothing-to-pull' | 'too-many-projects' }
>

/** Projects one walk can be for: a wall of bags; past it nobody can carry them. */
export const mostProjects = 2_000

/**
 * Begin one walk for these projects: what to lift out for each, in walking order, as the record stands now. The list stays so while it
 * is walked; `bringUpToDate` plans what is still open anew.
 *
 * @param input.title  null: after the projects
 */
export async function startPull(input: {
  projectIds: readonly string[]
  title?: string | null
  who?: string | null
}): Promise<Result<{ walkId: string }, StartPullRefused>> {
  const settings = await getSettings()
  return write<{ walkId: string }, StartPullRefused>(async (writing) => {
    const { tx, at, revision } = writing
    const projectIds = [...new Set(input.projectIds)]
    if (projectIds.length === 0) return refused({ kind: 'nothing-to-pull' })
    if (projectIds.length > mostProjects) return refused({ kind: 'too-many-projects', most: mostProjects })
    const read = await readPulledProjects(tx, projectIds)
    if (!read.ok) return read
    const projects = read.value
    const [other] = await readInParts(projectIds, (ids) =>
      tx.walkProject.findMany({
        where: { projectId: { in: ids }, walk: { kind: 'pull', status: 'open' } },
        select: { projectId: true, walk: { select: { id: true, title: true } } },
        take: 1,
      }),
    )
    if (other) {
      const title = projects.find(({ id }) => id === other.projectId)?.design.title ?? ''
      return refused({ kind: 'already-pulling', walkId: other.walk.id, walkTitle: other.walk.title, title })
    }
    const { stops } = await readPull(tx, projects, settings)
    if (stops.length === 0) return refused({ kind: 'nothing-to-pull' })

    const walkId = newId()
    const title = input.title?.trim() || titleOf(projects.map(({ design }) => design.title))
    await tx.walk.create({ data: { id: walkId, kind: 'pull', title, startedAt: at, startedBy: input.who ?? null } })
    await tx.walkProject.createMany({ data: projectIds.map((projectId, position) => ({ walkId, projectId, position })) })
    await insertLines(
      writing,
      walkId,
      stops.map((stop) => ({ ...stop, ...untouchedLine, id: newId(), revision })),
    )
    return ok({ walkId })
  })
}

const titleOf = (titles: readonly string[]): string => {
  const [first, second, ...more] = [...new Set(titles)]
  if (!second) return first ?? ''
  return more.length === 0 ? `${first} and ${second}` : `${first} and ${more.length + 1} more`
}
