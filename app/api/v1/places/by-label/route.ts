import { placeRef } from '#api/collection'
import { lookUpLabelOperation } from '#api/place-changes'
import { endpoint, serve } from '#api/serve'
import { findMeant, lookUpLabel } from '#lib/db/place/look-up-label'

const get = serve(lookUpLabelOperation, async ({ query }) => {
  const [meant, { former }] = await Promise.all([findMeant(query.label), lookUpLabel(query.label)])
  return {
    meant: placeRef(meant),
    isOld: meant !== null && meant.old !== null,
    former: former.map(({ label, why, until, place }) => ({
      ...{ label, why, until: until.toISOString() },
      place: { placeId: place.id, label: place.label },
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
