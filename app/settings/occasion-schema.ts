import { z } from 'zod'
import { idText, versionText } from '#forms/fields'
import { say, sayings } from '#language/say'
import { type OccasionRule, parseRule, printRule } from '#lib/planning/days/occasion-rule'
import { countryCodes } from '#lib/planning/days/occasions'
import { parseWholeNumber } from '#lib/quantity/number'

export const countryFormSchema = z.object({ country: z.enum(countryCodes, { error: () => say('Choose a country.') }) })

const ruleKinds = ['fixed', 'weekday', 'easter', 'nearest', 'once'] as const

const figure = z.string().trim().max(10).default('')

/** A rule in plain fields; which of them count hangs on the kind. */
const ruleFields = {
  kind: z.enum(ruleKinds),
  day: figure,
  month: figure,
  nth: figure,
  weekday: figure,
  days: figure,
  side: z.enum(['before', 'after']).default('after'),
  on: figure,
}

/** What the fields of its kind say, as a rule is stored; null where they say no day. */
function ruleText(said: z.infer<z.ZodObject<typeof ruleFields>>): string | null {
  const whole = (text: string): number => parseWholeNumber(text) ?? Number.NaN
  const [day, month, weekday] = [whole(said.day), whole(said.month), whole(said.weekday)]
  const days = (said.side === 'before' ? -1 : 1) * (said.days === '' ? 0 : whole(said.days))
  const rule = ((): OccasionRule => {
    switch (said.kind) {
      case 'fixed':
        return { kind: 'fixed', month, day }
      case 'easter':
        return { kind: 'easter', days: days || 0 }
      case 'weekday':
        return { kind: 'weekday', nth: said.nth === 'last' ? 'last' : (whole(said.nth) as 1), weekday, month }
      case 'nearest':
        return { kind: 'nearest', weekday, month, day, days: days || 0 }
      case 'once':
        return { kind: 'once', on: said.on }
    }
  })()
  if (Object.values(rule).some((value) => Number.isNaN(value))) return null
  const read = parseRule(printRule(rule))
  return read && printRule(read)
}

/** Where to stand with what is wrong, by kind. */
const wrongField = { fixed: 'day', weekday: 'nth', easter: 'days', nearest: 'day', once: 'on' } as const
const wrongWords = sayings({
  fixed: 'Give a day the month has: 24 for December.',
  weekday: 'Choose which weekday of the month it is.',
  easter: 'Days from Easter are a whole number up to 300; 0 is Easter itself.',
  nearest: 'Give a day the month has, and up to 60 days from it.',
  once: 'Give a day as 2027-05-14.',
})

export const occasionFormSchema = z
  .object({
    ownerId: z.string().max(64).default(''),
    id: idText.optional(),
    version: versionText.optional(),
    name: z
      .string()
      .trim()
      .min(1, { error: () => say('Say what it is called.') })
      .max(120, { error: () => say('Keep the name to 120 characters.') }),
    ...ruleFields,
  })
  .transform(({ ownerId, id, version, name, ...said }, context) => {
    const rule = ruleText(said)
    if (rule !== null) return { ownerId, id, version, name, rule }
    context.addIssue({ code: 'custom', path: [wrongField[said.kind]], message: wrongWords[said.kind] })
    return z.NEVER
  })

export const removeOccasionSchema = z.object({ id: idText })
