import { z } from 'zod'
import { idText } from '#forms/fields'
import { say } from '#language/say'

const sourceName = z
  .string()
  .trim()
  .min(1, { error: () => say('Whose list is it? Give a name to know it by.') })
  .max(100, { error: () => say('Keep it to 100 characters.') })
/** Blank: every row names its own maker. */
const lineId = z
  .string()
  .max(64)
  .default('')
  .transform((id) => (id === '' ? null : id))

export const bringListSchema = z.object({
  sourceName,
  text: z
    .string()
    .max(1_000_000, { error: () => say('That is too long to paste. Choose it as a file.') })
    .default(''),
  lineId,
  otherLineId: lineId,
})

export const previewSchema = z.object({ source: sourceName.catch(''), line: lineId.catch(null), other: lineId.catch(null) })

export const keepListSchema = z.object({ stagedId: idText, sourceName, lineId, otherLineId: lineId })

export const removeListSchema = z.object({ sourceKey: z.string().min(1).max(200) })
