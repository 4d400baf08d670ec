import { describeFinish, describeFrameRefusal } from '#api/describe-finish'
import { finishOperations } from '#api/finishes'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findFinish } from '#lib/db/finish/read-finishes'
import { setFrame } from '#lib/db/project/set-frame'

const set = serve(finishOperations.setFrame, async ({ path, body }) => {
  const done = await setFrame({ ...path, ...body })
  if (!done.ok) return describeFrameRefusal(done.error)
  const record = await findFinish(path.projectId)
  return record ? describeFinish(record) : notFound('project', path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: set })
