import { z } from 'zod'
import { type CatalogueFilter, facetNames, longestShort } from './catalogue'
import { catalogueOrders } from './catalogue-orders'

const manySchema = z
  .union([z.string(), z.array(z.string())])
  .transform((value) =>
    [value]
      .flat()
      .filter((one) => one !== '')
      .slice(0, 50),
  )
  .optional()
  .catch(undefined)
const tickSchema = z.enum(['1', 'true']).optional().catch(undefined)

/** The choices of the Charts screen as they stand in an address; what does not read is left out. */
export const designQuerySchema = z.object({
  ...(Object.fromEntries(facetNames.map((name) => [name, manySchema])) as Record<(typeof facetNames)[number], typeof manySchema>),
  q: z.string().trim().max(200).optional().catch(undefined),
  stitchableNow: tickSchema,
  withSwaps: tickSchema,
  clothFits: tickSchema,
  shortByAtMost: z.coerce.number().int().min(0).max(longestShort).optional().catch(undefined),
  order: z.enum(catalogueOrders).catch('bestCovered'),
  page: z.coerce.number().int().min(1).max(100_000).catch(1),
})
export type DesignQuery = z.infer<typeof designQuerySchema>

/** Charts of any owner, where the address asks for them. */
export const anyOwner = 'any'

/**
 * @param ownerIds   whose charts are meant when the query names no owner
 * @param designIds  what the query's words found; null when it has none
 */
export function filterOfQuery(
  query: DesignQuery,
  ownerIds: readonly string[],
  designIds: readonly string[] | null,
): CatalogueFilter {
  const { q: _words, order: _order, page: _page, stitchableNow, withSwaps, clothFits, owner, ...rest } = query
  return {
    ...rest,
    owner: owner?.includes(anyOwner) ? [] : owner && owner.length > 0 ? owner : ownerIds,
    ...(stitchableNow && { stitchableNow: true }),
    ...(withSwaps && { withSwaps: true }),
    ...(clothFits && { clothFits: true }),
    ...(designIds && { designIds }),
  }
}
