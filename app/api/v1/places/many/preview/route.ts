import { manyProblem, previewManyPlacesOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { previewManyPlaces } from '#lib/db/place/add-many-places'

const preview = serve(previewManyPlacesOperation, async ({ body }) => {
  const read = await previewManyPlaces(body)
  if (!read.ok) return manyProblem(read.error)
  const { count, lines, formerly } = read.value
  return { count, lines, formerly }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: preview })
