import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { reportMissing } from '../missing/report-missing'
import { write } from '../write'
import type { WalkRefusal } from './walk-refusal'
import { batchIdOf, claimOpenWalk, readLineRows } from './walk-row'

export type LineMissingRefused = Exclude<
  WalkRefusal,
  {
    kind:
      | 'project-not-open'
      | 'already-pulling'
      | 'nothing-to-pull'
      | 'too-many-projects'
      | 'not-a-pull'
      | 'nothing-ticked'
      | 'bag-unnamed'
      | 'not-instead'
      | 'would-mix'
      | 'not-enough-free'
      | 'cloth-reserved'
      | 'no-such-cloth'
  }
>

/**
 * What these lines ask for is not where the record has it, and nobody knows where it is: it goes on record as not found, a question is
 * opened, and the lines stay, said to be not there.
 *
 * @param input.lineIds  lines of one batch
 */
export function reportLineMissing(input: {
  walkId: string
  lineIds: readonly string[]
  who?: string | null
}): Promise<Result<{ missingIds: string[] }, LineMissingRefused>> {
  return write<{ missingIds: string[] }, LineMissingRefused>(async (writing) => {
    const { tx, at, revision } = writing
    const { walkId, who = null } = input
    const walk = await claimOpenWalk(writing, walkId)
    if (!walk.ok) return walk
    const rows = await readLineRows(tx, walkId)
    const missingIds: string[] = []
    for (const lineId of input.lineIds) {
      const line = rows.find(({ id }) => id === lineId)
      if (!line) return refused({ kind: 'no-such-line', lineId })
      if (line.carriedAt !== null) return refused({ kind: 'carried-already' })
      const batchId = batchIdOf(line)
      if (batchId === null) return refused({ kind: 'not-thread' })
      const reported = await reportMissing(writing, {
        ...{ batchId, wholePutUps: line.count, takesPart: line.takesPart, projectId: line.projectId, walkId },
        ...{ lastSeenPlaceId: null, who },
      })
      if (!reported.ok) return refused(reported.error.kind === 'not-enough' ? { kind: 'not-enough' } : reported.error)
      missingIds.push(reported.value.missingId)
      await tx.walkLine.update({
        where: { id: lineId },
        // What it asked for is the missing thread from now on.
        data: {
          ...{ batchId: reported.value.batchId, insteadBatchId: null, status: 'not there', revision },
          ...{ tickedAt: at, tickedBy: who, note: 'Reported missing' },
        },
      })
    }
    return ok({ missingIds })
  })
}
