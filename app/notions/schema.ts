import { z } from 'zod'
import { idText, isTicked, optionalRead, optionalText, versionText } from '#forms/fields'
import { type Sentence, sentenceText } from '#forms/sentence'
import { say } from '#language/say'
import { countChanges } from '#lib/db/notion/count-notion'
import { notionKinds } from '#lib/notion/notion'
import { parsePrice } from '#lib/quantity/money'
import { parseWholeNumber } from '#lib/quantity/number'

const notion = { id: idText, version: versionText }

/** More than any drawer of beads holds. */
const most = 1_000_000

const whole = (least: number, message: Sentence) =>
  z.string().transform((text, context) => {
    const value = parseWholeNumber(text)
    if (value !== null && value >= least && value <= most) return value
    context.addIssue({ code: 'custom', message: sentenceText(message) })
    return z.NEVER
  })
const optionalWhole = (least: number, message: Sentence) =>
  optionalRead((text) => {
    const value = parseWholeNumber(text)
    return value !== null && value >= least && value <= most ? value : null
  }, message)

const cardFields = {
  kind: z.enum(notionKinds, { error: () => say('Choose what it is.') }),
  name: z
    .string()
    .trim()
    .min(1, { error: () => say('Say what it is called: Big hoop, or the name on its packet.') })
    .max(120),
  size: optionalText(60),
  minimum: optionalWhole(0, () => say('Give a whole number, or leave it out.')),
  packOf: optionalWhole(1, () => say('Give how many a pack holds, or leave it out.')),
  price: optionalRead(
    (text) => {
      const minor = parsePrice(text)?.minor ?? null
      return minor !== null && minor <= most * 100 ? minor : null
    },
    () => say('Give the price of one as 4.50, or leave it out.'),
  ),
  note: optionalText(1000),
}

const priced = <Card extends { price: number | null }>({ price, ...card }: Card) => ({ ...card, priceMinor: price })

export const addNotionSchema = z
  .object({
    ...cardFields,
    ownerId: idText,
    count: whole(0, () => say('Give how many there are, as a whole number.')),
    placeLabel: optionalText(60),
  })
  .transform(priced)
export const editNotionSchema = z.object({ ...cardFields, ...notion }).transform(priced)

export const moveNotionSchema = z.object({
  ...notion,
  placeLabel: z
    .string()
    .trim()
    .min(1, { error: () => say('Say where it goes: the label of a place.') })
    .max(60),
  becomesHome: isTicked,
})
export const countNotionSchema = z
  .object({
    ...notion,
    change: z.enum(countChanges, { error: () => say('Choose what happened.') }),
    many: whole(0, () => say('Give a whole number.')),
    reason: optionalText(300),
  })
  .refine(({ change, many }) => change === 'counted' || many > 0, {
    path: ['many'],
    error: () => say('Give how many, from one on.'),
  })
export const takeNotionSchema = z.object({
  ...notion,
  projectId: z
    .string()
    .min(1, { error: () => say('Choose the project.') })
    .max(64),
  many: whole(1, () => say('Give how many, from one on.')),
})
export const notionSchema = z.object(notion)
export const removeNotionSchema = z.object({ ...notion, reason: optionalText(300) })
