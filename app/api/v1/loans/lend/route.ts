import { answerLoan } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { endpoint, serve } from '#api/serve'
import { lendThings } from '#lib/db/loan/lend'

const lend = serve(loanOperations.lend, async ({ body }) => {
  const { with: withLabel, ...rest } = body
  const result = await lendThings({ ...rest, withLabel, withKind: 'person' })
  return answerLoan(result.ok ? result.value.loanId : null, result)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: lend })
