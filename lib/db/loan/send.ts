import 'server-only'
import { type Result, refused } from '#lib/result'
import { write } from '../write'
import type { LoanRefusal } from './loan-refusal'
import { type LoanInput, openLoan } from './open-loan'

/**
 * Send a project's work, or other goods, to be worked on: to a framer, a finisher, a model stitcher. What lies in the project's bag may
 * go along; the project is then where they are.
 *
 * @param input.projectId   whose work; it goes along by itself
 * @param input.priceMinor  what was agreed, in pence or cents
 */
export function sendAway(
  input: LoanInput & { projectId: string | null; projectVersion?: number; priceMinor: number | null },
): Promise<Result<{ loanId: string }, LoanRefusal>> {
  return write<{ loanId: string }, LoanRefusal>(async (open) => {
    const { projectId, projectVersion: version, priceMinor, ...rest } = input
    if (projectId === null) return openLoan(open, rest, { kind: 'send', projectId, priceMinor, keptPlaceId: null })
    if (rest.things.some(({ noun }) => noun === 'project')) return refused({ kind: 'said-twice', name: '' })
    const things = [{ noun: 'project' as const, id: projectId, version }, ...rest.things]
    return openLoan(open, { ...rest, things }, { kind: 'send', projectId, priceMinor, keptPlaceId: null })
  })
}
