import type { LoanClash, LoanRefusal } from '#lib/db/loan/loan-refusal'
import { findLoan, type LoanRow } from '#lib/db/loan/queries'
import type { Result } from '#lib/result'
import { calendarDay } from '#words/date'
import { describeLoanRefusal, lentName } from '#words/loan'
import { notFound, Problem } from './problem'
import { noSuch } from './stock-refusal'

export const todayHere = (): string => calendarDay(new Date())

/** A loan as the API gives it. */
export function describeLoan(loan: LoanRow) {
  const { standing, project, place, owner, lines } = loan
  const { kind, reason, fromOn, dueOn, closedOn, priceMinor, note, version } = loan
  const days = 'daysOver' in standing ? standing.daysOver : 'daysLeft' in standing ? standing.daysLeft : null
  return {
    loanId: loan.id,
    ...{ version, kind, with: { placeId: place.id, label: place.label }, owner, reason, fromOn, dueOn, closedOn },
    standing: { kind: standing.kind, days },
    project: project && { projectId: project.id, title: project.title },
    ...{ priceMinor, note },
    lines: lines.map(({ id, thing, count, backOn, backNote, isElsewhere }) => ({
      ...{ lineId: id, noun: thing.noun, thingId: thing.id, name: lentName(thing), count, backOn, backNote, isElsewhere },
    })),
  }
}

export const describeClash = ({ clash, projectId, title, ownerName, status, plannedOn }: LoanClash) => ({
  ...{ projectId, title, ownerName, status, plannedOn },
  ...clash,
})

/** The loan after a write, or why it was not written. */
export async function answerLoan(loanId: string | null, result: Result<unknown, LoanRefusal>) {
  if (!result.ok) return loanProblem(result.error)
  const loan = await findLoan(loanId ?? '', todayHere())
  if (!loan) throw new Error(`answerLoan: no loan ${loanId}`)
  return describeLoan(loan)
}

export function loanProblem(refusal: LoanRefusal): Problem {
  if (refusal.kind === 'no-such-owner') return noSuch('owner', 'ownerId')
  if (refusal.kind === 'no-such-loan') return notFound('loan', refusal.loanId)
  return new Problem('refused', describeLoanRefusal(refusal))
}
