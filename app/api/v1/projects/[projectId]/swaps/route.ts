import { describePromised } from '#api/describe-promised'
import { describeProjectRefusal } from '#api/project-refusal'
import { setProjectSwapOperation } from '#api/project-stock'
import { endpoint, serve } from '#api/serve'
import { setProjectSwap } from '#lib/db/project/set-project-swap'

const swap = serve(setProjectSwapOperation, async ({ path, body }) => {
  const done = await setProjectSwap({ ...path, ...body })
  return done.ok ? describePromised(done.value) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: swap })
