import { describePromised } from '#api/describe-promised'
import { describeProjectRefusal } from '#api/project-refusal'
import { promiseAgainOperation } from '#api/project-stock'
import { endpoint, serve } from '#api/serve'
import { promiseAgain } from '#lib/db/project/promise-again'

const again = serve(promiseAgainOperation, async ({ path, body }) => {
  const done = await promiseAgain({ ...path, ...body })
  return done.ok ? describePromised(done.value) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: again })
