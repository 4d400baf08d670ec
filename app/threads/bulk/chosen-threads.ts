import { mostThreads } from '#lib/db/bulk-edit/read-bulk-edit'
import { listThreads } from '#lib/db/thread/list-threads'
import { chosenThreads } from '../../_listing/chosen-threads'
import { filterOf, readChoices } from '../../_listing/thread-filter'
import type { BulkChoices, Query } from './schema'

/** The threads that were chosen, in the order of the list: all it finds, or those ticked. One more than can be changed when there are more. */
export async function listChosen(query: Query, chosen: BulkChoices, ownerIds: readonly string[]): Promise<string[]> {
  if (chosen.chosen !== '') return (await chosenThreads(chosen.chosen, ownerIds)) ?? []
  const asked = { ownerIds, offset: 0, limit: mostThreads + 1, order: 'drawer' } as const
  const { rows } = await listThreads(filterOf(readChoices(query)), asked)
  const ids = rows.map(({ id }) => id)
  if (chosen.scope === 'found') return ids
  const ticked = new Set(chosen.t)
  return ids.filter((id) => ticked.has(id))
}
