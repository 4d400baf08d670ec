import { describe, expect, it } from 'vitest'
import { readTable } from '#lib/importing/read-table'

function read(text: string, separator = ',', headerRowNumber?: number) {
  const table = readTable(text, headerRowNumber === undefined ? { separator } : { separator, headerRowNumber })
  if (!table.ok) throw new Error(table.error.kind)
  return table.value
}
const cells = (text: string, separator = ',') => read(text, separator).rows.map((row) => row.cells)

describe('readTable', () => {
  it('numbers rows as a spreadsheet does, blank rows and line ends inside cells included', () => {
    const { rows, headerRowNumber } = read('Maker,Code\nLarkholm,"00\n17"\n\n,\nLarkholm,0018\n')
    expect(headerRowNumber).toBe(1)
    expect(rows.map((row) => row.rowNumber)).toEqual([2, 5])
  })

  it('reads any line end, also when a file mixes them', () => {
    expect(cells('Maker,Code\r\nA,1\nB,2\rC,3')).toEqual([
      ['A', '1'],
      ['B', '2'],
      ['C', '3'],
    ])
  })

  it('fills up short rows, and refuses a row with something beyond the last header', () => {
    const table = read('Maker,Code,Name\nLarkholm,0017\nLarkholm,0018,Rust, dark\nLarkholm,0019,Moss,,\n')
    expect(table.rows.map((row) => row.cells)).toEqual([
      ['Larkholm', '0017', ''],
      ['Larkholm', '0019', 'Moss'],
    ])
    expect(table.problems).toEqual([
      { kind: 'more-cells-than-headers', rowNumber: 3, raw: 'Larkholm,0018,Rust, dark', cells: 4, headers: 3 },
    ])
  })

  it('loses no other row to a quote that is never closed', () => {
    const table = read('Maker,Code,Name\nLarkholm,0017,"Rust\nLarkholm,0018,Moss\nLarkholm,0019,"Fog"\n')
    expect(table.rows.map((row) => row.cells[1])).toEqual(['0018', '0019'])
    expect(table.problems).toEqual([{ kind: 'stray-quote', rowNumber: 2, raw: 'Larkholm,0017,"Rust' }])
    expect(read('Maker,Code\nLarkholm,"17\nLarkholm,18\n').problems).toEqual([
      { kind: 'unclosed-quote', rowNumber: 2, raw: 'Larkholm,"17' },
    ])
  })

  it('keeps inch marks in a cell that is not quoted', () => {
    expect(cells('Cloth,Size\nLinen,18" x 27"\n')).toEqual([['Linen', '18" x 27"']])
  })

  it('passes over title lines above the headers', () => {
    const table = read('The stash of Hanne Drewitt\n\nas of spring,,\nMaker,Code,Skeins\nLarkholm,0017,2\n')
    expect(table.headers).toEqual(['Maker', 'Code', 'Skeins'])
    expect(table.headerRowNumber).toBe(4)
    expect(table.rows).toEqual([{ rowNumber: 5, cells: ['Larkholm', '0017', '2'] }])
  })

  it('finds headers none of whose words it knows', () => {
    expect(read('Wozzle\nPlum,Grue,Fnord\n1,2,3\n4,5,6\n').headers).toEqual(['Plum', 'Grue', 'Fnord'])
  })

  it('takes the row it is told to for the headers', () => {
    expect(read('Maker,Code\nBrand,Number\nLarkholm,0017\n', ',', 2).headers).toEqual(['Brand', 'Number'])
  })

  it('numbers headers that repeat and names those that are blank', () => {
    expect(read('Colour,Colour,,Colour (2),Code\na,b,c,d,e\n').headers).toEqual([
      'Colour',
      'Colour (3)',
      'Column 3',
      'Colour (2)',
      'Code',
    ])
    expect(read('Maker,Code,,\nLarkholm,0017,,\n').headers).toEqual(['Maker', 'Code'])
  })

  it('refuses a cell of a novel, a file of headers alone, and too many rows', () => {
    expect(read(`Maker,Code\nLarkholm,${'x'.repeat(10_001)}\nLarkholm,1\n`).problems).toMatchObject([
      { kind: 'cell-too-long', rowNumber: 2 },
    ])
    expect(readTable('Maker,Code\n', { separator: ',' })).toEqual({ ok: false, error: { kind: 'no-rows' } })
    const long = `Maker,Code\n${'a,b\n'.repeat(200_001)}`
    expect(readTable(long, { separator: ',' })).toEqual({ ok: false, error: { kind: 'too-many-rows', mostRows: 200_000 } })
  })

  it('reads 20,000 rows, also when a quote stands open in each', () => {
    const rows = Array.from({ length: 20_000 }, (_, index) => `Larkholm,"${index}",Rust,"2`)
    const table = read(`Maker,Code,Name,Skeins\n${rows.join('\n')}\n`)
    expect(table.problems.length + table.rows.length).toBe(20_000)
  })
})
