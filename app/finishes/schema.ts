import { z } from 'zod'

export const finishesPageSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })

/** A year in the address. */
export const yearSchema = z.string().regex(/^[12]\d{3}$/)
