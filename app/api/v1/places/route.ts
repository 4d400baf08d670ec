import { describePlaces } from '#api/describe-place'
import { pageOf } from '#api/paging'
import { listPlacesOperation } from '#api/places'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listPlaces } from '#lib/db/place/queries'

const list = serve(listPlacesOperation, async ({ query }) => {
  const places = describePlaces(await listPlaces())
  const page = pageOf(places, query, ({ placeId }) => placeId)
  return page instanceof Problem ? page : { total: places.length, places: page.shown, next: page.next }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
