import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { claimLoan, type LoanEdit } from './claim-loan'
import { readClashes } from './clashes'
import type { LoanRefusal } from './loan-refusal'

/**
 * Agree on another day for a loan to be back by. What is lent keeps one; what is sent or borrowed may go without. The old day stays in
 * the loan's note. As when lending, plans that want a chart meanwhile are said first.
 *
 * @param input.dueOn  yyyy-mm-dd
 */
export function extendLoan(
  input: LoanEdit & { dueOn: string | null; acceptsClash?: boolean },
): Promise<Result<null, LoanRefusal>> {
  return write<null, LoanRefusal>(async ({ tx }) => {
    const claimed = await claimLoan(tx, input)
    if (!claimed.ok) return claimed
    const loan = claimed.value
    const { dueOn } = input
    if (dueOn === null && loan.kind === 'lend') return refused({ kind: 'no-due-day' })
    if (dueOn !== null && dueOn < loan.fromOn) return refused({ kind: 'due-before', fromOn: loan.fromOn })
    if (dueOn === loan.dueOn) return ok(null)
    if (loan.kind !== 'borrow' && !input.acceptsClash) {
      const chartIds = loan.lines.flatMap(({ chartId, backOn }) => (chartId !== null && backOn === null ? [chartId] : []))
      // Only of a chart that is all away: while a copy is at home, nobody wants in vain.
      const away = await tx.chart.findMany({
        where: { id: { in: chartIds }, currentPlace: { loans: { some: { closedOn: null } } } },
        select: { id: true },
      })
      const { fromOn } = loan
      const clashes = await readClashes(
        tx,
        away.map(({ id }) => ({ chartId: id, fromOn, untilOn: dueOn })),
        { exceptProjectId: loan.projectId },
      )
      if (clashes.length > 0) return refused({ kind: 'clash', clashes })
    }
    const moved = `was due ${loan.dueOn ?? 'on no day'}, now ${dueOn ?? 'on no day'}`
    const note = [loan.note, moved].filter(Boolean).join('; ').slice(0, 4_000)
    await tx.loan.update({ where: { id: loan.id }, data: { dueOn, note } })
    return ok(null)
  })
}
