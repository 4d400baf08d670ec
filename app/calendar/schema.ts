import { z } from 'zod'
import { idText } from '#forms/fields'
import { parseNumber } from '#lib/quantity/number'

const month = z.string().regex(/^\d{4}-(?:0[1-9]|1[0-2])$/)

/** How much she says she will do a week, as typed. */
const perWeek = z
  .string()
  .transform((text) => parseNumber(text))
  .pipe(z.number().positive().max(1_000_000))
  .nullable()
  .default(null)
  .catch(null)

export const calendarQuerySchema = z.object({
  /** The month in sight, yyyy-mm; null for this one. */
  month: month.nullable().default(null).catch(null),
  /** The month that is asked for: only what is due or themed for it. */
  for: month.nullable().default(null).catch(null),
  'per-week': perWeek,
})
export type CalendarQuery = z.infer<typeof calendarQuerySchema>

export const readyQuerySchema = z.object({
  by: z.iso.date().nullable().default(null).catch(null),
  occasion: z.string().max(64).default('').catch(''),
  theme: z.string().max(64).default('').catch(''),
  q: z.string().trim().max(200).default('').catch(''),
  finishing: z
    .string()
    .transform((text) => parseNumber(text))
    .pipe(z.number().int().min(0).max(104))
    .nullable()
    .default(null)
    .catch(null),
  owner: z.string().max(64).default('').catch(''),
  /** What is due already may wait. */
  wait: z
    .string()
    .optional()
    .transform((ticked) => ticked !== undefined),
  'per-week': perWeek,
})

export const feedOwnerSchema = z.object({ ownerId: idText })
