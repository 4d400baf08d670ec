import { placeRef } from '#api/collection'
import { namedThread } from '#api/describe-stock'
import { listLikelyThreads } from '#api/likely-threads'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { familyOf } from '#lib/colour/family'
import { listLikely } from '#lib/db/thread/list-likely'
import { gradeDifference } from '#lib/thread/substitution'

const refs = (places: { id: string; label: string }[]) => places.flatMap((place) => placeRef(place) ?? [])

const list = serve(listLikelyThreads, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { colour: lab, maker = null, line: lineId = null, fibre = null, lot = '', limit } = query
  const { threads, ...counts } = await listLikely({ lab, makerId: maker, lineId, fibre, lot }, { ownerIds, perStanding: limit })
  return {
    ownerIds,
    lab,
    family: familyOf(lab),
    ...counts,
    threads: threads.map(({ standing, deltaE00, lab: known, labCertainty, family, isLeaving, lots, homes, away, ...thread }) => ({
      thread: namedThread(thread),
      standing,
      deltaE00,
      grade: gradeDifference(deltaE00),
      lab: known,
      labCertainty,
      family,
      isLeaving,
      fibre: thread.line.fibre,
      lots,
      homes: refs(homes),
      away: refs(away),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
