import { mostThreads } from '#lib/db/bulk-edit/read-bulk-edit'
import { listThreads } from '#lib/db/thread/list-threads'
import { readChoices } from '../filter'
import type { BulkChoices, Query } from './schema'

/** What narrows the list, as `listThreads` takes it. */
export function filterOf(query: Query) {
  const choices = readChoices(query)
  return {
    choices,
    filter: {
      makerId: choices.maker || null,
      lineId: choices.line || null,
      placeId: choices.place || null,
      text: choices.text,
      state: choices.stock || null,
      family: choices.family || null,
    },
  }
}

/** The threads that were chosen, in the order of the list: all it finds, or those ticked. One more than can be changed when there are more. */
export async function listChosen(query: Query, chosen: BulkChoices, ownerIds: readonly string[]): Promise<string[]> {
  const { rows } = await listThreads(filterOf(query).filter, { ownerIds, offset: 0, limit: mostThreads + 1, order: 'drawer' })
  const ids = rows.map(({ id }) => id)
  if (chosen.scope === 'found') return ids
  const ticked = new Set(chosen.t)
  return ids.filter((id) => ticked.has(id))
}
