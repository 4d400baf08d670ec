import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readKey } from '#lib/chart/key-text/read-key'
import { splitText } from '#lib/chart/key-text/split-text'
import { vocabularyOf } from '#lib/chart/key-text/vocabulary'

const known = vocabularyOf([
  { id: 'a', maker: 'Larkholm', threadLine: 'Stranded Cotton', code: '0311', name: 'Pine' },
  { id: 'b', maker: 'Oddny Loft', threadLine: 'Hand-dyed Cotton', code: 'Tarn Blue', name: null },
])
const pieces = [
  '0311',
  'Larkholm',
  'Pine',
  '●',
  '2 strands',
  '1,240 st',
  '\t',
  '  ',
  '|',
  '+',
  '(',
  ')',
  ',',
  '½',
  '2–3 skeins',
  'Symbol',
  'Backstitch',
  ':',
  '140 x 98',
  '28 count',
  '\n',
  '\n',
  'Tarn Blue',
  '"',
  'over two',
  ';',
  '–',
  '\u0000',
  '1/2',
  'x2',
]
const text = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 400 }),
  fc.array(fc.constantFrom(...pieces), { maxLength: 120 }).map((parts) => parts.join(' ')),
  fc.array(fc.constantFrom(...pieces), { maxLength: 120 }).map((parts) => parts.join('')),
)
const settings = { seed: 20_261_130, numRuns: 400 }

describe('any text at all', () => {
  it('ends in a reading whose confidences are shares and whose lines are there, each in one place at most', () => {
    fc.assert(
      fc.property(text, (given) => {
        const lines = splitText(given)
        const reading = readKey(lines, known)
        const sources = reading.designs.flatMap(({ lists }) => lists.flatMap((list) => list.lines.flatMap(({ from }) => from)))
        for (const at of [...sources, ...reading.unread]) expect(at >= 0 && at < lines.length).toBe(true)
        expect(new Set(reading.unread).size).toBe(reading.unread.length)
        const read = new Set(sources)
        for (const at of reading.unread) expect(read.has(at)).toBe(false)
        JSON.stringify(reading, (key, value) => {
          if (key === 'confidence') expect(value >= 0 && value <= 1).toBe(true)
          return value
        })
        expect(readKey(lines, known)).toEqual(reading)
      }),
      settings,
    )
  })

  it('goes through a megabyte in one line', () => {
    const lines = splitText('0311 Pine ½ '.repeat(90_000))
    expect(readKey(lines, known).unread).toEqual([0])
  })
})
