import { textKey } from '#lib/quantity/text-key'
import { byText } from '#lib/quantity/text-order'

const startsWithDigit = (text: string): boolean => /^\d/.test(text)

/** Digits of any number compared as a whole number: fewer figures after the leading zeros is less. */
function byNumber(a: string, b: string): number {
  const [left, right] = [a.replace(/^0+/, ''), b.replace(/^0+/, '')]
  return left.length - right.length || byText(left, right)
}

const runsOf = (text: string): string[] => text.match(/\d+|\D+/g) ?? []

function byRuns(a: string, b: string): number {
  const [left, right] = [runsOf(a), runsOf(b)]
  for (let index = 0; index < Math.min(left.length, right.length); index++) {
    const [one, other] = [left[index] as string, right[index] as string]
    const areNumbers = startsWithDigit(one) && startsWithDigit(other)
    const difference = areNumbers ? byNumber(one, other) : byText(one, other)
    if (difference !== 0) return difference
  }
  return left.length - right.length
}

/**
 * Put thread codes in the order of a drawer: names first, by alphabet without a leading "The"; then codes that start with a figure,
 * figures read as numbers (Ecru, 9, 10, 0017, 17A, 100). Codes that read the same (`0017`, `17`) are ordered by their exact text, so
 * the order is total: 0 only for identical codes.
 */
export function compareCodes(a: string, b: string): number {
  const [left, right] = [textKey(a).replace(/^the /, ''), textKey(b).replace(/^the /, '')]
  return Number(startsWithDigit(left)) - Number(startsWithDigit(right)) || byRuns(left, right) || byText(a, b)
}

/** A code folded for a forgiving search, never for identity: leading zeros, case, accents, spaces and dashes make no difference. */
export const codeKey = (code: string): string =>
  textKey(code)
    .replace(/(?<!\d)0+(?=\d)/g, '')
    .replace(/[\s\-‐‑–—]/gu, '')

/** A number's key without the letters after it: `17a` is `17`. */
const stemOf = (key: string): string => key.replace(/(?<=\d)[a-z]+$/, '')

/**
 * Whether a code is near what was asked for, without being it: the same once folded, or the same number with other letters after it.
 * `17` is close to `0017` and `17A`, not to `17` itself nor to `172`.
 */
export function isCloseCode(query: string, code: string): boolean {
  if (query === code) return false
  const [asked, held] = [stemOf(codeKey(query)), stemOf(codeKey(code))]
  return asked !== '' && asked === held
}
