import { z } from 'zod'

/** A4 unless the address says otherwise; every bag unless some are named. */
export const sheetSchema = z.object({
  paper: z.enum(['a4', 'letter']).default('a4'),
  bags: z.string().max(2_000).default('all'),
})
