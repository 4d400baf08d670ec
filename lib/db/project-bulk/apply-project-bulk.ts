import 'server-only'
import { factsOf, type ProjectFacts } from '#lib/project/plan-project-bulk'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import { projectStepsText } from './queries'
import { mostProjects, type ProjectBulkRequest, readProjectBulk } from './read-project-bulk'

export type ProjectBulkRefused =
  | { kind: 'changed-meanwhile' }
  | { kind: 'nothing-changes' }
  | { kind: 'too-many'; count: number; most: number }

export type ProjectBulkDone = { bulkEditId: string; changed: number; same: number; over: number }

/**
 * Make one change to many projects in one write, and keep what it takes to undo it. What is finished or given up is passed over.
 *
 * @param request.fingerprint  of the preview the person saw; refused as `changed-meanwhile` when it would now do something else
 */
export function applyProjectBulk(
  request: ProjectBulkRequest & { what: string; fingerprint?: string | undefined; who?: string | null },
): Promise<Result<ProjectBulkDone, ProjectBulkRefused>> {
  requireWhole()
  return write<ProjectBulkDone, ProjectBulkRefused>(async (writing) => {
    const { tx, at } = writing
    const { change, what, who = null } = request
    const count = request.projectIds.length
    if (count > mostProjects) return refused({ kind: 'too-many', count, most: mostProjects })
    const { lines, versions, fingerprint } = await readProjectBulk(tx, request)
    if (request.fingerprint !== undefined && request.fingerprint !== fingerprint) return refused({ kind: 'changed-meanwhile' })
    const changing = lines.filter(({ outcome }) => outcome === 'changes')
    if (changing.length === 0) return refused({ kind: 'nothing-changes' })
    const ids = changing.map(({ id }) => id)
    await giveFacts(writing, ids, factsOf(change))
    const steps = changing.map(({ id, before }) => ({ id, before, versionAfter: (versions.get(id) as number) + 1 }))
    const bulkEditId = newId()
    const stepsJson = projectStepsText({ change, steps, left: [] })
    await tx.bulkEdit.create({ data: { id: bulkEditId, at, who, what, stepsJson } })
    const ofOutcome = (asked: 'same' | 'over') => lines.filter(({ outcome }) => outcome === asked).length
    return ok({ bulkEditId, changed: changing.length, same: ofOutcome('same'), over: ofOutcome('over') })
  })
}

/** Write the same onto some projects. */
export async function giveFacts({ tx, touch }: Write, ids: readonly string[], facts: Partial<ProjectFacts>): Promise<void> {
  for (const some of chunks(ids))
    await tx.project.updateMany({ where: { id: { in: some } }, data: { ...facts, version: { increment: 1 } } })
  for (const id of ids) touch('project', id)
}
