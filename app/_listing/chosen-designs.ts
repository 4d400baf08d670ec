import { type DesignQuery, designQuerySchema } from '#lib/chart/design-query'
import type { Answers } from '#lib/db/answers/answers'
import { findDesigns } from '#lib/db/answers/find-designs'
import { readChosen } from '#lib/db/listing/keep-chosen'
import { isChosen } from '#lib/listing/selection'
import { searchOfUrl } from './search-of-url'

export type ChosenDesigns = {
  /** In the order of the list. */
  designIds: string[]
  /** The charts they are in, each once. */
  chartIds: string[]
  /** The list's choices, as they stand in its address. */
  filter: string
}

/** Every design a query finds, in its order. */
export function everyDesign(answers: Answers, query: DesignQuery, ownerIds: readonly string[]): string[] {
  const { slots } = findDesigns(answers, { ...query, page: 1 }, ownerIds, 0)
  return Array.from(slots, (slot) => answers.catalogue.recordAt(slot).designId)
}

/** What was chosen of the charts, as it stands now; null where that is no longer kept. */
export async function chosenDesigns(
  answers: Answers,
  chosenId: string,
  ownerIds: readonly string[],
): Promise<ChosenDesigns | null> {
  const chosen = await readChosen(chosenId)
  if (chosen?.room !== 'charts') return null
  const query = designQuerySchema.parse(searchOfUrl(`/charts?${chosen.filter}`))
  const designIds = everyDesign(answers, query, ownerIds).filter((id) => isChosen(chosen.selection, id))
  const chartIds = [...new Set(designIds.flatMap((id) => answers.catalogue.find(id)?.chartId ?? []))]
  return { designIds, chartIds, filter: chosen.filter }
}
