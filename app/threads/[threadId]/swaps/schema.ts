import { z } from 'zod'

const text = z.string().trim().max(2_000).catch('')

/** What the page's address says: what to keep apart from, the cloth's colour, and where to look. */
export const threadSwapsSchema = z.object({
  apart: text,
  cloth: text,
  among: z.enum(['free', 'all']).catch('free'),
})
