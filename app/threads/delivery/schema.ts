import { z } from 'zod'
import { idText } from '#forms/fields'
import { say } from '#language/say'
import { barcodeKey } from '#lib/thread/barcode'

export const rememberBarcodeSchema = z.object({
  threadId: idText,
  code: z
    .string()
    .max(100)
    .refine((text) => barcodeKey(text) !== null, { error: () => say('Scan the bars, or type the digits under them.') }),
})

export const forgetBarcodeSchema = z.object({ id: idText, threadId: idText })
