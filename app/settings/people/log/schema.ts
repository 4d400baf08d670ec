import { z } from 'zod'
import { isDay } from '#lib/quantity/day'

/** The word in an address for whoever is not known here. */
export const unknownPerson = 'unknown'

/** Which lines of the log are wanted; what does not read narrows nothing. */
export const logQuerySchema = z.object({
  person: z.string().max(64).catch('').default(''),
  day: z
    .string()
    .refine((text) => text === '' || isDay(text))
    .catch('')
    .default(''),
  page: z.coerce.number().int().min(1).max(1_000_000).catch(1).default(1),
  change: z.coerce.number().int().min(1).max(2_147_483_647).optional().catch(undefined),
})
export type LogQuery = z.infer<typeof logQuerySchema>
