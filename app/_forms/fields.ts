import { z } from 'zod'
import { say } from '#language/say'
import { type Sentence, sentenceText } from './sentence'

/** The id of something on record. */
export const idText = z.string().min(1).max(64)

/** The version of what a person saw when the form was drawn. */
export const versionText = z.coerce.number().int().min(0)

/** Text that may be left out: null then. */
export const optionalText = (most: number) =>
  z
    .string()
    .trim()
    .max(most, { error: () => say('Keep it to {most} characters.', { most }) })
    .default('')
    .transform((text) => (text === '' ? null : text))

/** A tick box sends its value, or nothing at all. */
export const isTicked = z
  .string()
  .optional()
  .transform((value) => value !== undefined)

/** Text read by `read`; null when it is left empty. What does not read is answered with `message`. */
export const optionalRead = <Value>(read: (text: string) => Value | null, message: Sentence) =>
  z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      if (text === '') return null
      const value = read(text)
      if (value !== null) return value
      context.addIssue({ code: 'custom', message: sentenceText(message) })
      return z.NEVER
    })
