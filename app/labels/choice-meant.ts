import { getAnswers } from '#lib/db/answers/get-answers'
import type { LabelChoice } from '#lib/db/label/list-label-things'
import { chosenDesigns } from '../_listing/chosen-designs'
import { choiceOf, type LabelsQuery } from './labels-query'

/** What is to be labelled: what was chosen of a list where the address names such a choice, else what its fields say. */
export async function choiceMeant(query: LabelsQuery, ownerIds: readonly string[]): Promise<LabelChoice> {
  if (query.chosen === null) return choiceOf(query)
  const chosen = await chosenDesigns(await getAnswers(), query.chosen, ownerIds)
  return { kind: 'these', noun: 'chart', ids: chosen?.chartIds ?? [] }
}
