import { describe, expect, it } from 'vitest'
import { toCsv, unescapeCell } from '#lib/importing/escape-csv'
import { readTable } from '#lib/importing/read-table'

describe('toCsv', () => {
  it('ends each row with CRLF, and quotes what needs it', () => {
    expect(
      toCsv([
        ['Maker', 'Note'],
        ['Larkholm', 'a "b", c'],
        [null, ''],
      ]),
    ).toBe('Maker,Note\r\nLarkholm,"a ""b"", c"\r\n,\r\n')
  })

  it('leaves numbers as they are, negative ones too, also when they come as text', () => {
    expect(toCsv([[-5, -0.5, '-5', '+3', '-1,5', '0017']])).toBe('-5,-0.5,-5,+3,"-1,5",0017\r\n')
  })

  it('refuses what is no number', () => {
    expect(() => toCsv([[Number.NaN]])).toThrow('toCsv: NaN')
  })

  it('writes texts that come back as they were, whatever they begin with', () => {
    const texts = ['=1+1', "'=1+1", "''=x", "'quoted'", '-x', '@a', '+', ' =1', '\t=1', 'plain', "'", 'a\r\nb']
    const table = readTable(toCsv([texts.map((_, index) => `Head ${index}`), texts]), { separator: ',', headerRowNumber: 1 })
    expect(table.ok && table.value.rows[0]?.cells.map(unescapeCell)).toEqual(texts)
  })
})
