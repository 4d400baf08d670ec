import 'server-only'
import writeExcelFile, { type Row, type Sheet as Written } from 'write-excel-file/node'
import type { Sheet, SheetColumn } from '#lib/archive/sheet'

export type Workbook = Buffer

/** No spreadsheet keeps more in one cell. */
const longestText = 32_000
/** Letters that XML has no way to write. */
const unwritable = /(?![\t\n\r])\p{Cc}|[\ufffe\uffff]/gu

function cellOf({ kind }: SheetColumn, value: string | number | null): Row[number] {
  if (value === null || value === '') return null
  switch (kind) {
    case 'text':
      // Typed as text, so that 0017 keeps its zeros and =1+2 is four letters.
      return {
        value: String(value).replace(unwritable, '').slice(0, longestText),
        type: String,
        format: '@',
        alignVertical: 'top',
      }
    case 'whole':
      return { value: Number(value), type: Number, format: '#,##0', alignVertical: 'top' }
    case 'decimal':
      return { value: Number(value), type: Number, format: '#,##0.##', alignVertical: 'top' }
    case 'money':
      return { value: Number(value), type: Number, format: '#,##0.00', alignVertical: 'top' }
    case 'day':
      return { value: new Date(`${value}T00:00:00Z`), type: Date, format: 'yyyy-mm-dd', alignVertical: 'top' }
  }
}

/** Sheets as one XLSX: headings that stay in sight, columns as wide as they want to be, text as text and days as days. */
export function writeWorkbook(sheets: readonly Sheet[]): Promise<Workbook> {
  const written = sheets.map(({ title, columns, rows }): Written<never> => {
    const head: Row = columns.map(({ head: said, kind }) => ({
      ...{ value: said, type: String, fontWeight: 'bold', bottomBorderStyle: 'thin' },
      align: kind === 'text' || kind === 'day' ? 'left' : 'right',
    }))
    return {
      data: [head, ...rows.map((cells) => columns.map((column, at) => cellOf(column, cells[at] ?? null)))],
      ...{ sheet: title, columns: columns.map(({ width }) => ({ width })), stickyRowsCount: 1 },
    }
  })
  return writeExcelFile(written).toBuffer()
}
