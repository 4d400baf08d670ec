import 'server-only'
import { formatThreadLength } from '#lib/quantity/thread-length'
import { ok, type Result } from '#lib/result'
import type { Batch } from '#lib/stock/batch'
import { planRelabel } from '#lib/stock/movements'
import { type BatchEdit, changeBatch, type EditRefused, type StockChanged } from './change-batch'

type Label = Pick<Batch, 'lot' | 'putUpStrandTenths'>
type NotRelabelled = { kind: 'no-reason' } | { kind: 'no-change' }
export type RelabelRefused = NotRelabelled | EditRefused

/**
 * Set a batch's lot and the length of its put-ups to what their labels say. The journal keeps what the record said before, ahead of the
 * reason given.
 *
 * @throws {RangeError} as `planRelabel`
 */
export function relabelBatch(input: BatchEdit & Label & { reason: string }): Promise<Result<StockChanged, RelabelRefused>> {
  return changeBatch<NotRelabelled>(input, async ({ tx, batch }) => {
    const planned = planRelabel(batch, input)
    if (!planned.ok) return planned
    const { line } = await tx.thread.findUniqueOrThrow({
      where: { id: batch.threadId },
      select: { line: { select: { strands: true } } },
    })
    const change = labelChange(batch, input, line.strands)
    return ok({
      ...planned.value,
      movements: planned.value.movements.map((movement) => ({ ...movement, reason: `${change}; ${movement.reason}` })),
    })
  })
}

/** What the label said before and says now: "lot 17 to lot 18, 8 m to 10 m each". */
function labelChange(before: Label, now: Label, strands: number): string {
  const lot = ({ lot }: Label) => (lot === null ? 'no lot' : `lot ${lot}`)
  const length = ({ putUpStrandTenths }: Label) => formatThreadLength(putUpStrandTenths / strands, 'm')
  return [
    ...(before.lot === now.lot ? [] : [`${lot(before)} to ${lot(now)}`]),
    ...(before.putUpStrandTenths === now.putUpStrandTenths ? [] : [`${length(before)} to ${length(now)} each`]),
  ].join(', ')
}
