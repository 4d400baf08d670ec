import { z } from 'zod'
import { idText } from '#forms/fields'
import { type Sentence, sentenceText } from '#forms/sentence'
import { say } from '#language/say'
import { rotationRules } from '#lib/planning/pace/rotation'
import { parseWholeNumber } from '#lib/quantity/number'

const whole = (most: number, words: Sentence) =>
  z.string().transform((text, context) => {
    const value = parseWholeNumber(text)
    if (value !== null && value >= 1 && value <= most) return value
    context.addIssue({
      code: 'custom',
      message: say('{sentence} are a whole number from 1 to {most, number}.', { sentence: sentenceText(words), most }),
    })
    return z.NEVER
  })

export const memberSchema = z.object({ projectId: idText })
export const moveSchema = z.object({ projectId: idText, to: z.enum(['earlier', 'later']) })
export const ruleSchema = z.object({
  by: z.enum(rotationRules, { error: () => say('Choose one.') }),
  days: whole(365, () => say('Days')),
  hours: whole(1_000, () => say('Hours')),
  stitches: whole(1_000_000, () => say('Stitches')),
})
