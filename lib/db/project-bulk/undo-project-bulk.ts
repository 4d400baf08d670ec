import 'server-only'
import { planStepsBack } from '#lib/place/new-home'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { write } from '../write'
import { giveFacts } from './apply-project-bulk'
import { type KeptProjectBulk, ofProjects, type ProjectBulkStep, projectStepsText, readProjectSteps } from './queries'

export type ProjectBulkUndoRefused = { kind: 'no-such-edit'; bulkEditId: string } | { kind: 'already-undone'; bulkEditId: string }

export type ProjectBulkUndone = { takenBack: number; left: KeptProjectBulk['left'] }

/** Take a change of many projects back in one write; what was changed since is left alone and named. */
export function undoProjectBulk({
  bulkEditId,
}: {
  bulkEditId: string
}): Promise<Result<ProjectBulkUndone, ProjectBulkUndoRefused>> {
  requireWhole()
  return write<ProjectBulkUndone, ProjectBulkUndoRefused>(async (writing) => {
    const { tx } = writing
    const row = await tx.bulkEdit.findFirst({ where: { id: bulkEditId, ...ofProjects } })
    if (!row) return refused({ kind: 'no-such-edit', bulkEditId })
    const claimed = await tx.bulkEdit.updateMany({
      where: { id: bulkEditId, status: 'done', version: row.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'already-undone', bulkEditId })
    const kept = readProjectSteps(row.stepsJson)
    const versions = new Map<string, number>()
    for (const some of chunks(kept.steps)) {
      const where = { id: { in: some.map(({ id }) => id) }, goneAt: null }
      const rows = await tx.project.findMany({ where, select: { id: true, version: true } })
      for (const { id, version } of rows) versions.set(id, version)
    }
    // A project's facts name no place, so none of them can have been taken away.
    const steps = kept.steps.map((step) => ({ id: step.id, versionAfter: step.versionAfter, before: null, step }))
    const { back, left } = planStepsBack(steps, versions, new Set())
    const alike = new Map<string, ProjectBulkStep[]>()
    for (const { step } of back) {
      const key = JSON.stringify(step.before)
      alike.set(key, [...(alike.get(key) ?? []), step])
    }
    for (const group of alike.values()) {
      const { before } = group[0] as ProjectBulkStep
      await giveFacts(
        writing,
        group.map(({ id }) => id),
        before,
      )
    }
    const leftAlone = left.map(({ step: { id }, why }) => ({ id, why }))
    await tx.bulkEdit.update({ where: { id: bulkEditId }, data: { stepsJson: projectStepsText({ ...kept, left: leftAlone }) } })
    return ok({ takenBack: back.length, left: leftAlone })
  })
}
