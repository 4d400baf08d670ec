import { z } from 'zod'
import { weaves } from '#lib/cloth/cloth-piece'
import type { ClothFilter } from '#lib/cloth/filter-cloth'
import { type LengthUnit, parseClothSize } from '#lib/quantity/cloth-length'
import { meanPerInch, parseCount } from '#lib/quantity/count'

/** A box left empty, or a parameter given twice, is no choice. */
const choice = (longest: number) => z.string().trim().min(1).max(longest).nullable().catch(null).default(null)
const tick = z.literal('1').nullable().catch(null).default(null)

/** The choices of the list of cloth as they stand in an address. */
export const clothQuerySchema = z.object({
  weave: z.enum(weaves).nullable().catch(null).default(null),
  count: choice(20),
  size: choice(40),
  colour: choice(120),
  place: choice(64),
  offcuts: tick,
  free: tick,
  page: z.coerce.number().int().min(1).max(1_000).catch(1),
})
export type ClothQuery = z.infer<typeof clothQuerySchema>

/** What the choices come to. A count or a size that cannot be read is named in `unread`, and narrows nothing. */
export function filterOf(query: ClothQuery, unit: LengthUnit): { filter: ClothFilter; unread: ('count' | 'size')[] } {
  const count = query.count === null ? null : parseCount(query.count)
  const atLeast = query.size === null ? null : parseClothSize(query.size, unit)
  return {
    filter: {
      weave: query.weave,
      count: count && meanPerInch(count.ends, count.picks),
      colour: query.colour,
      atLeast,
      placeId: query.place,
      onlyOffcuts: query.offcuts !== null,
      onlyFree: query.free !== null,
    },
    unread: [
      ...(query.count !== null && count === null ? (['count'] as const) : []),
      ...(query.size !== null && atLeast === null ? (['size'] as const) : []),
    ],
  }
}

/** The address of the list with these choices, at a page. */
export function clothHref(query: ClothQuery, page: number): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) if (name !== 'page' && value !== null) search.set(name, String(value))
  if (page > 1) search.set('page', String(page))
  const text = search.toString()
  return text ? `/cloth?${text}` : '/cloth'
}
