import { describeDesign } from '#api/describe-design'
import { listDesigns } from '#api/designs'
import { chosenOwners } from '#api/owners'
import { pageOf } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import type { FacetName } from '#lib/chart/catalogue'
import { anyOwner } from '#lib/chart/design-query'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import type { DesignFacts } from '#lib/db/answers/read-designs'
import { byText } from '#lib/quantity/text-order'

/** More than any list of designs is long. */
const everyHit = 1_000_000

const list = serve(listDesigns, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { q, limit, after, order, facets: wantsFacets, owner: _owner, chartOwner, ...filter } = query
  const designIds =
    q === undefined || q.trim() === ''
      ? undefined
      : answers.search.search(q, { limit: everyHit, noun: 'design' }).hits.map(({ id }) => id.slice('design:'.length))
  const found = answers.catalogue.filter(
    { ...filter, owner: chartOwner?.includes(anyOwner) ? [] : (chartOwner ?? ownerIds), designIds },
    { threads: answers.coverage(ownerIds).designs, cloth: answers.cloth(ownerIds).columns },
    order,
  )
  const ids = Array.from(found.slots, (slot) => answers.catalogue.recordAt(slot).designId)
  const page = pageOf(ids, { limit, after }, (id) => id)
  if (page instanceof Problem) return page

  const nameOf = namesOf(answers)
  const facet = (name: FacetName) =>
    [...found.facets[name]]
      .map(([id, count]) => ({ id, name: nameOf[name](id), count }))
      .sort((a, b) => byText(a.name, b.name) || byText(a.id, b.id))
  const { stitchableNow, withSwaps, clothFits, shortByAtMost } = found.switches
  return {
    ownerIds,
    total: ids.length,
    designs: page.shown.map((id) => describeDesign(answers, answers.world.designs.get(id) as DesignFacts, ownerIds)),
    next: page.next,
    ...(wantsFacets && {
      facets: {
        designer: facet('designer'),
        season: facet('season'),
        subject: facet('subject'),
        form: facet('form'),
        place: facet('place'),
        chartOwner: facet('owner'),
        kind: facet('kind'),
        clothCount: facet('clothCount'),
        ...{ stitchableNow, withSwaps, clothFits, shortByAtMost },
      },
    }),
  }
})

function namesOf({ world }: Answers): Record<FacetName, (id: string) => string> {
  const theme = (id: string) => world.themes.get(id)?.name ?? ''
  return {
    designer: (id) => world.designers.get(id) ?? '',
    season: theme,
    subject: theme,
    form: theme,
    place: (id) => world.places.get(id)?.label ?? '',
    owner: (id) => world.owners.get(id) ?? '',
    kind: (id) => id,
    clothCount: (id) => id,
  }
}

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
