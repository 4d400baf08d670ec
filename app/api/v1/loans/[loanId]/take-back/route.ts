import { answerLoan } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { endpoint, serve } from '#api/serve'
import { takeBack } from '#lib/db/loan/take-back'

const takeIn = serve(loanOperations.takeBack, async ({ path, body }) =>
  answerLoan(path.loanId, await takeBack({ ...body, loanId: path.loanId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: takeIn })
