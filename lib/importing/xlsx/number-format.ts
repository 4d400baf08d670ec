/** What a number format makes of a number, as far as its meaning goes; colours, currencies and widths are left aside. */
export type NumberFormat =
  | { kind: 'plain' }
  | { kind: 'percent' }
  /** A day; or, where the format has hours alone, a time. */
  | { kind: 'date' }
  /** A whole number shown with zeros in front or marks between its figures: `0000`, `00-00`, `"A"000`. */
  | { kind: 'figures'; pattern: string[] }

/** Formats a workbook may use without spelling them out that show days and times (ECMA-376, part 1, 18.8.30, with those of East Asian locales). */
const builtInDates: readonly (readonly [number, number])[] = [
  [14, 22],
  [27, 36],
  [45, 47],
  [50, 58],
]

export function builtInFormat(id: number): NumberFormat {
  if (builtInDates.some(([from, to]) => id >= from && id <= to)) return { kind: 'date' }
  return id === 9 || id === 10 ? { kind: 'percent' } : { kind: 'plain' }
}

export function readNumberFormat(code: string): NumberFormat {
  const positive = firstSection(code)
  // A colour or condition in brackets says nothing of what it is; hours and the like counted on beyond a day do.
  const shown = positive.replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/giu, '')
  const bare = shown.replace(/"[^"]*"|\\.|_.|\*./gu, '')
  if (/^general$/iu.test(bare.trim())) return { kind: 'plain' }
  if (/[ymdhs]/iu.test(bare.replace(/e[+-]/giu, ''))) return { kind: 'date' }
  if (bare.includes('%')) return { kind: 'percent' }
  return figuresOf(shown) ?? { kind: 'plain' }
}

/** A format has up to four sections, for positive, negative, zero and text, parted by semicolons outside quotes. */
const firstSection = (code: string): string => /^(?:"[^"]*"|\\.|[^;"])*/u.exec(code)?.[0] ?? code

function figuresOf(shown: string): NumberFormat | null {
  const tokens = shown.match(/"[^"]*"|\\.|0|#|./gu) ?? []
  const pattern = tokens.map((token) =>
    token === '0' ? '0' : token === '#' ? '#' : token.startsWith('"') ? token.slice(1, -1) : token.replace(/^\\(?=.)/u, ''),
  )
  const isFigure = (token: string | undefined) => token === '0' || token === '#'
  if (tokens.some((token) => !isFigure(token) && !/^(?:"[^"]*"|\\.|[- ()/])$/u.test(token))) return null
  // A # and a 0 alone is an ordinary number.
  const zeros = tokens.filter((token) => token === '0').length
  return zeros >= 2 || (zeros >= 1 && tokens.some((token) => !isFigure(token))) ? { kind: 'figures', pattern } : null
}

/** A whole number by its pattern: figures fill it from the right, and what they do not reach is zeros. */
export function formatFigures(value: number, pattern: readonly string[]): string {
  const figures = [...String(Math.abs(value))]
  const places = pattern.filter((token) => token === '0' || token === '#').length
  let left = places
  let text = ''
  for (const token of pattern) {
    if (token !== '0' && token !== '#') {
      text += token
      continue
    }
    // Figures beyond the pattern's places all stand at its first.
    if (left === places && figures.length > places) text += figures.splice(0, figures.length - places).join('')
    if (figures.length >= left) text += figures.shift() ?? ''
    else if (token === '0') text += '0'
    left--
  }
  return value < 0 ? `-${text}` : text
}

const dayMs = 86_400_000

/**
 * The day of a workbook's date number as YYYY-MM-DD; a number below one is a time of day, as HH:MM.
 *
 * Counted from 1900 a workbook has a 29 February 1900 that never was (ECMA-376, part 1, 18.17.4.1): numbers from 61 on are counted from
 * 30 December 1899, smaller ones from the day after.
 *
 * @returns null beyond the years 1 to 9999.
 */
export function dayOfSerial(serial: number, countsFrom1904: boolean): string | null {
  if (serial >= 0 && serial < 1 && !countsFrom1904) {
    const minutes = Math.round(serial * 24 * 60)
    return `${String(Math.floor(minutes / 60) % 24).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
  }
  const first = countsFrom1904 ? Date.UTC(1904, 0, 1) : Date.UTC(1899, 11, serial < 60 ? 31 : 30)
  // Half a second for what a double loses of a time of day, so that midnight does not fall on the day before.
  const day = new Date(first + Math.floor(serial + 0.5 / 86_400) * dayMs)
  const year = day.getUTCFullYear()
  return Number.isNaN(year) || year < 1 || year > 9_999 ? null : day.toISOString().slice(0, 10)
}
