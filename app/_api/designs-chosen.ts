import { designQuerySchema } from '#lib/chart/design-query'
import { getAnswers } from '#lib/db/answers/get-answers'
import { everyDesign } from '../_listing/chosen-designs'
import { searchOfUrl } from '../_listing/search-of-url'
import type { ChosenDesignsAsked } from './chart-bulks'

/** The designs that were asked for, by their ids or by a filter, in the order of the list. */
export async function designsChosen(chosen: ChosenDesignsAsked): Promise<string[]> {
  if ('designIds' in chosen) return chosen.designIds
  const query = designQuerySchema.parse(searchOfUrl(`/charts?${chosen.filter}`))
  const except = new Set(chosen.exceptDesignIds)
  return everyDesign(await getAnswers(), query, chosen.ownerIds).filter((id) => !except.has(id))
}
