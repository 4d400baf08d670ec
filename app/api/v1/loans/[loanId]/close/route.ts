import { answerLoan } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { endpoint, serve } from '#api/serve'
import { closeLoan } from '#lib/db/loan/close-loan'

const close = serve(loanOperations.close, async ({ path, body }) =>
  answerLoan(path.loanId, await closeLoan({ ...body, loanId: path.loanId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: close })
