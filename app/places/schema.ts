import { z } from 'zod'
import { idText, optionalText, versionText } from '#forms/fields'
import { givenPlaceKinds } from '#lib/place/place'
import { parseWholeNumber } from '#lib/quantity/number'

const optionalWhole = (problem: string) =>
  z
    .string()
    .trim()
    .transform((text, context) => {
      if (text === '') return null
      const value = parseWholeNumber(text)
      if (value !== null && value <= 1_000_000) return value
      context.addIssue({ code: 'custom', message: problem })
      return z.NEVER
    })

const card = {
  label: z.string().trim().min(1, 'Give the place a label: what is written on it.').max(60, 'Keep the label to 60 characters.'),
  name: optionalText(120),
  kind: z.enum(givenPlaceKinds, 'Choose what sort of place it is.'),
  capacity: optionalWhole('How much it holds is a whole number: 40.'),
  walkOrder: optionalWhole('Its turn in the walk is a whole number: 3.'),
  note: optionalText(1000),
}
/** A place to be inside of; blank is the top. */
const parentText = z
  .string()
  .max(64)
  .transform((id) => (id === '' ? null : id))

export const addPlaceSchema = z.object({ ...card, parentId: parentText })
export const editPlaceSchema = z.object({ ...card, id: idText, version: versionText })
export const movePlaceSchema = z.object({ id: idText, version: versionText, toParentId: parentText })
/** Once it is gone, one looks at what it was inside of. */
export const removePlaceSchema = z.object({ id: idText, version: versionText, parentId: parentText })
export const putBackSchema = z.object({ noun: z.enum(['thread', 'cloth', 'chart', 'notion']), id: idText, version: versionText })

export const restorePlaceSchema = z.object({ id: idText, version: versionText })

export const placePageSchema = z.object({
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
  /** The place that was just removed. */
  removed: idText.optional().catch(undefined),
  /** What lived here before is asked for. */
  before: z
    .string()
    .optional()
    .catch(undefined)
    .transform((asked) => asked !== undefined),
})
