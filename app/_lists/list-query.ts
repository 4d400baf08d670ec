import { z } from 'zod'

export const usualKeep = 3
export const mostKept = 1_000

/** The choices of a list as they stand in an address. */
export const listQuerySchema = z.object({
  /** Whole put-ups of each thread that are kept. */
  keep: z.coerce.number().int().min(0).max(mostKept).catch(usualKeep),
  places: z.literal('1').nullable().catch(null).default(null),
  /** What the guild’s list is parted by. */
  by: z.enum(['designer', 'theme']).catch('designer'),
})

export type ListChoices = z.output<typeof listQuerySchema>
