import 'server-only'
import type { Result } from '#lib/result'
import {
  addFilter,
  type FilterRefused,
  type FilterRoom,
  moveFilter,
  removeFilter,
  renameFilter,
  type SavedFilter,
  savedFiltersSchema,
} from '#lib/settings/saved-filters'
import { database, type Transaction } from '../client'
import { write } from '../write'

/** Apart from the other settings: no answer depends on them, and none is worked out anew for them. */
const key = 'saved-filters'

async function readAll(tx: Pick<Transaction, 'setting'>): Promise<SavedFilter[]> {
  const row = await tx.setting.findUnique({ where: { key } })
  return savedFiltersSchema.parse(row ? JSON.parse(row.valueJson) : [])
}

/** The filters kept of a list, or of all lists, in the house's order. */
export async function listSavedFilters(room: FilterRoom | null): Promise<SavedFilter[]> {
  const all = await readAll(database().prisma)
  return room === null ? all : all.filter((one) => one.room === room)
}

const change = (decide: (filters: SavedFilter[]) => Result<SavedFilter[], FilterRefused>) =>
  write<SavedFilter[], FilterRefused>(async ({ tx }) => {
    const decided = decide(await readAll(tx))
    if (!decided.ok) return decided
    const valueJson = JSON.stringify(decided.value)
    await tx.setting.upsert({
      where: { key },
      create: { key, valueJson },
      update: { valueJson, version: { increment: 1 } },
    })
    return decided
  })

type Named = Pick<SavedFilter, 'room' | 'name'>

export const saveFilter = (filter: SavedFilter) => change((filters) => addFilter(filters, filter))
export const renameSavedFilter = (named: Named, name: string) => change((filters) => renameFilter(filters, named, name))
export const removeSavedFilter = (named: Named) => change((filters) => removeFilter(filters, named))
export const moveSavedFilter = (named: Named, step: -1 | 1) => change((filters) => moveFilter(filters, named, step))
