import { z } from 'zod'
import { idText } from '#forms/fields'
import { choiceSources, mostValueOfDesign } from '#lib/planning/wish-value'

/** What a search may take, in seconds. */
export const choiceLimits = [5, 20, 60, 300] as const
export const usualLimit = 20

const ids = z.preprocess(
  (value) => (value === undefined ? [] : [value].flat()),
  z.array(z.string().min(1).max(64)).max(400).catch([]),
)

/** The page's address: where designs come from, others added, and which kind of cloth. */
export const choosePageSchema = z.object({
  /** Null: the wishes, where one of them can be stitched, else all that is stitchable. */
  from: z.enum(['wished', 'stitchable']).nullable().catch(null).default(null),
  kind: z.string().max(60).catch('').default(''),
  q: z.string().trim().max(200).catch('').default(''),
  also: ids,
})
export type ChoosePageQuery = z.infer<typeof choosePageSchema> & { from: 'wished' | 'stitchable' }

export const startChoiceSchema = z.object({
  from: z.enum(choiceSources),
  design: ids,
  piece: ids,
  seconds: z.coerce
    .number()
    .refine((seconds) => choiceLimits.some((limit) => limit === seconds))
    .catch(usualLimit),
})

export const valueSchema = z.coerce.number(`A whole number from 1 to ${mostValueOfDesign}.`).int().min(1).max(mostValueOfDesign)
export const jobSchema = z.object({ jobId: idText })
