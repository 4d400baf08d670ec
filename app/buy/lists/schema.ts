import { z } from 'zod'
import { idText, isTicked, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parseWholeNumber } from '#lib/quantity/number'

const title = z
  .string()
  .trim()
  .min(1, { error: () => say('Give the list a name, such as Saturday.') })
  .max(200, { error: () => say('Keep it to 200 characters.') })
const who = optionalText(120)
const ownerId = z
  .string()
  .min(1, { error: () => say('Choose whose stock it is bought into.') })
  .max(64)
const ids = z
  .string()
  .default('')
  .transform((text) => text.split(' ').filter((id) => id !== ''))
  .pipe(z.array(idText).max(50))

export const keepListSchema = z.object({
  listId: idText,
  title,
  ownerId,
  who,
  /** Ids, parted by spaces. */
  designs: ids,
  lists: ids,
  projects: ids,
  withPerhaps: isTicked,
})

export const beginListSchema = z.object({ listId: idText, title, ownerId, who })

export const listSchema = z.object({ listId: idText, who })

export const changeListSchema = z.object({ listId: idText, version: versionText, title, note: optionalText(1_000) })

export const addLineSchema = z.object({
  listId: idText,
  lineId: idText,
  what: z
    .string()
    .trim()
    .min(1, { error: () => say('Say what to buy: a thread by maker and code, or in words.') })
    .max(200, { error: () => say('Keep it to 200 characters.') }),
  putUps: z
    .string()
    .trim()
    .default('')
    .transform((text, context) => {
      const count = text === '' ? 1 : parseWholeNumber(text)
      if (count !== null && count >= 1 && count <= 10_000) return count
      context.addIssue({ code: 'custom', message: say('How many is a whole number from 1 to 10,000.') })
      return z.NEVER
    }),
  supplier: optionalText(200),
  note: optionalText(1_000),
})

export const removeLineSchema = z.object({ listId: idText, lineId: idText })

export const unsortedSchema = z.object({ label: optionalText(100) })

/** How a list's page is drawn. */
export const listQuerySchema = z.object({
  by: z.enum(['supplier', 'maker']).catch('supplier'),
  prices: z
    .literal('1')
    .transform(() => true)
    .catch(false),
})

export const listsPageSchema = z.object({ page: z.coerce.number().int().min(1).max(10_000).catch(1) })
