import { describeLoan, todayHere } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findLoan } from '#lib/db/loan/queries'

const get = serve(loanOperations.get, async ({ path }) => {
  const loan = await findLoan(path.loanId, todayHere())
  return loan ? describeLoan(loan) : notFound('loan', path.loanId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
