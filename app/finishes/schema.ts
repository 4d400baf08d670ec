import { z } from 'zod'

export const finishesPageSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })
