import { z } from 'zod'
import { idText, optionalRead, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { mostPartsMade } from '#lib/planning/pace/schedule-jobs'
import { parseWholeNumber } from '#lib/quantity/number'

const day = z.iso.date({ error: () => say('Give a day as 2026-12-01.') })
const optionalDay = z
  .union([z.literal(''), day], { error: () => say('Give a day as 2026-12-01, or leave it blank.') })
  .default('')
  .transform((text) => (text === '' ? null : text))
const stitches = optionalRead(
  (text) => {
    const value = parseWholeNumber(text)
    return value !== null && value <= 10_000_000 ? value : null
  },
  () => say('Stitches are a whole number: 2,940. Leave it blank where you do not know.'),
)
const whole = (least: number, most: number) =>
  z.string().transform((text, context) => {
    const value = parseWholeNumber(text)
    if (value !== null && value >= least && value <= most) return value
    context.addIssue({ code: 'custom', message: say('A whole number from {least} to {most}.', { least, most }) })
    return z.NEVER
  })
const name = z
  .string()
  .trim()
  .min(1, { error: () => say('Say what the part is called.') })
  .max(120, { error: () => say('Keep the name to 120 characters.') })

export const savePartSchema = z.object({
  projectId: z.string().max(64).default(''),
  id: idText.optional(),
  version: versionText.optional(),
  name,
  comesOn: optionalDay,
  dueOn: optionalDay,
  stitches,
})
export const makePartsSchema = z.object({
  projectId: idText,
  name: optionalText(60).transform((text) => text ?? say('Part')),
  kind: z.enum(['monthly', 'fortnightly', 'weekly']),
  from: day,
  count: whole(1, mostPartsMade),
  dueAfterDays: optionalRead(
    (text) => {
      const days = parseWholeNumber(text)
      return days !== null && days <= 400 ? days : null
    },
    () => say('Days are a whole number up to 400; leave it blank for no day.'),
  ),
  stitches,
})
const part = { id: idText, version: versionText.optional() }
export const tickPartSchema = z.object({ ...part, doneOn: optionalDay })
export const partSchema = z.object(part)
export const movePartSchema = z.object({ id: idText, to: z.enum(['earlier', 'later']) })
