import 'server-only'
import type { Result } from '#lib/result'
import { write } from '../write'
import type { LoanRefusal } from './loan-refusal'
import { type LoanInput, openLoan } from './open-loan'

/**
 * Lend things of one owner to somebody until a day. Refused for a file, for what is out, promised, kept or in use, and, until
 * `acceptsClash`, for the last copy of a chart that somebody means to stitch from meanwhile.
 */
export function lendThings(input: LoanInput & { dueOn: string }): Promise<Result<{ loanId: string }, LoanRefusal>> {
  return write<{ loanId: string }, LoanRefusal>((open) =>
    openLoan(open, input, { kind: 'lend', projectId: null, priceMinor: null, keptPlaceId: null }),
  )
}
