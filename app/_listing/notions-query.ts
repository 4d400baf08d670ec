import { z } from 'zod'
import { notionKinds } from '#lib/notion/notion'

/** The choices of the list of notions as they stand in an address. */
export const notionsQuerySchema = z.object({
  kind: z.enum(notionKinds).nullable().catch(null).default(null),
  place: z.string().min(1).max(64).nullable().catch(null).default(null),
  low: z.literal('1').nullable().catch(null).default(null),
  used: z.literal('1').nullable().catch(null).default(null),
  page: z.coerce.number().int().min(1).max(1_000).catch(1),
})
export type NotionsQuery = z.infer<typeof notionsQuerySchema>

/** The address of the list with these choices, at a page. */
export function notionsHref({ page: _page, ...choices }: NotionsQuery, page: number): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(choices)) if (value !== null) search.set(name, value)
  if (page > 1) search.set('page', String(page))
  const text = search.toString()
  return text ? `/notions?${text}` : '/notions'
}
