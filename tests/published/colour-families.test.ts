// Colour families against published colour naming. The data are copied in data/:
// colour-iscc-nbs-centroids.csv: the 267 centroids of the ISCC–NBS names, K. L. Kelly and D. B. Judd, "Color: Universal Language and
//   Dictionary of Names", NBS Special Publication 440, 1976; names and hex from the list nbsIscc (CC0) of npm color-name-lists 3.33.2.
//   Many vivid centroids lie outside sRGB, so their hex is an approximation; headTerm is the last colour word of the name.
// colour-survey-english-averages.csv: the average of what people called red, orange and so on, Y. Kim, K. Thayer, G. Silva and J. Heer,
//   EuroVis 2019, from the file model/full_colors_info.csv of uwdata/color-naming-in-different-languages. Its Lab is under D50; the hex
//   is used here.
// colour-css-named.csv: the named colours of CSS Color Module Level 4, with the basic term a name ends in.
// colour-survey-basic-terms.csv: 566 colours of the survey of colour names by R. Munroe, 2010 (CC0), whose name ends in a basic term;
//   without the names. From npm color-name-lists 3.33.2.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { hexToLab } from '#lib/colour/convert'
import { familyOf } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'

type Row = Record<string, string>

function rowsOf(file: string): Row[] {
  const [head = '', ...lines] = readFileSync(new URL(`./data/${file}`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/)
  const names = head.split(',')
  return lines.map((line) => Object.fromEntries(line.split(',').map((cell, index) => [names[index] as string, cell])))
}

const familyOfRow = (row: Row) => familyOf(hexToLab(row.hex as string) as Lab)
const termOf = (term: string) => (term === 'violet' ? 'purple' : term)

/** The last colour word of the name, but for the two names whose colours lie on both sides of blue and green. */
const expectedOfCentroid = ({ name = '', headTerm = '' }: Row) =>
  /bluish green|greenish blue/i.test(name) ? 'blue-green' : termOf(headTerm)

describe('colour families', () => {
  it('agree with 264 of the 267 ISCC–NBS centroids', () => {
    const rows = rowsOf('colour-iscc-nbs-centroids.csv')
    expect(rows).toHaveLength(267)
    const others = rows.filter((row) => familyOfRow(row) !== expectedOfCentroid(row)).map(({ name }) => name?.toLowerCase())
    expect(others).toEqual(['strong olive green', 'vivid blue', 'very pale violet'])
  })

  it('agree with the average of every basic term, and with what people call some that are none', () => {
    const rows = rowsOf('colour-survey-english-averages.csv')
    const basic = rows.filter(({ isBasic11 }) => isBasic11 === '1')
    expect(basic).toHaveLength(12 - 1)
    for (const row of basic) expect([row.term, familyOfRow(row)]).toEqual([row.term, row.term])
    const others: Record<string, string> = {
      ...{ violet: 'purple', teal: 'blue-green', turquoise: 'blue-green', cyan: 'blue-green', navy: 'blue', maroon: 'red' },
      ...{ burgundy: 'red', olive: 'olive', tan: 'brown', beige: 'brown', gold: 'yellow', mustard: 'yellow', salmon: 'pink' },
      ...{ lavender: 'purple', lilac: 'purple', mint: 'green', lime: 'green', cream: 'yellow' },
    }
    for (const row of rows.filter(({ term = '' }) => term in others))
      expect([row.term, familyOfRow(row)]).toEqual([row.term, others[row.term as string]])
  })

  it('agree with 63 of the 80 web names that end in a basic term', () => {
    const rows = rowsOf('colour-css-named.csv').filter(({ headTerm }) => headTerm)
    expect(rows).toHaveLength(80)
    expect(rows.filter((row) => familyOfRow(row) === termOf(row.headTerm as string))).toHaveLength(63)
  })

  it('agree with 450 of 566 names of another survey, and with 468 where blue-green is a blue or a green', () => {
    const rows = rowsOf('colour-survey-basic-terms.csv')
    expect(rows).toHaveLength(566)
    const agree = rows.filter((row) => familyOfRow(row) === termOf(row.headTerm as string))
    expect(agree).toHaveLength(450)
    const between = rows.filter((row) => familyOfRow(row) === 'blue-green' && /^(?:blue|green)$/.test(row.headTerm as string))
    expect(agree.length + between.length).toBe(468)
  })
})
