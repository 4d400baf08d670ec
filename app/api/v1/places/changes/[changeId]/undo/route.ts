import { placeProblem, undoPlaceChangeOperation } from '#api/place-changes'
import { endpoint, serve } from '#api/serve'
import { undoPlaceChange } from '#lib/db/place/undo-place-change'

const undo = serve(undoPlaceChangeOperation, async ({ path, body }) => {
  const undone = await undoPlaceChange({ changeId: path.changeId, ...body })
  return undone.ok ? undone.value : placeProblem(undone.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
