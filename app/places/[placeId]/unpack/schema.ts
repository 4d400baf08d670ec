import { z } from 'zod'
import { idText, optionalText } from '#forms/fields'

export const unpackSchema = z.object({ placeId: idText, who: optionalText(60) })

export const unpackPageSchema = z.object({
  /** The moment of an unpacking to look at, in milliseconds. */
  at: z.coerce.number().int().min(0).max(8_640_000_000_000_000).optional().catch(undefined),
  /** Only some things are taken out. */
  part: z.string().optional().catch(undefined),
})
