import { language } from './language'

const tag = (): string => {
  const { figuresTag, tag } = language()
  return figuresTag ?? tag
}

// Making one takes far longer than using it.
const numbers = new Map<string, Intl.NumberFormat>()
const days = new Map<string, Intl.DateTimeFormat>()
const lists = new Map<string, Intl.ListFormat>()

function kept<T>(made: Map<string, T>, options: object, make: (tag: string) => T): T {
  const spoken = tag()
  const key = spoken + JSON.stringify(options)
  const found = made.get(key) ?? make(spoken)
  made.set(key, found)
  return found
}

/**
 * A number as it is written in the language spoken: "1,240.5", "1.240,5". A count of less than a thousand is written alike in all of them:
 * a phone takes 60 ms to make its first `Intl.NumberFormat`, and would take them out of the first tick on a list.
 */
export const numberText = (value: number, options?: Intl.NumberFormatOptions): string =>
  options === undefined && Number.isInteger(value) && value >= 0 && value < 1000
    ? String(value)
    : kept(numbers, options ?? {}, (spoken) => new Intl.NumberFormat(spoken, options)).format(value)

/** A day, or a time of it, as it is written in the language spoken. */
export const dayText = (at: Date, options: Intl.DateTimeFormatOptions): string =>
  kept(days, options, (spoken) => new Intl.DateTimeFormat(spoken, options)).format(at)

/** "a, b and c"; "a, b und c". */
export const listText = (items: readonly string[], type: 'conjunction' | 'disjunction' = 'conjunction'): string =>
  kept(lists, { type }, (spoken) => new Intl.ListFormat(spoken, { type })).format(items)

/** Names in the order the language spoken has them, figures by their size. */
export const namesInOrder = (): Intl.Collator => new Intl.Collator(tag(), { numeric: true })

/** A country by its code of ISO 3166-1, as the language spoken calls it. */
export const countryName = (code: string): string => new Intl.DisplayNames(tag(), { type: 'region' }).of(code) ?? code

/** The mark between a number and its parts: "." or ",". */
export const decimalMark = (): string => numberText(0.5, { minimumFractionDigits: 1 }).charAt(1)

/** A number without marks between its thousands: "1240.5", "1240,5". */
export const plainFigure = (value: number): string => String(value).replace('.', decimalMark())

/** A figure made with a full stop, as it is written in the language spoken: "13.16 m", "13,16 m". It runs from left to right in any. */
export function withDecimalMark(text: string): string {
  const mark = decimalMark()
  const written = mark === '.' ? text : text.replace(/(\d)\.(?=\d)/g, `$1${mark}`)
  return language().direction === 'rtl' ? `\u2066${written}\u2069` : written
}
