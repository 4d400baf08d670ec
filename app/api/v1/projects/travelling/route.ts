import { placeRef } from '#api/collection'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { listTravellingOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { listTravelling } from '#lib/db/project/list-travelling'

const get = serve(listTravellingOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { widthUm, heightUm = widthUm } = query
  const { works, unknown } = await listTravelling({ ownerIds, most: { widthUm, heightUm } })
  return {
    ...{ ownerIds, unknown },
    projects: works.map(({ id, title, quantity, size, cloth, bag }) => ({
      ...{ projectId: id, title, quantity, ...size, clothPieceId: cloth?.id ?? null, bag: placeRef(bag) },
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
