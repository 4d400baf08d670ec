/**
 * No figure, size or date is written longer than this. Cells of a file can be of any length, and the patterns that read them are not made
 * for that.
 */
export const longestFigureText = 100

const vulgarFractions: Record<string, number> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
}
const vulgarCharacters = Object.keys(vulgarFractions).join('')
const mixedVulgar = new RegExp(`^(\\d{0,9}) ?([${vulgarCharacters}])$`, 'u')
const mixedFraction = /^(?:(\d{1,9})[ -])?(\d{1,6})\/(\d{1,6})$/
const digitGroups = /^\d{1,3}([ .,])\d{3}(?:\1\d{3})*(?:([.,])(\d+))?$/
const loneMark = /^([1-9]\d{0,2})([.,])(\d{3})$/
const plainDecimal = /^(\d*)[.,](\d+)$/

/** White space of every kind becomes one plain space, the minus and fraction signs their keyboard forms. */
const tidy = (text: string): string =>
  text
    .replace(/\s+/gu, ' ')
    .trim()
    .replace(/^−/u, '-')
    .replace(/ ?[⁄∕] ?/gu, '/')

/** Digits with grouping and decimal marks; `loneCommaOrDot` says how `1,240` and `1.240`, which may be either, are read. */
function parseUnsigned(text: string, loneCommaOrDot: (mark: ',' | '.') => 'thousands' | 'decimal'): number | null {
  if (/^\d+$/.test(text)) return Number(text)

  const vulgar = mixedVulgar.exec(text)
  if (vulgar) return Number(vulgar[1] || 0) + (vulgarFractions[vulgar[2] as string] as number)

  const fraction = mixedFraction.exec(text)
  if (fraction) return Number(fraction[3]) === 0 ? null : Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3])

  const lone = loneMark.exec(text)
  if (lone) {
    const [, before, mark, after] = lone as unknown as [string, string, ',' | '.', string]
    return Number(loneCommaOrDot(mark) === 'thousands' ? before + after : `${before}.${after}`)
  }

  const decimal = plainDecimal.exec(text)
  if (decimal) return Number(`${decimal[1] || 0}.${decimal[2]}`)

  const groups = digitGroups.exec(text)
  if (groups && groups[1] !== groups[2] && !text.startsWith('0')) {
    const whole = groups[2] ? text.slice(0, text.lastIndexOf(groups[2])) : text
    return Number(`${whole.replace(/[ .,]/g, '')}.${groups[3] ?? 0}`)
  }
  return null
}

/**
 * Read a number as people type it: `1240`, `1,5`, `.5`, `1 1/2`, `12½`, `1.240,5`, `1 240` (any kind of space), with a leading minus.
 *
 * A mark that can be read both ways, one comma or dot with one to three digits before it (not starting with 0) and exactly three
 * after, is a thousands mark when a comma and a decimal mark when a dot: `1,240` is 1240, `1.240` is 1.24. `0,625` is 0.625.
 *
 * @returns null for anything else: words, units, exponents, NaN, Infinity, a fraction over nought.
 */
export function parseNumber(text: string): number | null {
  if (text.length > longestFigureText) return null
  const tidied = tidy(text)
  const isNegative = tidied.startsWith('-')
  const value = parseUnsigned(isNegative ? tidied.slice(1).trimStart() : tidied, (mark) =>
    mark === ',' ? 'thousands' : 'decimal',
  )
  if (value === null || !Number.isFinite(value)) return null
  return isNegative && value !== 0 ? -value : value
}

/**
 * Read a whole number of nought or more. `1,240`, `1.240` and `1 240` are all 1240, since a whole number has no other use for the mark;
 * `12.0` is 12.
 *
 * @returns null for a fraction (`4/2` too, which is likelier a date), a negative, or a number too large to be exact.
 */
export function parseWholeNumber(text: string): number | null {
  if (text.length > longestFigureText || /[/⁄∕]/u.test(text)) return null
  const value = parseUnsigned(tidy(text), () => 'thousands')
  return value !== null && Number.isSafeInteger(value) ? value : null
}
