import { listBuyLists } from '#lib/db/buying/queries'
import { listCounts } from '#lib/db/count/queries'
import { listPlaces } from '#lib/db/place/queries'
import { listOpenWalkPlaceIds } from '#lib/db/walk/open-walk-places'
import { listOpenWalks } from '#lib/db/walk/queries'
import { getViewer } from '#viewer/viewer'

/** Of each kind at most; the worker on the device has a limit of its own for all. */
const mostLists = 6
const mostPlaces = 24

/** What a device at the drawers may want without a connection, the likeliest first: open lists and counts, and the places they lead to. */
export async function GET(): Promise<Response> {
  const { ownerIds } = await getViewer()
  const [walks, lists, { counts }, walked, places] = await Promise.all([
    listOpenWalks(),
    listBuyLists({ ownerIds, isOpen: true }, { offset: 0, limit: mostLists }),
    listCounts({ offset: 0, limit: 20 }),
    listOpenWalkPlaceIds(),
    listPlaces(),
  ])
  const top = places.filter(({ parentId }) => parentId === null).map(({ id }) => id)
  const paths = [
    ...walks.slice(0, mostLists).map(({ id }) => `/walks/${id}`),
    ...lists.lists.map(({ id }) => `/buy/lists/${id}`),
    ...counts
      .filter(({ status }) => status === 'open')
      .slice(0, mostLists)
      .map(({ id }) => `/count/${id}`),
    ...['/', '/places', '/walks', '/count', '/buy/lists'],
    ...[...new Set([...walked, ...top])].slice(0, mostPlaces).map((id) => `/places/${id}`),
  ]
  return Response.json({ paths }, { headers: { 'cache-control': 'no-store' } })
}
