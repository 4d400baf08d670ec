import { mergePlaceOperation, placeProblem } from '#api/place-changes'
import { endpoint, serve } from '#api/serve'
import { mergePlace } from '#lib/db/place/merge-place'

const merge = serve(mergePlaceOperation, async ({ path, body }) => {
  const merged = await mergePlace({ id: path.placeId, ...body })
  return merged.ok ? merged.value : placeProblem(merged.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: merge })
