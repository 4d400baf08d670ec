import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readTable } from '#lib/importing/read-table'

/** RFC 4180 (Y. Shafranovich, October 2005), section 2; the file says which examples are from the text and which follow from its rules. */
type Example = { input: string; expected: string[][] }
const { examples, derived_cases } = JSON.parse(readFileSync(new URL('./data/csv-rfc4180.json', import.meta.url), 'utf8')) as {
  examples: (Example & { rule: number })[]
  derived_cases: (Example & { id: string })[]
}

/** A row of headers first, as any file brought in has one; a record of blank cells is passed over as a blank row. */
function readRecords(input: string, columns: number): string[][] {
  const headers = Array.from({ length: columns }, (_, index) => `Head ${index}`)
  const table = readTable(`${headers.join(',')}\r\n${input}`, { separator: ',', headerRowNumber: 1 })
  if (!table.ok) throw new Error(table.error.kind)
  expect(table.value.problems).toEqual([])
  return table.value.rows.map((row) => row.cells)
}

describe('RFC 4180, section 2', () => {
  for (const { rule, input, expected } of examples) {
    it(`reads the example of rule ${rule}`, () => {
      expect(readRecords(input, expected[0]?.length ?? 0)).toEqual(expected)
    })
  }
  for (const { id, input, expected } of derived_cases) {
    it(`reads what follows from the rules: ${id}`, () => {
      const filled = expected.filter((cells) => cells.some((cell) => cell !== ''))
      expect(readRecords(input, expected[0]?.length ?? 0)).toEqual(filled)
    })
  }
})
