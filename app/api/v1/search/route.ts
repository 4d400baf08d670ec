import { placeRef } from '#api/collection'
import { searchEverything } from '#api/designs'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import type { SearchHit } from '#lib/search/search-index'

/** Where a thing is now. A thread may lie in several places: those where something of it is left. */
function placesOf({ world }: Answers, noun: SearchHit['noun'], id: string, ownerIds: readonly string[] | undefined) {
  const at = (placeIds: Iterable<string | null | undefined>) =>
    [...new Set(placeIds)].flatMap((placeId) => placeRef(world.places.get(placeId ?? '')) ?? [])
  switch (noun) {
    case 'design': {
      const facts = world.designs.get(id)
      return at([facts?.currentPlaceId ?? facts?.homePlaceId])
    }
    case 'thread':
      return at(
        (world.stock.batches.get(id) ?? [])
          .filter((batch) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
          .filter(({ ownerId }) => ownerIds === undefined || ownerIds.includes(ownerId))
          .map((batch) => batch.currentPlaceId ?? batch.homePlaceId),
      )
    case 'cloth': {
      const piece = world.pieces.find((other) => other.id === id)
      return at([piece?.currentPlaceId ?? piece?.homePlaceId])
    }
    case 'notion': {
      const notion = world.notions.get(id)
      return at([notion?.currentPlaceId ?? notion?.homePlaceId])
    }
    case 'place':
      return at([world.places.get(id)?.parentId])
    case 'project':
      return at([world.projects.get(id)?.placeId])
    case 'chart':
      return []
  }
}

function labelOf({ world }: Answers, noun: SearchHit['noun'], id: string): string | null {
  if (noun === 'place') return world.places.get(id)?.label ?? null
  return noun === 'cloth' ? (world.pieces.find((piece) => piece.id === id)?.label ?? null) : null
}

const search = serve(searchEverything, async ({ query }) => {
  const ownerIds = query.owner === undefined ? undefined : await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { found, hasAllWords, hits } = answers.search.search(query.q, { limit: query.limit, noun: query.noun })
  return {
    found,
    hasAllWords,
    hits: hits.map((hit) => {
      const id = hit.id.slice(hit.id.indexOf(':') + 1)
      return {
        noun: hit.noun,
        id,
        title: hit.title,
        label: labelOf(answers, hit.noun, id),
        match: hit.match,
        places: placesOf(answers, hit.noun, id, ownerIds),
      }
    }),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: search })
