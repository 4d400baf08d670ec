import { z } from 'zod'
import { defaultFinishing, finishingMargins, finishings } from '#lib/cloth/margins'
import { defaultAllowance, isAllowance } from '#lib/thread/allowance'

const sideUm = z.int().min(0).max(500_000)
const marginsSchema = z.object({ leftUm: sideUm, rightUm: sideUm, topUm: sideUm, bottomUm: sideUm })

/** Steps a cut may be rounded up to: 1/4 in, 1/2 in, 1 cm. */
export const roundingSteps = [6_350, 12_700, 10_000] as const

/** What a person can change about the reckoning. Stored settings that no longer read fall back, field by field, to these defaults. */
export const settingsSchema = z.object({
  /** How cloth is shown, and read where a figure has no unit. */
  lengthUnit: z.enum(['in', 'cm']).catch('in'),
  /** How thread is shown, and read where a figure has no unit. */
  threadUnit: z.enum(['m', 'yd']).catch('m'),
  /** Thread used ÷ thread lying in the stitches: slack, starts, ends and travel. */
  allowance: z.number().refine(isAllowance).catch(defaultAllowance),
  roundingUm: z
    .number()
    .refine((step) => roundingSteps.some((known) => known === step))
    .catch(12_700),
  finishing: z.enum(finishings).catch(defaultFinishing),
  margins: z.record(z.enum(finishings), marginsSchema).catch({ ...finishingMargins }),
  /** How much cloth shrinks between cutting and stitching. */
  shrinkPercent: z.number().min(0).max(20).catch(0),
  /** Shown before prices; nothing is converted. */
  currency: z.string().trim().max(4).catch('€'),
})

export type Settings = z.infer<typeof settingsSchema>
