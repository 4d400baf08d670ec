import { listPlaces } from '#lib/db/place/queries'
import { describePlaces } from '../../../_api/describe-place'
import { pageOf } from '../../../_api/paging'
import { listPlacesOperation } from '../../../_api/places'
import { Problem } from '../../../_api/problem'
import { endpoint, serve } from '../../../_api/serve'

const list = serve(listPlacesOperation, async ({ query }) => {
  const places = describePlaces(await listPlaces())
  const page = pageOf(places, query, ({ placeId }) => placeId)
  return page instanceof Problem ? page : { total: places.length, places: page.shown, next: page.next }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
