import 'server-only'
import type { Result } from '#lib/result'
import { ensurePlace } from '../place/ensure-place'
import { write } from '../write'
import type { LoanRefusal } from './loan-refusal'
import { type LoanInput, openLoan } from './open-loan'

/**
 * Set down what was borrowed: in words, or a thing of another owner of this collection, which is then out where it is kept.
 *
 * @param input.ownerId      who borrowed it
 * @param input.keptInLabel  where it is kept meanwhile; needed for things of another owner
 */
export function borrowThings(
  input: LoanInput & { keptInLabel: string | null },
): Promise<Result<{ loanId: string }, LoanRefusal>> {
  return write<{ loanId: string }, LoanRefusal>(async (open) => {
    const { keptInLabel, ...rest } = input
    const isOfOthers = rest.things.some(({ noun }) => noun !== 'text')
    const keptPlaceId = isOfOthers && keptInLabel !== null ? await ensurePlace(open, keptInLabel) : null
    return openLoan(open, rest, { kind: 'borrow', projectId: null, priceMinor: null, keptPlaceId })
  })
}
