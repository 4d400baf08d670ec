import { z } from 'zod'
import { idText, optionalRead, versionText } from '#forms/fields'
import { type Sentence, sentenceText } from '#forms/sentence'
import { say } from '#language/say'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { defaultCoverWeeks, type ReorderRule } from '#lib/stock/reorder'

const mostPutUps = 10_000
const mostWeeks = 104

const whole = (field: Sentence, least: number, most: number) =>
  optionalRead(
    (text) => {
      const value = parseWholeNumber(text)
      return value !== null && value >= least && value <= most ? value : null
    },
    () => say('{sentence} is a whole number from {least} to {most, number}.', { sentence: sentenceText(field), least, most }),
  )

/** Put-ups a week, in hundredths. */
const aWeek = (field: Sentence) =>
  optionalRead(
    (text) => {
      const value = parseNumber(text)
      return value !== null && value >= 0 && value <= mostPutUps ? Math.round(value * 100) : null
    },
    () => say('{sentence} is a number such as 5.8.', { sentence: sentenceText(field) }),
  )

const seen = {
  threadId: idText,
  ownerId: z
    .string()
    .min(1, { error: () => say('Choose whose stock it is for.') })
    .max(64),
}

export const saveRuleSchema = z
  .object({
    ...seen,
    /** Empty when there was no rule. */
    version: z.string().default(''),
    kind: z.enum(['minimum', 'point'], { error: () => say('Say what to go by.') }),
    minimumPutUps: whole(() => say('The number to keep'), 0, mostPutUps),
    demandHundredths: aWeek(() => say('What is sold in a week')),
    spreadHundredths: aWeek(() => say('The spread')),
    leadWeeks: whole(() => say('The weeks an order takes'), 0, mostWeeks),
    coverWeeks: whole(() => say('The weeks to buy for'), 0, mostWeeks),
    packPutUps: whole(() => say('A box'), 1, mostPutUps),
  })
  .transform(({ threadId, ownerId, version, kind, packPutUps, ...figures }, context) => {
    const needed = (field: keyof typeof figures, message: string): number => {
      const value = figures[field]
      if (value !== null) return value
      context.addIssue({ code: 'custom', path: [field], message })
      return 0
    }
    const pack = packPutUps ?? 1
    const rule: ReorderRule =
      kind === 'minimum'
        ? { kind, minimumPutUps: needed('minimumPutUps', say('Say how many to keep.')), packPutUps: pack }
        : {
            kind,
            demandHundredths: needed('demandHundredths', say('Say how many are sold in a week.')),
            spreadHundredths: needed('spreadHundredths', say('Say how far the weeks differ; 0 when they never do.')),
            leadWeeks: needed('leadWeeks', say('Say how many weeks an order takes.')),
            coverWeeks: figures.coverWeeks ?? defaultCoverWeeks,
            packPutUps: pack,
          }
    const seenVersion = version === '' ? null : Number(version)
    return { threadId, ownerId, version: Number.isSafeInteger(seenVersion) ? seenVersion : null, rule }
  })

export const removeRuleSchema = z.object({ ...seen, version: versionText })
