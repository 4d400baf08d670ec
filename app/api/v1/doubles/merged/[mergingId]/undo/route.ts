import { mergingProblem, undoMergingOperation } from '#api/doubles'
import { endpoint, serve } from '#api/serve'
import { undoMerging } from '#lib/db/merging/undo-merging'

const undo = serve(undoMergingOperation, async ({ path, body }) => {
  const undone = await undoMerging({ ...path, ...body })
  return undone.ok ? undone.value : mergingProblem(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
