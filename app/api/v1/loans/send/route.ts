import { answerLoan } from '#api/describe-loan'
import { loanOperations } from '#api/loans'
import { endpoint, serve } from '#api/serve'
import { sendAway } from '#lib/db/loan/send'

const send = serve(loanOperations.send, async ({ body }) => {
  const { with: withLabel, ...rest } = body
  const result = await sendAway({ ...rest, withLabel })
  return answerLoan(result.ok ? result.value.loanId : null, result)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: send })
