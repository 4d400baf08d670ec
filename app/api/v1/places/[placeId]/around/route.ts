import { placeRef } from '#api/collection'
import { chosenOwners } from '#api/owners'
import { getPlaceAround } from '#api/place-around'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listLivedHere, listOverflow, readCameFrom } from '#lib/db/place/beyond-place'
import type { ThreadHere } from '#lib/db/place/contents'
import { listPlaces } from '#lib/db/place/queries'

const projectRef = ({ id, title }: { id: string; title: string }) => ({ projectId: id, title })

const batchOf = (thing: ThreadHere) => ({
  batchId: thing.id,
  thread: { threadId: thing.threadId, maker: thing.makerName, line: thing.lineName, code: thing.code, name: thing.name },
  lot: thing.lot,
  wholePutUps: thing.wholePutUps,
  partStrandTenths: thing.partStrandTenths,
  partCertainty: thing.partCertainty,
  home: placeRef(thing.home),
  current: placeRef(thing.current),
})

const get = serve(getPlaceAround, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const place = (await listPlaces()).find(({ id }) => id === path.placeId)
  if (!place) return notFound('place', path.placeId)
  const [overflow, livedHere, cameFrom] = await Promise.all([
    listOverflow(place.id, ownerIds),
    listLivedHere(place, ownerIds),
    readCameFrom(place.id, ownerIds),
  ])
  return {
    ownerIds,
    overflow: overflow.map(batchOf),
    livedHere: livedHere.map((thing) => ({ ...batchOf(thing), until: thing.until?.toISOString() ?? null })),
    guests: [...cameFrom].map(([batchId, { takenFor, promisedTo, from }]) => ({
      batchId,
      takenFor: takenFor && projectRef(takenFor),
      promisedTo: promisedTo.map(projectRef),
      from: placeRef(from),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
