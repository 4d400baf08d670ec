import { placeProblem } from '#api/place-changes'
import { removePlaceOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { removePlace } from '#lib/db/place/remove-place'

const remove = serve(removePlaceOperation, async ({ path, body }) => {
  const { placeId } = path
  const done = await removePlace({ id: placeId, ...body })
  return done.ok ? { placeId } : placeProblem(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
