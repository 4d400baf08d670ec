import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import type { LoanRefusal } from './loan-refusal'

/** A loan as a form names it: `version` is what the person saw; left out, it is taken as it stands. */
export type LoanEdit = { loanId: string; version?: number; who?: string | null }

const columns = {
  id: true,
  kind: true,
  placeId: true,
  ownerId: true,
  reason: true,
  fromOn: true,
  dueOn: true,
  projectId: true,
  note: true,
  closedOn: true,
  version: true,
  lines: {
    select: {
      id: true,
      position: true,
      chartId: true,
      batchId: true,
      clothPieceId: true,
      notionId: true,
      projectId: true,
      text: true,
      count: true,
      backOn: true,
    },
    orderBy: { position: 'asc' },
  },
} as const satisfies Prisma.LoanSelect

export type HeldLoan = Prisma.LoanGetPayload<{ select: typeof columns }>

/** An open loan, claimed for this write: its version goes up by one. */
export async function claimLoan(tx: Transaction, edit: LoanEdit): Promise<Result<HeldLoan, LoanRefusal>> {
  const loan = await tx.loan.findUnique({ where: { id: edit.loanId }, select: columns })
  if (!loan) return refused({ kind: 'no-such-loan', loanId: edit.loanId })
  const version = edit.version ?? loan.version
  const claimed = await tx.loan.updateMany({ where: { id: loan.id, version }, data: { version: { increment: 1 } } })
  if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
  return loan.closedOn === null ? ok(loan) : refused({ kind: 'closed' })
}
