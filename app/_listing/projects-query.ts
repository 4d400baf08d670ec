import { z } from 'zod'
import { dueChoices, type ProjectFilter } from '#lib/project/filter-projects'
import { underWayStatuses } from '#lib/project/life-cycle'

/** The choices of the list of projects as they stand in an address. */
export const projectsQuerySchema = z.object({
  status: z.enum(underWayStatuses).nullable().catch(null).default(null),
  due: z.enum(dueChoices).nullable().catch(null).default(null),
  q: z.string().trim().min(1).max(200).nullable().catch(null).default(null),
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
})
export type ProjectsQuery = z.infer<typeof projectsQuerySchema>

export const filterOf = ({ status, due, q }: ProjectsQuery): ProjectFilter => ({ status, due, words: q ?? '' })

/** The address of the list with these choices, at a page. */
export function projectsHref({ page: _page, ...choices }: ProjectsQuery, page: number): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(choices)) if (value !== null) search.set(name, value)
  if (page > 1) search.set('page', String(page))
  const text = search.toString()
  return text ? `/projects?${text}` : '/projects'
}
