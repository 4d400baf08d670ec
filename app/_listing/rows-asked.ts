import { z } from 'zod'
import { mostTicked } from '#lib/listing/selection'

/** Which rows of a long list are asked for: a block of them from one on, or only the ids of a run. */
export const rowsAskedSchema = z
  .object({
    from: z.coerce.number().int().min(0).max(10_000_000),
    to: z.coerce.number().int().min(0).max(10_000_000).optional(),
  })
  .refine(({ from, to }) => to === undefined || (to >= from && to - from < mostTicked))
