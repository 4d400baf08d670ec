import { listFullPlacesOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { listPlaces } from '#lib/db/place/queries'
import { readFills } from '#lib/db/place/read-fills'
import { listFuller, percentOf } from '#lib/place/capacity'

const list = serve(listFullPlacesOperation, async ({ query }) => {
  const places = await listPlaces()
  const fills = await readFills(places)
  return {
    saying: fills.size,
    places: listFuller(places, fills, query.over).map(({ place, fill }) => ({
      place: { placeId: place.id, label: place.label },
      fullPercent: percentOf(fill.fill),
      by: fill.by,
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
