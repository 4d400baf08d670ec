import { placeProblem } from '#api/place-changes'
import { changePlaceOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { editPlace } from '#lib/db/place/edit-place'

const change = serve(changePlaceOperation, async ({ path, body }) => {
  const { placeId } = path
  const done = await editPlace({ id: placeId, ...body })
  return done.ok ? { placeId } : placeProblem(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
