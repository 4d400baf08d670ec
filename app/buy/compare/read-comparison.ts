import { say } from '#language/say'
import { parsePrice } from '#lib/quantity/money'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { cheapestPutUps, type PutUpMix, type PutUpOffer } from '#lib/stock/cheapest-put-ups'

const fieldNames = ['need', 'firstLength', 'firstPrice', 'secondLength', 'secondPrice'] as const
export type CompareField = (typeof fieldNames)[number]
export type CompareTexts = Record<CompareField, string>

export type Comparison = {
  /** In tenths of a millimetre of the thread as sold, like the offers. */
  needTenths: number
  offers: [PutUpOffer, PutUpOffer]
  singles: PutUpMix[]
  best: PutUpMix
}

const mostTenths = 100_000_000

/** What was typed, from the address; what is not there is empty. */
export function readTexts(params: Record<string, string | string[] | undefined>): CompareTexts {
  const textOf = (name: CompareField) => (typeof params[name] === 'string' ? params[name].slice(0, 50) : '')
  return Object.fromEntries(fieldNames.map((name) => [name, textOf(name)])) as CompareTexts
}

/** Two lengths with their prices against a need; what is wrong with each figure that does not read, or null while nothing is filled in. */
export function readComparison(
  texts: CompareTexts,
  unit: ThreadLengthUnit,
): Comparison | Partial<Record<CompareField, string>> | null {
  if (fieldNames.every((name) => texts[name].trim() === '')) return null
  const wrong: Partial<Record<CompareField, string>> = {}
  const length = (name: CompareField): number => {
    const tenths = parseThreadLength(texts[name], unit)
    if (tenths !== null && tenths > 0 && tenths <= mostTenths) return tenths
    wrong[name] = say('A length is such as 7 m or 5 yd.')
    return 0
  }
  const price = (name: CompareField): number => {
    const read = parsePrice(texts[name])
    if (read === null) wrong[name] = say('A price is such as 1.50.')
    return read?.minor ?? 0
  }
  const needTenths = length('need')
  const offers: Comparison['offers'] = [
    { putUpStrandTenths: length('firstLength'), priceMinor: price('firstPrice') },
    { putUpStrandTenths: length('secondLength'), priceMinor: price('secondPrice') },
  ]
  if (Object.keys(wrong).length > 0) return wrong
  if (offers.some(({ putUpStrandTenths }) => needTenths / putUpStrandTenths > 1_000)) {
    return { need: say('That would take over a thousand put-ups.') }
  }
  return { needTenths, offers, ...cheapestPutUps(needTenths, offers) }
}
