import 'server-only'
import type { CatalogueResult, DesignRecord } from '#lib/chart/catalogue'
import { type DesignQuery, filterOfQuery } from '#lib/chart/design-query'
import type { Answers } from './answers'

/** As many designs as a question in words is followed up with; past that, its words say too little. */
const mostFoundByWords = 2_000

export type FoundDesigns = CatalogueResult & { count: number; records: DesignRecord[] }

/** The designs a query names, in its order, `pageSize` of them from its page. */
export function findDesigns(answers: Answers, query: DesignQuery, ownerIds: readonly string[], pageSize: number): FoundDesigns {
  const words = query.q ?? ''
  const byWords =
    words === ''
      ? null
      : answers.search.search(words, { limit: mostFoundByWords, noun: 'design' }).hits.map(({ id }) => id.slice('design:'.length))
  const result = answers.catalogue.filter(
    filterOfQuery(query, ownerIds, byWords),
    { threads: answers.coverage(ownerIds).designs, cloth: answers.cloth(ownerIds).columns },
    query.order,
  )
  const first = (query.page - 1) * pageSize
  const records = [...result.slots.subarray(first, first + pageSize)].map((slot) => answers.catalogue.recordAt(slot))
  return { ...result, count: result.slots.length, records }
}
