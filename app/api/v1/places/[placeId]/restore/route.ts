import { placeProblem } from '#api/place-changes'
import { restorePlaceOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { restorePlace } from '#lib/db/place/restore-place'

const restore = serve(restorePlaceOperation, async ({ path, body }) => {
  const { placeId } = path
  const done = await restorePlace({ id: placeId, ...body })
  return done.ok ? { placeId } : placeProblem(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: restore })
