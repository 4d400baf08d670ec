import { answerLoan } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { endpoint, serve } from '#api/serve'
import { extendLoan } from '#lib/db/loan/extend-loan'

const extend = serve(loanOperations.extend, async ({ path, body }) =>
  answerLoan(path.loanId, await extendLoan({ ...body, loanId: path.loanId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: extend })
