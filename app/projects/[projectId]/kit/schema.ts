import { z } from 'zod'
import { idText, optionalRead, optionalText, versionText } from '#forms/fields'
import type { Sentence } from '#forms/sentence'
import { say } from '#language/say'
import { kitItemKinds } from '#lib/project/kit/item'
import { parsePrice } from '#lib/quantity/money'
import { parseWholeNumber } from '#lib/quantity/number'

const project = { projectId: idText, version: versionText }

/** More than goes into any kit. */
const mostPerKit = 100_000
const mostPriceMinor = 100_000_000

const price = (message: Sentence) =>
  optionalRead((text) => {
    const minor = parsePrice(text)?.minor ?? null
    return minor !== null && minor <= mostPriceMinor ? minor : null
  }, message)

const itemFields = {
  kind: z.enum(kitItemKinds, { error: () => say('Choose what it is.') }),
  name: z
    .string()
    .trim()
    .min(1, { error: () => say('Say what it is called: Needle, size 24.') })
    .max(120, { error: () => say('Keep it to 120 characters.') }),
  perKit: z.string().transform((text, context) => {
    const value = parseWholeNumber(text)
    if (value !== null && value >= 1 && value <= mostPerKit) return value
    context.addIssue({ code: 'custom', message: say('How many go into one kit is a whole number from 1.') })
    return z.NEVER
  }),
  notionId: z
    .string()
    .max(64)
    .default('')
    .transform((id) => (id === '' ? null : id)),
  price: price(() => say('Give the price of one as 0.35, or leave it out.')),
  note: optionalText(300),
}

const priced = <Item extends { price: number | null }>({ price: priceMinor, ...item }: Item) => ({ ...item, priceMinor })

export const addKitItemSchema = z.object({ ...project, ...itemFields }).transform(priced)
export const editKitItemSchema = z.object({ ...project, itemId: idText, ...itemFields }).transform(priced)
export const kitItemSchema = z.object({ ...project, itemId: idText })
export const moveKitItemSchema = z.object({ ...project, itemId: idText, to: z.enum(['up', 'down']) })
export const kitPriceSchema = z
  .object({ ...project, price: price(() => say('Give the price of one kit as 24.50, or leave it out.')) })
  .transform(priced)
