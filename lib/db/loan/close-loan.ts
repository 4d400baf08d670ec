import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { journalChart } from '../chart/claim-chart'
import { write } from '../write'
import { claimLoan, type LoanEdit } from './claim-loan'
import type { LoanRefusal } from './loan-refusal'

/**
 * Close a loan though not everything came back: it was lost, given, or settled otherwise. What is not back stays on record with them;
 * of a chart held in several copies, those that went are copies no more.
 *
 * @param input.on    yyyy-mm-dd
 * @param input.note  how it was settled
 */
export function closeLoan(input: LoanEdit & { on: string; note: string }): Promise<Result<null, LoanRefusal>> {
  return write<null, LoanRefusal>(async (open) => {
    const { tx, touch } = open
    const { on, note, who = null } = input
    const claimed = await claimLoan(tx, input)
    if (!claimed.ok) return claimed
    const loan = claimed.value
    if (on < loan.fromOn) return refused({ kind: 'back-before', fromOn: loan.fromOn })
    const notBack = loan.lines.filter(({ backOn }) => backOn === null)
    for (const { chartId, count } of notBack) {
      const chart = await tx.chart.findFirst({
        where: { id: chartId ?? '', goneAt: null, copies: { gt: count } },
        select: { id: true, copies: true, homePlaceId: true, designs: { select: { id: true } } },
      })
      if (!chart) continue
      const { id, homePlaceId } = chart
      await tx.chart.update({ where: { id }, data: { copies: { decrement: count }, version: { increment: 1 } } })
      touch('chart', id)
      for (const design of chart.designs) touch('design', design.id)
      const places = { fromPlaceId: homePlaceId, toPlaceId: loan.placeId }
      await journalChart(open, { kind: 'transfer', chartId: id, wholeDelta: -count, ...places, reason: note, who })
    }
    await tx.loanLine.updateMany({ where: { loanId: loan.id, backOn: null }, data: { backNote: note } })
    await tx.loan.update({ where: { id: loan.id }, data: { closedOn: on } })
    return ok(null)
  })
}
