import { readChosen } from '#lib/db/listing/keep-chosen'
import { listThreads } from '#lib/db/thread/list-threads'
import { isChosen } from '#lib/listing/selection'
import { searchOfUrl } from './search-of-url'
import { filterOf, readChoices } from './thread-filter'

/** What was chosen of the list of threads, as it stands now; null where that is no longer kept. */
export async function chosenThreads(chosenId: string, ownerIds: readonly string[]): Promise<string[] | null> {
  const kept = await readChosen(chosenId)
  if (kept?.room !== 'threads') return null
  const choices = readChoices(searchOfUrl(`/threads?${kept.filter}`))
  const asked = { ownerIds, offset: 0, limit: Number.MAX_SAFE_INTEGER, order: choices.order }
  const { rows } = await listThreads(filterOf(choices), asked)
  return rows.map(({ id }) => id).filter((id) => isChosen(kept.selection, id))
}
