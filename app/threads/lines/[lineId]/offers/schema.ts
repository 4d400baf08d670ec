import { z } from 'zod'
import { idText, optionalRead, optionalText, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parsePrice } from '#lib/quantity/money'
import { parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { putUpMeant } from '#words/amounts'
import { asItWas } from '../../../schema'

/** A kilometre of thread as sold, and a price nobody asks for it. */
const mostTenths = 10_000_000
const mostMinor = 1_000_000

/** A way a line is sold, as its form sends it; lengths become tenths of one strand. */
export const offerSchema = ({ unit, strands }: { unit: ThreadLengthUnit; strands: number }) =>
  z
    .object({
      lineId: idText,
      offerId: optionalText(64),
      version: versionText.optional(),
      thread: optionalText(300),
      supplier: optionalText(200),
      putUpWord: optionalText(40).transform((word) => word && putUpMeant(word)),
      length: z
        .string()
        .default('')
        .transform((text, context) => {
          const tenths = parseThreadLength(text, unit)
          if (tenths !== null && tenths > 0 && tenths <= mostTenths) return tenths * strands
          context.addIssue({ code: 'custom', message: say('Give the length of one, such as 8 m or 5 yd.') })
          return z.NEVER
        }),
      /** As it was, in tenths of one strand: the form shows it rounded, and left alone it must not change. */
      lengthBefore: z.coerce.number().int().min(0).catch(0),
      packPutUps: optionalRead(
        (text) => {
          const count = parseWholeNumber(text)
          return count !== null && count >= 1 && count <= 999 ? count : null
        },
        () => say('How many come in one pack is a whole number from 1 to 999.'),
      ).transform((count) => count ?? 1),
      price: z
        .string()
        .default('')
        .transform((text, context) => {
          const minor = parsePrice(text)?.minor ?? null
          if (minor !== null && minor <= mostMinor) return minor
          context.addIssue({ code: 'custom', message: say('Give what one pack costs, such as 1.50, up to 10,000.00.') })
          return z.NEVER
        }),
      note: optionalText(1_000),
    })
    .transform(({ length, lengthBefore, price, ...offer }) => ({
      ...offer,
      putUpStrandTenths: lengthBefore > 0 ? (asItWas(length, lengthBefore, { unit, strands }) ?? length) : length,
      priceMinor: price,
    }))

export const removeOfferSchema = z.object({ offerId: idText, version: versionText })
