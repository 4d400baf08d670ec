import 'server-only'
import { formatThreadLength } from '#lib/quantity/thread-length'
import { ok, type Result } from '#lib/result'
import type { Batch } from '#lib/stock/batch'
import { planRelabel } from '#lib/stock/plan-amounts'
import { type BatchEdit, changeBatch, type EditRefused, type StockChanged } from './change-batch'
import { ownWord } from './own-word'

type Label = Pick<Batch, 'lot' | 'putUpWord' | 'putUpStrandTenths'>
type NotRelabelled = { kind: 'no-reason' } | { kind: 'no-change' }
export type RelabelRefused = NotRelabelled | EditRefused

/**
 * Set a batch's lot, what its put-ups are called and their length to what their labels say. The journal keeps what the record said
 * before, ahead of the reason given.
 *
 * @param input.putUpWord  left out: as it was; null: as its line says
 * @throws {RangeError} as `planRelabel`
 */
export function relabelBatch(
  input: BatchEdit & Omit<Label, 'putUpWord'> & { putUpWord?: string | null; reason: string },
): Promise<Result<StockChanged, RelabelRefused>> {
  return changeBatch<NotRelabelled>(input, async ({ tx, batch }) => {
    const { line } = await tx.thread.findUniqueOrThrow({
      where: { id: batch.threadId },
      select: { line: { select: { strands: true, putUpWord: true } } },
    })
    const label = {
      ...input,
      putUpWord: input.putUpWord === undefined ? batch.putUpWord : ownWord(input.putUpWord, line.putUpWord),
    }
    const planned = planRelabel(batch, label)
    if (!planned.ok) return planned
    const change = labelChange(batch, label, line)
    return ok({
      ...planned.value,
      movements: planned.value.movements.map((movement) => ({ ...movement, reason: `${change}; ${movement.reason}` })),
    })
  })
}

/** What the label said before and says now: "lot 17 to lot 18, skein to hank, 8 m to 10 m each". */
function labelChange(before: Label, now: Label, line: { strands: number; putUpWord: string }): string {
  const lot = ({ lot }: Label) => (lot === null ? 'no lot' : `lot ${lot}`)
  const word = ({ putUpWord }: Label) => putUpWord ?? line.putUpWord
  const length = ({ putUpStrandTenths }: Label) => formatThreadLength(putUpStrandTenths / line.strands, 'm')
  return [
    ...(before.lot === now.lot ? [] : [`${lot(before)} to ${lot(now)}`]),
    ...(before.putUpWord === now.putUpWord ? [] : [`${word(before)} to ${word(now)}`]),
    ...(before.putUpStrandTenths === now.putUpStrandTenths ? [] : [`${length(before)} to ${length(now)} each`]),
  ].join(', ')
}
