import { placeProblem, splitPlaceOperation } from '#api/place-changes'
import { endpoint, serve } from '#api/serve'
import { splitPlace } from '#lib/db/place/split-place'

const split = serve(splitPlaceOperation, async ({ path, body }) => {
  const { label, name, kind, ...choice } = body
  const done = await splitPlace({ id: path.placeId, place: { label, name, kind }, ...choice })
  return done.ok ? done.value : placeProblem(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: split })
