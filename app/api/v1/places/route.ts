import { describePlaces } from '#api/describe-place'
import { pageOf } from '#api/paging'
import { placeProblem } from '#api/place-changes'
import { addPlaceOperation } from '#api/place-writes'
import { listPlacesOperation } from '#api/places'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { addPlace } from '#lib/db/place/add-place'
import { listPlaces } from '#lib/db/place/queries'

const list = serve(listPlacesOperation, async ({ query }) => {
  const places = describePlaces(await listPlaces())
  const page = pageOf(places, query, ({ placeId }) => placeId)
  return page instanceof Problem ? page : { total: places.length, places: page.shown, next: page.next }
})

const add = serve(addPlaceOperation, async ({ body }) => {
  const added = await addPlace(body)
  return added.ok ? { placeId: added.value.id } : placeProblem(added.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
