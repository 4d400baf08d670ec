import { addManyPlacesOperation, manyProblem } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { addManyPlaces } from '#lib/db/place/add-many-places'

const add = serve(addManyPlacesOperation, async ({ body }) => {
  const made = await addManyPlaces(body)
  return made.ok ? made.value : manyProblem(made.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: add })
