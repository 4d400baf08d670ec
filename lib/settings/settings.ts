import { z } from 'zod'
import { defaultFraming } from '#lib/cloth/framing'
import { defaultFinishing, type Finishing, findFinishing, finishingMargins, finishings } from '#lib/cloth/margins'
import { type InsuredClass, insuredClasses, noReplacement } from '#lib/insurance/insured'
import { parseLabelPattern } from '#lib/place/label-pattern'
import { givenPlaceKinds } from '#lib/place/place'
import { countryCodes } from '#lib/planning/days/occasions'
import { rotationRules } from '#lib/planning/pace/rotation'
import { textKey } from '#lib/quantity/text-key'
import { defaultAllowance, isAllowance } from '#lib/thread/allowance'

const sideUm = z.int().min(0).max(500_000)
const marginsSchema = z.object({ leftUm: sideUm, rightUm: sideUm, topUm: sideUm, bottomUm: sideUm })

/** Those always there; one that does not read falls back by itself. */
const marginsByFinishing = Object.fromEntries(
  finishings.map((finishing) => [finishing, marginsSchema.catch({ ...finishingMargins[finishing] })]),
) as Record<Finishing, z.ZodCatch<typeof marginsSchema>>

/** A way of finishing that a person adds: its name and its margins. */
export const ownFinishingSchema = z.object({ name: z.string().trim().min(1).max(60), margins: marginsSchema })
export const mostOwnFinishings = 40

/** What reads of the stored ones, each name once. */
const ownFinishingsSchema = z
  .array(z.unknown())
  .catch([])
  .transform((stored) => {
    const kept = new Map<string, z.infer<typeof ownFinishingSchema>>()
    for (const one of stored) {
      const read = ownFinishingSchema.safeParse(one)
      const key = read.success ? textKey(read.data.name) : ''
      if (!read.success || kept.has(key) || finishings.some((name) => name === key)) continue
      kept.set(key, read.data)
    }
    return [...kept.values()].slice(0, mostOwnFinishings)
  })

/** A pattern by which places are labelled, what each of its levels is, and what the outermost stand in. */
export const labelPatternSchema = z.object({
  text: z
    .string()
    .max(200)
    .refine((text) => parseLabelPattern(text).ok),
  kinds: z.array(z.enum(givenPlaceKinds)).max(6),
  insideId: z.string().max(64).nullable(),
})
export const mostLabelPatterns = 20

/** What reads of the stored ones. */
const labelPatternsSchema = z
  .array(z.unknown())
  .catch([])
  .transform((stored) =>
    stored
      .flatMap((one) => {
        const read = labelPatternSchema.safeParse(one)
        return read.success ? read.data : []
      })
      .slice(0, mostLabelPatterns),
  )

/** Steps a cut may be rounded up to: 1/4 in, 1/2 in, 1 cm. */
export const roundingSteps = [6_350, 12_700, 10_000] as const

const priceMinor = z.int().min(0).max(100_000_000)
const replacementByClass = Object.fromEntries(insuredClasses.map((name) => [name, priceMinor.nullable().catch(null)])) as Record<
  InsuredClass,
  z.ZodCatch<z.ZodNullable<typeof priceMinor>>
>

/** How work is planned. */
const planningSchema = z.object({
  /** The day a week begins: 1 Monday to 7 Sunday. */
  firstWeekday: z.int().min(1).max(7).catch(1),
  /** A work begun and not touched for more days than this is raised. */
  untouchedDays: z.int().min(1).max(3_650).catch(90),
  /** What finishing takes where a project does not say, and what is kept in hand before it is due. */
  finishingWeeks: z.int().min(0).max(104).catch(4),
  bufferWeeks: z.int().min(0).max(52).catch(1),
  /** Whose feasts and customary days are known. */
  country: z.enum(countryCodes).catch('GB'),
  /** When it is another's turn, and how much each has, by what it goes by. */
  rotation: z
    .object({
      by: z.enum(rotationRules).catch('days'),
      days: z.int().min(1).max(365).catch(10),
      hours: z.int().min(1).max(1_000).catch(10),
      stitches: z.int().min(1).max(1_000_000).catch(500),
    })
    .catch({ by: 'days', days: 10, hours: 10, stitches: 500 }),
})

const fieldsSchema = z.object({
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
  /** The name of one of those below. */
  finishing: z.string().catch(defaultFinishing),
  margins: z.object(marginsByFinishing).catch({ ...finishingMargins }),
  ownFinishings: ownFinishingsSchema,
  /** How much cloth shrinks between cutting and stitching. */
  shrinkPercent: z.number().min(0).max(20).catch(0),
  /** What a framed margin is made of, from the stitched edge outwards. */
  framing: z.object({ seenUm: sideUm, rabbetUm: sideUm, boardUm: sideUm, turnBackUm: sideUm }).catch({ ...defaultFraming }),
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
  /** How the shop labels its places. */
  labelPatterns: labelPatternsSchema,
  /** For the insurance list: what one of a class costs where the thing has no price, and from what price on a thing is dear. */
  replacement: z.object(replacementByClass).catch({ ...noReplacement }),
  dearMinor: priceMinor.catch(5_000),
  /** Shown before prices; nothing is converted. */
  currency: z.string().trim().max(4).catch('€'),
  planning: planningSchema.catch(() => planningSchema.parse({})),
})

/** What a person can change about the reckoning. Stored settings that no longer read fall back, field by field, to these defaults. */
export const settingsSchema = fieldsSchema.transform((settings) => ({
  ...settings,
  finishing: findFinishing(settings, settings.finishing)?.name ?? defaultFinishing,
}))

export type Settings = z.infer<typeof settingsSchema>
