import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { planCorrect } from '#lib/stock/plan-amounts'
import { type CountStatus, hasMovedSince, type LineOutcome } from '#lib/stock/stocktake'
import { applyStockChange, readBatches } from '../stock/apply-stock-change'
import { write } from '../write'
import type { DecideRefused } from './count-refusal'

/**
 * Decide on one line that was compared: correct the record to what was counted, send it to be counted again, or leave the record.
 *
 * The correction and the decision are one write. Stock that moved since it was read for the count is never corrected: the figure may
 * be of before or after, so it is to be counted again.
 *
 * @param input.sawCounted  the figure the person decided on
 * @param input.reasonOf    what the journal says of a correction
 */
export function decideLine(input: {
  countId: string
  lineId: string
  outcome: LineOutcome
  sawCounted: number | null
  by: string
  note?: string | null
  reasonOf: (corrected: { title: string; expected: number; counted: number }) => string
}): Promise<Result<null, DecideRefused>> {
  return write<null, DecideRefused>(async (writing) => {
    const { tx } = writing
    const { countId, lineId, outcome, by } = input
    const count = await tx.stockCount.findUnique({
      where: { id: countId },
      select: { title: true, status: true, startedAt: true },
    })
    if (!count) return refused({ kind: 'no-such-count' })
    if (count.status !== 'counted') return refused({ kind: 'not-compared', status: count.status as CountStatus })
    const line = await tx.stockCountLine.findFirst({ where: { id: lineId, countId } })
    if (!line) return refused({ kind: 'no-such-line' })
    if (line.outcome === 'accepted') return refused({ kind: 'decided-already' })
    if (line.counted !== input.sawCounted) return refused({ kind: 'changed-meanwhile' })
    const isDifferent = line.counted !== null && line.counted !== line.expected
    if (outcome !== 'recount' && !isDifferent) return refused({ kind: 'not-different' })

    if (outcome === 'accepted') {
      const { batchId, counted } = line
      if (batchId === null || counted === null) return refused({ kind: 'not-on-record' })
      const { batches, versions } = await readBatches(tx, { id: batchId })
      const batch = batches[0]
      const last = await tx.movement.findFirst({
        where: { batchId },
        select: { at: true },
        orderBy: [{ at: 'desc' }, { id: 'desc' }],
      })
      const since = line.outcome === 'recount' && line.countedAt ? line.countedAt : count.startedAt
      const now = batch && {
        wholePutUps: batch.wholePutUps,
        placeId: batch.currentPlaceId ?? batch.homePlaceId,
        isGone: false,
        lastMovedAt: last?.at ?? null,
      }
      if (!now || hasMovedSince(line, now, since)) return refused({ kind: 'moved-since' })
      const planned = planCorrect(batch, {
        wholePutUps: counted,
        partStrandTenths: batch.partStrandTenths,
        partCertainty: batch.partCertainty,
        reason: input.reasonOf({ title: count.title, expected: line.expected, counted }),
      })
      // It differs from what was expected, and that is what the record says.
      if (!planned.ok) throw new RangeError(`decideLine: ${planned.error.kind}`)
      const applied = await applyStockChange(writing, planned.value, { versions, who: by })
      if (!applied.ok) return applied
    }
    await tx.stockCountLine.update({
      where: { id: lineId },
      data: {
        outcome,
        note: input.note ?? line.note,
        ...(outcome === 'recount' && { counted: null, countedAt: null, countedBy: null }),
      },
    })
    return ok(null)
  })
}
