import { z } from 'zod'
import { idText, optionalText } from '#forms/fields'
import { say } from '#language/say'
import { parseWholeNumber } from '#lib/quantity/number'

/** More of one thread than this is no walk to a shop. */
const mostPutUps = 1_000

export const toListSchema = z
  .object({
    chosen: idText,
    /** Empty: a new one, called `title`. */
    listId: z.string().max(64).default(''),
    /** Of a new list. */
    newListId: idText,
    title: optionalText(200),
    ownerId: z.string().max(64).default(''),
    putUps: z
      .string()
      .trim()
      .default('')
      .transform((text, context) => {
        const count = text === '' ? 1 : parseWholeNumber(text)
        if (count !== null && count >= 1 && count <= mostPutUps) return count
        context.addIssue({
          code: 'custom',
          message: say('How many is a whole number from 1 to {most, number}.', { most: mostPutUps }),
        })
        return z.NEVER
      }),
  })
  .superRefine(({ listId, title, ownerId }, context) => {
    if (listId !== '') return
    if (title === null)
      context.addIssue({ code: 'custom', path: ['title'], message: say('Give the list a name, such as Saturday.') })
    if (ownerId === '')
      context.addIssue({ code: 'custom', path: ['ownerId'], message: say('Choose whose stock it is bought into.') })
  })
