import { z } from 'zod'
import { idText, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parseWholeNumber } from '#lib/quantity/number'

const whole = (least: number, most: number) =>
  z.string().transform((text, context) => {
    const value = parseWholeNumber(text)
    if (value !== null && value >= least && value <= most) return value
    context.addIssue({ code: 'custom', message: say('A whole number from {least} to {most, number}.', { least, most }) })
    return z.NEVER
  })

export const planningFormSchema = z.object({
  firstWeekday: z.coerce.number().int().min(1).max(7),
  untouchedDays: whole(1, 3_650),
  finishingWeeks: whole(0, 104),
  bufferWeeks: whole(0, 52),
})

const day = z.iso.date({ error: () => say('Give a day as 2026-12-24.') })
export const timeAwayFormSchema = z.object({
  ownerId: z.string().max(64).default(''),
  id: idText.optional(),
  version: versionText.optional(),
  fromOn: day,
  toOn: day,
  what: optionalText(120),
})
export const removeTimeAwaySchema = z.object({ id: idText })
