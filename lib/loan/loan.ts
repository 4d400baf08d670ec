import { addDays, daysBetween } from '#lib/quantity/day'

/** Lent to somebody; sent to be worked on; borrowed from somebody. */
export const loanKinds = ['lend', 'send', 'borrow'] as const
export type LoanKind = (typeof loanKinds)[number]

/** What a loan agreed: days are yyyy-mm-dd. What is lent always has a day to be back by; what is sent or borrowed may have none. */
export type LoanTerms = { fromOn: string; dueOn: string | null; closedOn: string | null }

/** Due within so many days is due soon. */
export const dueSoonDays = 14

/** How an open loan stands today. `daysLeft` 0 is due today; `daysOver` counts from the day after it was due. */
export type LoanStanding =
  | { kind: 'overdue'; daysOver: number }
  | { kind: 'due-soon'; daysLeft: number }
  | { kind: 'out'; daysLeft: number }
  | { kind: 'no-day' }
  | { kind: 'closed' }

/** @param today  yyyy-mm-dd */
export function standingOf({ dueOn, closedOn }: LoanTerms, today: string): LoanStanding {
  if (closedOn !== null) return { kind: 'closed' }
  if (dueOn === null) return { kind: 'no-day' }
  const daysLeft = daysBetween(today, dueOn)
  if (daysLeft < 0) return { kind: 'overdue', daysOver: -daysLeft }
  return daysLeft <= dueSoonDays ? { kind: 'due-soon', daysLeft } : { kind: 'out', daysLeft }
}

/** Weeks a loan may be agreed for at once: two years. */
export const mostLoanWeeks = 104

/**
 * The day a loan of so many weeks is due: the same weekday, as at a library's desk.
 *
 * @throws {RangeError} unless the weeks are a whole number from 1.
 */
export function dueAfterWeeks(fromOn: string, weeks: number): string {
  if (!Number.isSafeInteger(weeks) || weeks < 1) throw new RangeError(`dueAfterWeeks: ${weeks} weeks`)
  return addDays(fromOn, weeks * 7)
}

/** Overdue first, the longest first; then by the day they are due; then those without one; closed last, the latest closed first. */
export function byUrgency<Loan extends LoanTerms & { id: string }>(a: Loan, b: Loan): number {
  const ranked = ({ dueOn, closedOn }: Loan): number => (closedOn !== null ? 2 : dueOn === null ? 1 : 0)
  const turn = (loan: Loan): string => (loan.closedOn !== null ? '' : (loan.dueOn ?? loan.fromOn))
  const text = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0)
  return ranked(a) - ranked(b) || text(b.closedOn ?? '', a.closedOn ?? '') || text(turn(a), turn(b)) || text(a.id, b.id)
}
