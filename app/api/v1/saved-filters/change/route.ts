import { Problem } from '#api/problem'
import { changeSavedFilterOperation } from '#api/saved-filters'
import { endpoint, serve } from '#api/serve'
import { moveSavedFilter, removeSavedFilter, renameSavedFilter } from '#lib/db/settings/saved-filters'
import { describeFilterRefusal } from '#words/saved-filters'

const change = serve(changeSavedFilterOperation, async ({ body: { change: asked, ...named } }) => {
  const changed =
    asked.kind === 'rename'
      ? await renameSavedFilter(named, asked.to)
      : asked.kind === 'move'
        ? await moveSavedFilter(named, asked.step)
        : await removeSavedFilter(named)
  return changed.ok ? { savedFilters: changed.value } : new Problem('refused', describeFilterRefusal(changed.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: change })
