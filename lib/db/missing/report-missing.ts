import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { type NoPlace, planMissing } from '#lib/stock/missing'
import type { NotEnough, NothingParted } from '#lib/stock/stock-change'
import { newId } from '../new-id'
import { applyStockChange, type ChangedMeanwhile, readBatches } from '../stock/apply-stock-change'
import type { NoSuchBatch } from '../stock/change-batch'
import type { Write } from '../write-gate'
import { ensureNotFoundPlace } from './not-found-place'

export type AlreadyMissing = { kind: 'already-missing'; missingId: string }
export type ReportMissingRefused = NoSuchBatch | ChangedMeanwhile | NotEnough | NothingParted | NoPlace | AlreadyMissing

/**
 * Thread was looked for and is not there: what is missing is parted off, goes on record as not found, so that it is out and not free, and
 * a question is opened with where it was seen last.
 *
 * @param input.lastSeenPlaceId  null: where the record has it
 * @param input.stays            it stays *out, last seen there* instead: for what was in a bag that is unpacked. Passed over for what is at home.
 */
export async function reportMissing(
  writing: Write,
  input: {
    batchId: string
    version?: number
    wholePutUps: number
    takesPart: boolean
    projectId?: string | null
    walkId?: string | null
    lastSeenPlaceId: string | null
    stays?: boolean
    note?: string | null
    who?: string | null
  },
): Promise<Result<{ missingId: string; batchId: string }, ReportMissingRefused>> {
  const { tx } = writing
  const { batchId, wholePutUps, takesPart, projectId = null, walkId = null, note = null, who = null } = input
  const { batches, promises, versions } = await readBatches(tx, { id: batchId })
  const batch = batches[0]
  if (!batch) return refused({ kind: 'no-such-batch', batchId })
  if (input.version !== undefined && versions.get(batchId) !== input.version) return refused({ kind: 'changed-meanwhile' })
  const open = await tx.missingThing.findFirst({ where: { batchId, status: 'open' }, select: { id: true } })
  if (open) return refused({ kind: 'already-missing', missingId: open.id })

  const notFoundPlaceId = await ensureNotFoundPlace(writing)
  const isThere = batch.currentPlaceId === notFoundPlaceId
  const toPlaceId = isThere || (input.stays && isOut(batch)) ? null : notFoundPlaceId
  const planned = planMissing(batch, {
    ...{ wholePutUps, takesPart, toPlaceId, projectId, promises },
    newBatchId: newId(),
    reason: note ?? 'not found',
  })
  if (!planned.ok) return planned
  const { change, missingBatchId } = planned.value
  const applied = await applyStockChange(writing, change, { versions, who })
  if (!applied.ok) return applied
  const missingId = await openQuestion(writing, {
    ...{ batchId: missingBatchId, projectId, walkId, note, who },
    lastSeenPlaceId: input.lastSeenPlaceId ?? batch.currentPlaceId ?? batch.homePlaceId,
  })
  writing.touch('batch', missingBatchId)
  return ok({ missingId, batchId: missingBatchId })
}

type Question = {
  lastSeenPlaceId: string | null
  projectId: string | null
  walkId: string | null
  note: string | null
  who: string | null
} & ({ batchId: string } | { clothPieceId: string } | { chartId: string } | { notionId: string })

/** Open the question where a thing may be. */
export async function openQuestion({ tx, at }: Pick<Write, 'tx' | 'at'>, question: Question): Promise<string> {
  const { who, ...what } = question
  const id = newId()
  await tx.missingThing.create({ data: { id, ...what, askedAt: at, askedBy: who } })
  return id
}
