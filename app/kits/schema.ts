import { z } from 'zod'

const text = (most: number) =>
  z
    .string()
    .trim()
    .max(most)
    .optional()
    .catch(undefined)
    .transform((value) => (value ? value : undefined))
const day = z.iso.date().optional().catch(undefined)

export const kitsPageSchema = z.object({
  thread: text(200),
  threadId: text(64),
  lot: text(60),
  batch: text(64),
  from: day,
  to: day,
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
})
export type KitsQuery = z.output<typeof kitsPageSchema>
