import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import { type ProjectEditRefused, type ProjectSnapshot, readProject } from '../project/project-row'

/** An entry as a form names it: `version` is what the person saw; left out, it is taken as it stands. */
export type WorkEntryEdit = { entryId: string; version?: number }

export type WorkEntryRefused = ProjectEditRefused | { kind: 'no-such-entry'; entryId: string }

/** An entry that is in the log, or was taken out of it, with its project, claimed by its version. */
export async function claimEntry(
  tx: Transaction,
  edit: WorkEntryEdit,
  isGone: boolean,
): Promise<Result<{ project: ProjectSnapshot; stitches: number }, WorkEntryRefused>> {
  const { entryId, version } = edit
  const entry = await tx.workEntry.findUnique({
    where: { id: entryId },
    select: { projectId: true, version: true, goneAt: true, stitches: true },
  })
  if (!entry || (entry.goneAt !== null) !== isGone) return refused({ kind: 'no-such-entry', entryId })
  if (version !== undefined && version !== entry.version) return refused({ kind: 'changed-meanwhile' })
  const project = await readProject(tx, { projectId: entry.projectId })
  if (!project.ok) return project
  const claimed = await tx.workEntry.updateMany({
    where: { id: entryId, version: entry.version },
    data: { version: { increment: 1 } },
  })
  return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok({ project: project.value, stitches: entry.stitches })
}
