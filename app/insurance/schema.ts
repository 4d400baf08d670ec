import { z } from 'zod'
import { optionalRead } from '#forms/fields'
import { say } from '#language/say'
import { type InsuredClass, insuredClasses } from '#lib/insurance/insured'
import { parsePrice } from '#lib/quantity/money'

const mostMinor = 100_000_000

const price = optionalRead(
  (text) => {
    const minor = parsePrice(text)?.minor ?? null
    return minor !== null && minor <= mostMinor ? minor : null
  },
  () => say('Give a price as 14.50, or leave it out.'),
)

export const valuesFormSchema = z.object({
  ...(Object.fromEntries(insuredClasses.map((name) => [name, price])) as Record<InsuredClass, typeof price>),
  dear: price,
})

export const paperSchema = z.enum(['a4', 'letter']).catch('a4')
