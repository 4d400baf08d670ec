import { z } from 'zod'
import { idText, optionalText } from '#forms/fields'
import { say } from '#language/say'

const who = optionalText(120)

export const startWalkSchema = z.object({ title: optionalText(200), who })
export const walkSchema = z.object({ walkId: idText })
export const closeWalkSchema = z.object({ walkId: idText, who })
export const carryOutSchema = z.object({ walkId: idText, who })
export const bagSchema = z
  .string()
  .trim()
  .min(1, { error: () => say('Say which bag it goes into.') })
  .max(60, { error: () => say('Keep the label to 60 characters.') })
export const walksPageSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })
/** Projects named in the address: once or many times. */
export const chosenSchema = z.object({
  project: z
    .union([idText, z.array(idText).max(2_000)])
    .transform((ids) => (typeof ids === 'string' ? [ids] : ids))
    .catch([]),
})
