import { z } from 'zod'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'

/** Lists whose choices can be kept under a name. */
export const filterRooms = ['charts', 'threads', 'cloth', 'notions', 'projects'] as const
export type FilterRoom = (typeof filterRooms)[number]

export const mostFilters = 30
export const longestFilterName = 60
export const longestFilter = 2_000

/** Choices of a list under a name, for the whole house: the filter as it stands in the list's address. */
export type SavedFilter = { room: FilterRoom; name: string; filter: string }

export const savedFilterSchema = z.object({
  room: z.enum(filterRooms),
  name: z.string().trim().min(1).max(longestFilterName),
  filter: z.string().min(1).max(longestFilter),
})

/** What reads of the stored ones, in their order, each name of a room once. */
export const savedFiltersSchema = z
  .array(z.unknown())
  .catch([])
  .transform((stored) => {
    const kept = new Map<string, SavedFilter>()
    for (const one of stored) {
      const read = savedFilterSchema.safeParse(one)
      if (!read.success) continue
      const key = `${read.data.room} ${textKey(read.data.name)}`
      if (!kept.has(key)) kept.set(key, read.data)
    }
    return [...kept.values()]
  })

export type FilterRefused =
  | { kind: 'name-taken'; name: string }
  | { kind: 'too-many'; most: number }
  | { kind: 'no-such-filter'; name: string }
  /** Nothing is chosen, so there is nothing to keep. */
  | { kind: 'no-choice' }

type Filters = readonly SavedFilter[]
type Named = Pick<SavedFilter, 'room' | 'name'>

const isSame = (a: Named, b: Named): boolean => a.room === b.room && textKey(a.name) === textKey(b.name)

/** Keep choices under a name of their own, after the others of their room. */
export function addFilter(filters: Filters, added: SavedFilter): Result<SavedFilter[], FilterRefused> {
  if (added.filter === '') return refused({ kind: 'no-choice' })
  const known = filters.find((one) => isSame(one, added))
  if (known) return refused({ kind: 'name-taken', name: known.name })
  if (filters.filter(({ room }) => room === added.room).length >= mostFilters)
    return refused({ kind: 'too-many', most: mostFilters })
  return ok([...filters, { ...added, name: added.name.trim() }])
}

export function renameFilter(filters: Filters, named: Named, name: string): Result<SavedFilter[], FilterRefused> {
  if (!filters.some((one) => isSame(one, named))) return refused({ kind: 'no-such-filter', name: named.name })
  const taken = filters.find((one) => isSame(one, { ...named, name }) && !isSame(one, named))
  if (taken) return refused({ kind: 'name-taken', name: taken.name })
  return ok(filters.map((one) => (isSame(one, named) ? { ...one, name: name.trim() } : one)))
}

export function removeFilter(filters: Filters, named: Named): Result<SavedFilter[], FilterRefused> {
  const left = filters.filter((one) => !isSame(one, named))
  return left.length === filters.length ? refused({ kind: 'no-such-filter', name: named.name }) : ok(left)
}

/** One step forwards (−1) or back (+1) among those of its room; at an end it stays. */
export function moveFilter(filters: Filters, named: Named, step: -1 | 1): Result<SavedFilter[], FilterRefused> {
  const at = filters.findIndex((one) => isSame(one, named))
  if (at < 0) return refused({ kind: 'no-such-filter', name: named.name })
  let to = at + step
  while (to >= 0 && to < filters.length && filters[to]?.room !== named.room) to += step
  const moved = [...filters]
  const other = moved[to]
  if (other) {
    moved[to] = moved[at] as SavedFilter
    moved[at] = other
  }
  return ok(moved)
}
