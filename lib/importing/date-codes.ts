const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']
const monthsElsewhere: Record<string, string> = { mai: 'may', juin: 'jun', juil: 'jul', okt: 'oct', dez: 'dec', mrz: 'mar' }

/**
 * What a day may have been before a spreadsheet made a day of it: 3 December is what becomes of `3-12` where the day comes first, and of
 * `12-3` where the month does; a first of the month also of a month and a year, as `12-99`.
 *
 * @param text  the day as a spreadsheet shows or keeps it: 2026-12-03, 03-Dec, Dec-99, 3/12/2026
 * @returns     empty when it is no day; the likeliest first.
 */
export function likelyCodes(text: string): string[] {
  const iso = /^(\d{4})-(\d{2})-(\d{2})/.exec(text)
  if (iso) return fromDay(Number(iso[3]), Number(iso[2]), Number(iso[1]))
  const figures = /^(\d{1,2})[./-](\d{1,2})[./-](\d{4}|\d{2})$/.exec(text)
  if (figures) return fromDay(Number(figures[1]), Number(figures[2]), Number(figures[3]))
  const dayFirst = /^(\d{1,2})[-./ ](\p{L}{3,4})\p{L}*\.?(?:[-./ ]\d{2,4})?$/u.exec(text)
  if (dayFirst) {
    const month = monthOf(dayFirst[2] as string)
    return month === 0 ? [] : fromDay(Number(dayFirst[1]), month, 0)
  }
  const monthFirst = /^(\p{L}{3,4})\p{L}*\.?[-./ ](\d{1,4})$/u.exec(text)
  const month = monthFirst === null ? 0 : monthOf(monthFirst[1] as string)
  return month === 0
    ? []
    : [
        `${month}-${Number((monthFirst as RegExpExecArray)[2]) % 100}`,
        `${Number((monthFirst as RegExpExecArray)[2]) % 100}-${month}`,
      ]
}

function fromDay(day: number, month: number, year: number): string[] {
  const codes = [`${day}-${month}`, `${month}-${day}`]
  if (day === 1 && year > 0) codes.unshift(`${month}-${String(year % 100).padStart(2, '0')}`)
  return [...new Set(codes)]
}

function monthOf(word: string): number {
  const short = word.toLowerCase()
  return months.indexOf(monthsElsewhere[short] ?? short.slice(0, 3)) + 1
}
