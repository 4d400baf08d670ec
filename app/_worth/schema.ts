import { z } from 'zod'
import { idText, isTicked, optionalRead, versionText } from '#forms/fields'
import { say } from '#language/say'
import { parsePrice } from '#lib/quantity/money'

export const worthSchema = z.object({
  noun: z.enum(['cloth', 'notion', 'chart']),
  id: idText,
  version: versionText,
  price: optionalRead(
    (text) => {
      const minor = parsePrice(text)?.minor ?? null
      return minor !== null && minor <= 100_000_000 ? minor : null
    },
    () => say('Give the price as 14.50, or leave it out.'),
  ),
  isOutOfPrint: isTicked,
})
