import { z } from 'zod'
import { idText, isTicked, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parseWholeNumber } from '#lib/quantity/number'

export const missingPageSchema = z.object({
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
  settled: z.string().optional().catch(undefined),
})

export const reportNouns = ['thread', 'cloth', 'chart', 'notion'] as const

export const newMissingPageSchema = z.object({
  noun: z.enum(reportNouns).catch('thread'),
  id: z.string().max(64).catch(''),
})

const putUps = z
  .string()
  .trim()
  .default('')
  .transform((text, context) => {
    const value = text === '' ? 0 : parseWholeNumber(text)
    if (value !== null && value <= 1_000_000) return value
    context.addIssue({ code: 'custom', message: say('How many put-ups is a whole number.') })
    return z.NEVER
  })

const optionalId = z
  .string()
  .max(64)
  .default('')
  .transform((id) => (id === '' ? null : id))

export const reportSchema = z.object({
  noun: z.enum(reportNouns),
  id: idText,
  version: versionText,
  wholePutUps: putUps,
  takesPart: isTicked,
  projectId: optionalId,
  note: optionalText(300),
  who: optionalText(60),
})

export const foundSchema = z
  .object({
    missingId: idText,
    version: versionText,
    where: z.enum(['home', 'last-seen', 'place']),
    placeLabel: optionalText(60),
    onlyWholePutUps: optionalText(12),
    who: optionalText(60),
    note: optionalText(300),
  })
  .transform((found, context) => {
    if (found.where === 'place' && found.placeLabel === null) {
      context.addIssue({ code: 'custom', path: ['placeLabel'], message: say('Say where: the label of the place.') })
      return z.NEVER
    }
    const { onlyWholePutUps, ...rest } = found
    const only = onlyWholePutUps === null ? undefined : parseWholeNumber(onlyWholePutUps)
    if (only === null || only === 0) {
      context.addIssue({
        code: 'custom',
        path: ['onlyWholePutUps'],
        message: say('How many were found is a whole number from 1.'),
      })
      return z.NEVER
    }
    return { ...rest, only }
  })

export const giveUpSchema = z.object({
  missingId: idText,
  version: versionText,
  reason: z
    .string()
    .trim()
    .min(1, { error: () => say('Say why it is given up: it stays in the journal.') })
    .max(300, { error: () => say('Keep it to 300 characters.') }),
  who: optionalText(60),
})
