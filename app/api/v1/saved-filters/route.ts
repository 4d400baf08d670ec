import { Problem } from '#api/problem'
import { listSavedFiltersOperation, saveFilterOperation } from '#api/saved-filters'
import { endpoint, serve } from '#api/serve'
import { listSavedFilters, saveFilter } from '#lib/db/settings/saved-filters'
import { describeFilterRefusal } from '#words/saved-filters'

const list = serve(listSavedFiltersOperation, async ({ query }) => ({
  savedFilters: await listSavedFilters(query.room ?? null),
}))

const save = serve(saveFilterOperation, async ({ body }) => {
  const saved = await saveFilter(body)
  return saved.ok ? { savedFilters: saved.value } : new Problem('refused', describeFilterRefusal(saved.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: save })
