import { z } from 'zod'
import { notionKinds } from '#lib/notion/notion'

/** The choices of the list of notions as they stand in an address. */
export const notionsQuerySchema = z.object({
  kind: z.enum(notionKinds).nullable().catch(null).default(null),
  place: z.string().min(1).max(64).nullable().catch(null).default(null),
  low: z.literal('1').nullable().catch(null).default(null),
  used: z.literal('1').nullable().catch(null).default(null),
})
export type NotionsQuery = z.infer<typeof notionsQuerySchema>
