import { z } from 'zod'
import { idText, optionalText } from '#forms/fields'
import { say } from '#language/say'
import { parseWholeNumber } from '#lib/quantity/number'
import { lineOutcomes } from '#lib/stock/stocktake'

const by = z
  .string()
  .trim()
  .min(1, { error: () => say('Say who you are.') })
  .max(120, { error: () => say('Keep the name to 120 characters.') })
const mostPutUps = 1_000_000
const howMany = () => say('Write how many there are as a whole number: 8.')

const wholeText = (least: number) =>
  z
    .string()
    .trim()
    .transform((text, context) => {
      const value = parseWholeNumber(text)
      if (value !== null && value >= least && value <= mostPutUps) return value
      context.addIssue({ code: 'custom', message: howMany() })
      return z.NEVER
    })

export const startCountSchema = z.object({
  placeId: idText.min(1, { error: () => say('Choose the place to count.') }),
  title: optionalText(120),
  by,
})

export const countSchema = z.object({ countId: idText })
export const signedSchema = z.object({ countId: idText, by })
export const foundSchema = z.object({
  countId: idText,
  placeId: idText,
  found: z
    .string()
    .trim()
    .min(1, { error: () => say('Write what the label says: maker, line and code.') })
    .max(200, { error: () => say('Keep it to 200 characters.') }),
  counted: wholeText(1),
  by,
})

/** When the figure was counted that stood in the box, and the figure: `2026-09-07T10:00:00.000Z 8`; empty when none stood there. */
const sawText = z
  .string()
  .regex(/^(\S+ \d+)?$/)
  .transform((text, context) => {
    if (text === '') return { countedAt: null, counted: null }
    const [at, figure] = text.split(' ') as [string, string]
    const countedAt = new Date(at)
    if (!Number.isNaN(countedAt.getTime())) return { countedAt, counted: Number(figure) }
    context.addIssue({ code: 'custom', message: say('It is no moment.') })
    return z.NEVER
  })

export const enteredSchema = z.object({ counted: wholeText(0), saw: sawText })

export const decideSchema = z.object({ countId: idText, by, note: optionalText(500) })
export const outcomeSchema = z.object({
  outcome: z.enum(lineOutcomes),
  sawCounted: z
    .string()
    .regex(/^\d*$/)
    .transform((text) => (text === '' ? null : Number(text))),
})

export const countPageSchema = z.object({
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
  /** The place to begin with. */
  place: idText.optional().catch(undefined),
})
