import { describeMissing, missingProblem } from '#api/describe-missing'
import { giveUpMissingOperation } from '#api/missing'
import { endpoint, serve } from '#api/serve'
import { giveUpMissing } from '#lib/db/missing/settle-missing'

const giveUp = serve(giveUpMissingOperation, async ({ path, body }) => {
  const result = await giveUpMissing({ ...path, ...body })
  return result.ok ? describeMissing(path.missingId) : missingProblem(result.error, path.missingId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: giveUp })
