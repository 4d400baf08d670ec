import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { toCsv, unescapeCell } from '#lib/importing/escape-csv'

/** OWASP, "CSV Injection" (owasp.org/www-community/attacks/CSV_Injection): the leading characters and what to do about them. */
const { dangerousLeading, cases } = JSON.parse(readFileSync(new URL('./data/csv-injection.json', import.meta.url), 'utf8')) as {
  dangerousLeading: { char: string }[]
  cases: { value: string; dangerous: boolean }[]
}
/** The two escapes shown on that page (repository OWASP/www-community, commit 0e5e8f0, CC BY-SA 4.0). */
const shown = [
  { input: '=1+2";=1+2', escaped: `"'=1+2"";=1+2"` },
  { input: `=1+2'" ;,=1+2`, escaped: `"'=1+2'"" ;,=1+2"` },
]

describe('cells that a spreadsheet would run', () => {
  it('get an apostrophe in front, whichever sign they begin with', () => {
    for (const { char } of dangerousLeading) expect(toCsv([[`${char}SUM(1)`]])).toBe(`"'${char}SUM(1)"\r\n`)
  })

  it('are told from harmless ones', () => {
    for (const { value, dangerous } of cases) expect(toCsv([[value]]).startsWith(`"'`), value).toBe(dangerous)
  })

  it('are written as the page shows', () => {
    for (const { input, escaped } of shown) expect(toCsv([[input]])).toBe(`${escaped}\r\n`)
  })

  it('come back as they were', () => {
    for (const { value } of cases)
      expect(
        unescapeCell(
          toCsv([[value]])
            .slice(0, -2)
            .replace(/^"|"$/g, ''),
        ),
      ).toBe(value)
  })
})
