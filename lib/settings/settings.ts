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
  /** What a framed margin is made of, from the stitched edge outwards. */
  framing: z
    .object({ seenUm: sideUm, rabbetUm: sideUm, boardUm: sideUm, turnBackUm: sideUm })
    .catch({ seenUm: 19_050, rabbetUm: 6_350, boardUm: 3_175, turnBackUm: 38_100 }),
  /** A leftover smaller than this either way is waste: 5 in. */
  leastOffcutUm: z.int().min(0).max(1_000_000).catch(127_000),
  /** Left between two pieces when their edges are pinked or torn; 0 for shears. */
  cutGapUm: z.int().min(0).max(50_000).catch(0),
  /** How cloth is sold off the bolt: its width, the selvedge lost each side, what straightening takes of a length, and the step it is sold in. */
  bolt: z
    .object({
      widthUm: z.int().min(100_000).max(5_000_000),
      selvedgeUm: sideUm,
      straighteningUm: sideUm,
      stepUm: z.int().min(1_000).max(2_000_000),
    })
    .catch({ widthUm: 1_397_000, selvedgeUm: 12_700, straighteningUm: 25_400, stepUm: 114_300 }),
  /** Shown before prices; nothing is converted. */
  currency: z.string().trim().max(4).catch('€'),
})

export type Settings = z.infer<typeof settingsSchema>
