import 'server-only'
import type { Result } from '#lib/result'
import type { PartCertainty } from '#lib/stock/batch'
import { planCorrect } from '#lib/stock/plan-amounts'
import { type BatchEdit, changeBatch, type EditRefused, type StockChanged } from './change-batch'

type NotCorrected = { kind: 'no-reason' } | { kind: 'no-change' }
export type CorrectRefused = NotCorrected | EditRefused

/**
 * Set a batch to what was counted, with the reason.
 *
 * @throws {RangeError} if an amount is not a whole number of nought or more, or a part length contradicts its certainty
 */
export function correctBatch(
  input: BatchEdit & { wholePutUps: number; partStrandTenths: number; partCertainty: PartCertainty; reason: string },
): Promise<Result<StockChanged, CorrectRefused>> {
  return changeBatch<NotCorrected>(input, async ({ batch }) => planCorrect(batch, input))
}
