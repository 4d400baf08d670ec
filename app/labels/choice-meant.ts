import { getAnswers } from '#lib/db/answers/get-answers'
import { listBatchIds } from '#lib/db/label/list-batch-ids'
import type { LabelChoice } from '#lib/db/label/list-label-things'
import { readChosen } from '#lib/db/listing/keep-chosen'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { chosenDesigns } from '../_listing/chosen-designs'
import { chosenThings } from '../_listing/chosen-things'
import { chosenThreads } from '../_listing/chosen-threads'
import { choiceOf, type LabelsQuery } from './labels-query'

/** What is to be labelled: what was chosen of a list where the address names such a choice, else what its fields say. */
export async function choiceMeant(query: LabelsQuery, ownerIds: readonly string[], unit: LengthUnit): Promise<LabelChoice> {
  if (query.chosen === null) return choiceOf(query)
  const kept = await readChosen(query.chosen)
  if (kept?.room === 'threads') {
    const threadIds = (await chosenThreads(query.chosen, ownerIds)) ?? []
    return { kind: 'these', noun: 'batch', ids: await listBatchIds(threadIds, ownerIds) }
  }
  if (kept?.room === 'cloth') {
    const chosen = await chosenThings('cloth', query.chosen, { ownerIds, unit })
    return { kind: 'these', noun: 'cloth', ids: chosen?.things.map(({ id }) => id) ?? [] }
  }
  const chosen = await chosenDesigns(await getAnswers(), query.chosen, ownerIds)
  return { kind: 'these', noun: 'chart', ids: chosen?.chartIds ?? [] }
}
