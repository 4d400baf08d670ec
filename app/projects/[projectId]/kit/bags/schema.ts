import { z } from 'zod'
import { idText, isTicked, optionalText } from '#forms/fields'
import { say } from '#language/say'
import { bagSteps } from '#lib/project/kit/bags'
import { markStatuses } from '#lib/project/kit/check'

const by = z
  .string()
  .trim()
  .min(1, { error: () => say('Say who does it, by name.') })
  .max(60, { error: () => say('Keep the name to 60 characters.') })

export const cutSchema = z.object({ projectId: idText, by, seen: z.string().max(200_000), acceptsLots: isTicked })
export const cutAgainSchema = z.object({
  projectId: idText,
  bag: z.coerce.number().int().min(1).max(99_999),
  threadId: idText,
  by: z.string().trim().max(60).default(''),
})
export const stepSchema = z.object({
  projectId: idText,
  step: z.enum(bagSteps),
  bags: z.string().max(2_000),
  by: z.string().trim().max(60).default(''),
  reason: optionalText(300),
  soldTo: optionalText(120),
})
export const checkSchema = z.object({ projectId: idText, by, isAlone: isTicked, all: z.string().optional() })

/** "there", or nothing where nobody looked yet. */
export const markSchema = z.enum(markStatuses)
export const sawSchema = z.union([z.literal('').transform(() => null), markSchema])

/** The field of one line held against one bag, and back again. */
export const markField = (bag: number, key: string) => `mark ${bag} ${key}`
export function readMarkField(name: string): { bag: number; key: string } | null {
  const found = /^mark (\d{1,5}) (.{1,100})$/u.exec(name)
  return found ? { bag: Number(found[1]), key: found[2] as string } : null
}

export const bagNumberSchema = z.coerce.number().int().min(1).max(99_999)
export const linesPageSchema = z.object({ line: z.string().max(100).optional().catch(undefined) })
