import { z } from 'zod'
import { say } from '#language/say'
import { roundingSteps } from '#lib/settings/settings'

export const settingsFormSchema = z.object({
  lengthUnit: z.enum(['in', 'cm'], { error: () => say('Choose inches or centimetres.') }),
  threadUnit: z.enum(['m', 'yd'], { error: () => say('Choose metres or yards.') }),
  allowance: z.string(),
  roundingUm: z.coerce
    .number()
    .refine((step) => roundingSteps.some((known) => known === step), { error: () => say('Choose one of the steps.') }),
  finishing: z.string().min(1, { error: () => say('Choose one of the ways of finishing.') }),
  shrinkPercent: z.string(),
  currency: z
    .string()
    .trim()
    .max(4, { error: () => say('At most four letters or signs.') }),
})

export const themeSchema = z.enum(['light', 'dark', 'device'])

export const ownerFormSchema = z.object({
  id: z.string().optional(),
  version: z.coerce.number().int().optional(),
  name: z
    .string()
    .trim()
    .min(1, { error: () => say('Give a name.') })
    .max(100, { error: () => say('A name of up to 100 letters.') }),
  kind: z.enum(['own', 'shop', 'person'], { error: () => say('Choose one.') }),
})
