import { readFileSync } from 'node:fs'
import Holidays from 'date-holidays'
import { describe, expect, it } from 'vitest'
import { easterSunday } from '#lib/planning/days/easter'
import { type Country, countryCodes, feastDay, listOccasions } from '#lib/planning/days/occasions'
import easter from './data/easter.json'

// Sources. data/easter.json: Western Easter 2000–2050 by the reckoning of Nature 13 (1876), checked against the published table OEIS
// A060958. data/season-dates.csv: Easter, Good Friday, Whit Sunday, Advent Sunday and US Thanksgiving 1990–2066; Easter from that table
// and from the one in the tests of the Python library dateutil; Advent is the Sunday nearest 30 November (General Norms for the
// Liturgical Year, 40), Thanksgiving the fourth Thursday of November (5 U.S.C. 6103). npm date-holidays (data CC BY-SA 3.0): the
// customary days of each country.

const years = Array.from({ length: 51 }, (_, at) => 2000 + at)

describe('the published tables', () => {
  it('has every Easter of 2000 to 2050', () => {
    expect(easter.dates).toHaveLength(51)
    expect(years.map(easterSunday)).toEqual(easter.dates)
  })

  it('has Easter, Good Friday, Whit Sunday, Advent Sunday and Thanksgiving of 1990 to 2066', () => {
    const [, ...rows] = readFileSync(new URL('./data/season-dates.csv', import.meta.url), 'utf8')
      .trim()
      .split('\n')
    expect(rows).toHaveLength(77)
    for (const row of rows) {
      const [year, ...days] = row.split(',')
      const ours = (['easter', 'good-friday', 'whit-sunday', 'advent'] as const).map((key) => feastDay(key, 'GB', Number(year)))
      expect([...ours, feastDay('thanksgiving', 'US', Number(year))], year).toEqual(days.slice(0, 5))
    }
  })
})

// How the library calls each feast, in English. A country's list of it says which days it knows at all.
const called: Record<string, RegExp> = {
  ...{
    'new-year': /^New Year's Day$/,
    epiphany: /^Epiphany$/,
    valentine: /^Valentine's Day$/,
    'st-patrick': /^St\. Patrick.s Day$/,
  },
  ...{ 'mothers-day': /^Mother's Day$/, 'good-friday': /^Good Friday$/, easter: /^Easter Sunday$/, ascension: /^Ascension Day$/ },
  ...{
    'whit-sunday': /^Pentecost$/,
    'fathers-day': /^Father's Day$/,
    midsummer: /^Midsummer Day$/,
    'canada-day': /^Canada Day$/,
  },
  ...{ 'independence-day': /^Independence Day$/, thanksgiving: /^Thanksgiving(?: Day)?$/, halloween: /^Halloween$/ },
  ...{
    'all-saints': /^All Saints' Day$/,
    martinmas: /^Saint Martin(?:'s Day)?$/,
    advent: /^(?:1\. Advent|First Sunday of Advent)$/,
  },
  ...{ 'st-nicholas': /^(?:Saint Nicholas|St Nicholas' Eve)$/, 'christmas-eve': /^Christmas Eve$/, christmas: /^Christmas Day$/ },
  ...{ 'new-years-eve': /^New Year's Eve$/ },
}

// Where the library says otherwise and these keep to their own. Halloween is its 31st of October in Sweden too, not the Friday before All
// Saints. French Mother's Day gives way to Whit Sunday by law, as it did in 2020 and 2023; the library leaves that out.
const differs = new Set(['SE halloween'])
const whitYears = [2004, 2007, 2009, 2012, 2020, 2023, 2034, 2039, 2042, 2045, 2050]

describe('the customary days of each country, 2000 to 2050, as npm date-holidays has them', () => {
  const held = new Map<string, number>()
  it.each(countryCodes)('%s', (country: Country) => {
    const library = new Holidays(country, { languages: 'en' })
    const wrong: string[] = []
    for (const year of years) {
      const known = library.getHolidays(year, 'en')
      for (const { key } of listOccasions({ country, own: [] })) {
        const theirs = known.filter(({ name, substitute }) => !substitute && called[key]?.test(name))
        if (theirs.length === 0 || differs.has(`${country} ${key}`)) continue
        held.set(`${country} ${key}`, (held.get(`${country} ${key}`) ?? 0) + 1)
        const ours = feastDay(key, country, year)
        if (!theirs.some(({ date }) => date.slice(0, 10) === ours))
          wrong.push(`${key} ${ours}, not ${theirs[0]?.date.slice(0, 10)}`)
      }
    }
    const given = country === 'FR' ? whitYears.map((year) => expect.stringContaining(`mothers-day ${year}-06-`)) : []
    expect(wrong).toEqual(given)
  })

  it('holds enough of them to mean something', () => {
    // Every country's Mother's Day but that of New Zealand, which the library does not know.
    expect(countryCodes.filter((country) => !held.has(`${country} mothers-day`))).toEqual(['NZ'])
    expect(held.size).toBeGreaterThan(150)
  })
})
