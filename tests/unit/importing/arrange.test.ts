import { describe, expect, it } from 'vitest'
import { arrangeSheet } from '#lib/importing/arrange'
import type { HeaderChoice } from '#lib/importing/header-row'
import { readHeld, splitHeld } from '#lib/importing/held-in-cell'
import type { LayoutChoice } from '#lib/importing/layouts'
import { cellName, cellNumber, columnLetters, mostRowsInCells } from '#lib/importing/row-names'
import type { CellMark, Merge, Sheet } from '#lib/importing/sheet'
import { finish } from '#lib/importing/steps'

const sheetOf = (text: string, more: { merges?: Merge[]; marks?: CellMark[] } = {}): Sheet => ({
  rows: text.split('\n').flatMap((line, at) => {
    const cells = line.split('|').map((cell) => cell.trim())
    return cells.every((cell) => cell === '') ? [] : [{ rowNumber: at + 1, cells, fault: null, raw: null }]
  }),
  merges: [],
  marks: [],
  ...more,
})

function arranged(text: string, choice: HeaderChoice & LayoutChoice = {}, more: { merges?: Merge[]; marks?: CellMark[] } = {}) {
  const table = finish(arrangeSheet(sheetOf(text, more), choice))
  if (!table.ok) throw new Error(table.error.kind)
  return table.value
}
const rowsOf = (text: string, choice: HeaderChoice & LayoutChoice = {}, more = {}) =>
  arranged(text, choice, more).rows.map(({ cells }) => cells.join(' / '))

describe('headers', () => {
  it('are found below titles and blank rows', () => {
    const table = arranged('Nell’s stash\nas of March\n\nMaker|Code|Skeins\nLarkholm|0017|2')
    expect(table).toMatchObject({ headerRowNumber: 4, headerRows: 1, headers: ['Maker', 'Code', 'Skeins'], layout: 'rows' })
  })

  it('in two rows are read together: units, and words under a joined one', () => {
    expect(arranged('Cloth|Count|Width|Height\n||cm|cm\nLinen|28|45|70').headers).toEqual([
      'Cloth',
      'Count',
      'Width (cm)',
      'Height (cm)',
    ])
    const size = 'Cloth|Count|Size||Colour\n||Width|Height|\nLinen|28|18 in|27 in|Fog'
    expect(arranged(size)).toMatchObject({
      headers: ['Cloth', 'Count', 'Width', 'Height', 'Colour'],
      headerRows: 2,
      headerRowNumber: 1,
    })
    expect(rowsOf(size)).toEqual(['Linen / 28 / 18 in / 27 in / Fog'])
  })

  it('are not joined with a row of things under them', () => {
    expect(arranged('Maker|Line|Code\nLarkholm|Stranded|0017\nLarkholm|Stranded|0018')).toMatchObject({ headerRows: 1 })
    expect(arranged('Label|Kind\nBox|box\nBag|bag')).toMatchObject({ headerRows: 1 })
  })

  it('stand where a person says', () => {
    const text = 'Maker|Code\nTessaly|B7\nName|No\nLarkholm|0017'
    expect(arranged(text, { headerRowNumber: 3 })).toMatchObject({
      headers: ['Name', 'No'],
      rows: [{ cells: ['Larkholm', '0017'] }],
    })
    expect(arranged(text, { headerRowNumber: 1, headerRows: 2 }).headers).toEqual(['Maker Tessaly', 'Code B7'])
    expect(arranged(text, { headerRowNumber: 1, headerRows: 1 }).rows).toHaveLength(3)
  })
})

describe('rows', () => {
  it('of totals and repeated headers are passed over, and said', () => {
    const table = arranged(
      'Maker|Code|Skeins\nLarkholm|0017|2\nMaker|Code|Skeins\nLarkholm|0018|3\nTotal||5\nTotal|0019|\nGrand total:||5',
    )
    expect(table.rows.map(({ rowNumber }) => rowNumber)).toEqual([2, 4])
    expect(table.warnings.map(({ kind, rowNumber }) => [kind, rowNumber])).toEqual([
      ['headers-again', 3],
      ['totals-row', 5],
      ['totals-row', 6],
      ['totals-row', 7],
    ])
  })

  it('are told from totals by any other word in them', () => {
    expect(rowsOf('Chart|Designer|Copies\nTotal|Tilda Quennell|1\nSum of Parts||2')).toHaveLength(2)
  })

  it('take what a joined cell says, down and not across', () => {
    const merges = [
      { top: 2, left: 0, bottom: 4, right: 0 },
      { top: 2, left: 1, bottom: 2, right: 2 },
    ]
    const text = 'Drawer|Maker|Code|Skeins\nT1|Larkholm||2\n|Larkholm|0018|1\n|Larkholm|0019|1\n|Larkholm|0020|1'
    const table = arranged(text, {}, { merges })
    expect(table.rows.map(({ cells }) => cells[0])).toEqual(['T1', 'T1', 'T1', ''])
    expect(table.rows[0]?.cells[2]).toBe('')
    expect(table.warnings).toMatchObject([{ kind: 'merged-cells-filled', count: 2 }])
  })
})

describe('a sheet of drawers', () => {
  it('with a column for each becomes a row for each thread', () => {
    const text = 'T2.1|T2.2|T2.3\n0311 (2)|0742|0905 x3\n0312||0906\n0313 Pine|0743; 0744|Ecru'
    expect(arranged(text)).toMatchObject({ layout: 'drawer-columns', headers: ['Place', 'Code', 'Name', 'Skeins'] })
    expect(rowsOf(text)).toEqual([
      'T2.1 / 0311 /  / 2',
      'T2.2 / 0742 /  / ',
      'T2.3 / 0905 /  / 3',
      'T2.1 / 0312 /  / ',
      'T2.3 / 0906 /  / ',
      'T2.1 / 0313 / Pine / ',
      'T2.2 / 0743 /  / ',
      'T2.2 / 0744 /  / ',
      'T2.3 / Ecru /  / ',
    ])
  })

  it('with a row for each, with or without a heading over the labels', () => {
    const rows = 'T1|0311|0312 (2)\nT2|0742\nT3|0905|0906'
    const read = ['T1 / 0311 /  / ', 'T1 / 0312 /  / 2', 'T2 / 0742 /  / ', 'T3 / 0905 /  / ', 'T3 / 0906 /  / ']
    expect(arranged(rows).layout).toBe('drawer-rows')
    expect(rowsOf(rows)).toEqual(read)
    expect(rowsOf(`Drawer|holds|\n${rows}`, { layout: 'drawer-rows' })).toEqual(read)
  })

  it('with a drawer in each cell is labelled by row and column', () => {
    const text = '|1|2|3\nA|0311|0312|0313\nB|0742||0743'
    expect(arranged(text).layout).toBe('drawer-grid')
    expect(rowsOf(text)).toEqual(['A1 / 0311 /  / ', 'A2 / 0312 /  / ', 'A3 / 0313 /  / ', 'B1 / 0742 /  / ', 'B3 / 0743 /  / '])
    expect(rowsOf('|14|15\nT2|0311|0312', { layout: 'drawer-grid' })[0]).toMatch(/^T2-14 /)
  })

  it('is only one where nothing reads like headers and the cells like codes', () => {
    expect(arranged('Maker|Code\nLarkholm|0017\nLarkholm|0018').layout).toBe('rows')
    expect(arranged('Journey|Miles\nTarnbeck to Oxmarsh|14\nOxmarsh to Tarnbeck|15').layout).toBe('rows')
    expect(arranged('T1|T2\nblue ones|red ones\ngreens|greys').layout).toBe('rows')
  })

  it('keeps where each thread stood, and the note on its cell', () => {
    const { rows } = arranged(
      'T1|T2\n0311|0742\n0312|0743',
      {},
      { marks: [{ rowNumber: 3, column: 1, kind: 'note', text: 'lot 18' }] },
    )
    expect(rows.map(({ rowNumber }) => cellName(rowNumber))).toEqual(['A2', 'B2', 'A3', 'B3'])
    expect(rows[3]?.marks).toMatchObject([{ kind: 'note', text: 'lot 18' }])
  })
})

describe('what a cell of a drawer says', () => {
  it.each([
    ['0311', '0311', '', ''],
    ['0311 (2)', '0311', '', '2'],
    ['0311 (½)', '0311', '', '½'],
    ['0311×2', '0311', '', '2'],
    ['0311 Larkholm Pine x 2', '0311', 'Larkholm Pine', '2'],
    ['2 x 0311', '0311', '', '2'],
    ['0311: 2', '0311', '', '2'],
    ['0311 (1,5)', '0311', '', '1,5'],
    ['0311 (Pine)', '0311', 'Pine', ''],
    ['Ecru', 'Ecru', '', ''],
    ['Old Rose (2 skeins)', 'Old Rose', '', '2'],
  ])('%s', (text, code, name, skeins) => {
    expect(readHeld(text)).toEqual({ code, name, skeins })
  })

  it('is parted into threads', () => {
    expect(splitHeld('0311, 0312;0313\n0314 / 0315')).toEqual(['0311', '0312', '0313', '0314', '0315'])
    expect(splitHeld('0311 (1,500)')).toEqual(['0311 (1,500)'])
    expect(splitHeld('0311 (1,5)')).toEqual(['0311 (1,5)'])
  })
})

it('names cells as a spreadsheet does, and keeps every number within what the database holds', () => {
  expect([0, 25, 26, 27, 51, 52, 499].map(columnLetters)).toEqual(['A', 'Z', 'AA', 'AB', 'AZ', 'BA', 'SF'])
  expect(cellName(cellNumber(7, 27, 3))).toBe('AB7')
  expect(cellNumber(mostRowsInCells, 499, 99)).toBeLessThan(2 ** 31)
})
