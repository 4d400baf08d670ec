import { placeProblem } from '#api/place-changes'
import { movePlaceOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { movePlace } from '#lib/db/place/move-place'

const move = serve(movePlaceOperation, async ({ path, body }) => {
  const { placeId } = path
  const done = await movePlace({ id: placeId, ...body })
  return done.ok ? { placeId } : placeProblem(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: move })
