import { placeRef } from '#api/collection'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listThreadsOperation } from '#api/stock'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listThreads } from '#lib/db/thread/list-threads'

const refs = (places: { id: string; label: string }[]) => places.flatMap((place) => placeRef(place) ?? [])

const list = serve(listThreadsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const {
    q = '',
    maker = null,
    line: lineId = null,
    place = null,
    state = null,
    family = null,
    order,
    limit,
    after: offset = 0,
  } = query
  const { rows, total } = await listThreads(
    { text: q, makerId: maker, lineId, placeId: place, state, family },
    { ownerIds, offset, limit, order },
  )
  const { needs } = await getAnswers()
  return {
    ownerIds,
    total,
    threads: rows.map(({ line, stock, homes, away, ...row }) => ({
      thread: namedThread({ ...row, line }),
      strands: line.strands,
      putUpWord: line.putUpWord,
      putUpStrandTenths: line.putUpStrandTenths,
      lotsMatter: line.lotsMatter,
      ownedStrandTenths: stock.ownedStrandTenths,
      outStrandTenths: stock.outStrandTenths,
      promisedStrandTenths: stock.promisedStrandTenths,
      freeStrandTenths: stock.freeStrandTenths,
      wholePutUps: stock.wholePutUps,
      freePutUps: stock.freePutUps,
      minimumPutUps: row.minimumPutUps,
      lab: row.lab,
      labCertainty: row.labCertainty,
      family: row.family,
      isLeaving: row.isLeaving,
      isSomeOwned: stock.isSomeOwned,
      homes: refs(homes),
      away: refs(away),
      designCount: needs.designCountOf(row.id),
    })),
    next: nextAfter(offset + rows.length, total),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
