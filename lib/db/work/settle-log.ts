import 'server-only'
import { type LoggedWork, planLog } from '#lib/project/work-log'
import { ok, type Result } from '#lib/result'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { type ProjectSnapshot, writeProject } from '../project/project-row'
import { readStitchesTotal } from '../project/stitches-total'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'

/** What is in a project's log, but for what was taken out of it. */
export const readLog = (tx: Transaction, projectId: string): Promise<LoggedWork[]> =>
  tx.workEntry.findMany({
    where: { projectId, goneAt: null },
    select: { id: true, day: true, stitches: true, minutes: true, donePerMille: true },
    orderBy: { id: 'asc' },
  })

/**
 * Bring a project's totals to where its changed log leads: call it with what the log was before, once its rows are written. It writes
 * the project's row, and with it what `more` says.
 */
export async function settleLog(
  writing: Write,
  project: ProjectSnapshot,
  before: readonly LoggedWork[],
  more: Prisma.ProjectUncheckedUpdateManyInput = {},
): Promise<Result<null, ChangedMeanwhile>> {
  const { tx } = writing
  const [after, total] = [await readLog(tx, project.id), await readStitchesTotal(tx, project)]
  const { stitchesDone, hoursTenths } = project
  const planned = planLog({ totals: { stitchesDone, hoursTenths }, before, after, stitchesTotal: total?.stitches ?? null })
  for (const { id, stitches } of planned.settled) await tx.workEntry.update({ where: { id }, data: { stitches } })
  const written = await writeProject(writing, project, { ...planned.totals, ...more })
  return written.ok ? ok(null) : written
}
