import { answerLoan } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { endpoint, serve } from '#api/serve'
import { borrowThings } from '#lib/db/loan/borrow'

const borrow = serve(loanOperations.borrow, async ({ body }) => {
  const { with: withLabel, ...rest } = body
  const result = await borrowThings({ ...rest, withLabel, withKind: 'person' })
  return answerLoan(result.ok ? result.value.loanId : null, result)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: borrow })
