/** Lengths of the numbers printed as bars on goods, check digit and all. From memory of the GS1 General Specifications. */
const goodsLengths = [8, 12, 13, 14]

const goodsDigits = 14

/**
 * What a barcode is kept and looked up by: without spaces. A number of goods is filled up with zeros to fourteen digits, for one
 * reader gives the same bars as twelve digits that another gives as thirteen with a zero before them. Any other text is kept as it is:
 * a shop may print codes of its own.
 *
 * @returns null when nothing is left of it
 */
export function barcodeKey(text: string): string | null {
  const code = text.normalize('NFKC').replace(/[\s\p{Cc}]/gu, '')
  if (code === '') return null
  return isGoodsNumber(code) ? code.padStart(goodsDigits, '0') : code
}

const isGoodsNumber = (code: string): boolean => /^\d+$/.test(code) && goodsLengths.includes(code.length)

/**
 * Whether a text is likely read from bars rather than typed as a thread's code: digits alone, at least eight of them. Codes of thread are
 * shorter (common practice, no published source).
 */
export const looksLikeBarcode = (text: string): boolean => /^\d{8,}$/.test(text.replace(/\s/g, ''))

/**
 * Whether the last digit of a number of goods is the check digit of the others: weighted 3 and 1 by turns from the right, all digits
 * together sum to a multiple of ten (from memory of the GS1 General Specifications, check digit calculation). A text that is no such number
 * has no check digit to be wrong.
 */
export function hasWrongCheckDigit(text: string): boolean {
  const code = text.replace(/\s/g, '')
  if (!isGoodsNumber(code)) return false
  const sum = [...code].reverse().reduce((total, digit, at) => total + Number(digit) * (at % 2 === 0 ? 1 : 3), 0)
  return sum % 10 !== 0
}
