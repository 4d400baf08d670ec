import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { threadCells } from '#lib/archive/csv-cells'
import { toCsv, unescapeCell } from '#lib/importing/escape-csv'
import { listCsv } from '../../app/_lists/list-rows'

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

/** What a spreadsheet would take for a formula: a cell, quoted or not, that begins with one of the signs and is no plain number. */
const runs = (csv: string): string[] =>
  csv
    .split(/,|\r\n/)
    .map((cell) => cell.replace(/^"/, ''))
    .filter((cell) => dangerousLeading.some(({ char }) => cell.startsWith(char)) && !/^[+-]?\d+(?:[.,]\d+)?"?$/.test(cell))

describe('files that leave', () => {
  const planted = cases.map(({ value }) => value).filter((value) => !/[,"\r\n]/.test(value))

  it('have no cell that runs in a list to share, wherever its words come from', () => {
    for (const value of planted) {
      const row = {
        key: 'k',
        section: 'thread' as const,
        group: value,
        by: value,
        title: value,
        code: value,
        details: value,
        many: 1,
      }
      expect(runs(listCsv([{ ...row, place: value }], { withPlaces: true }))).toEqual([])
    }
  })

  it('have none in the sheets of an archive, and codes that are figures stay as they are', () => {
    const figures = ['0017', '-0087', '1E5']
    for (const value of [...planted, ...figures]) {
      const cells = threadCells({
        ...{ owner: value, maker: value, line: value, code: value, name: value, fibre: value, strands: 6, putUpTenths: 80_000 },
        ...{ putUpWord: value, dyeing: 'solid', lotsMatter: false, lot: value, wholePutUps: 1, part: { kind: 'none' } },
        ...{ place: value, nowAt: value, lab: null, minimum: null, note: value },
        standsInFor: [{ maker: value, line: value, code: value }],
      })
      const csv = toCsv([Object.values(cells)])
      expect([value, runs(csv)]).toEqual([value, []])
      if (figures.includes(value)) expect(csv.split(',')[3]).toBe(value)
    }
  })
})
