export type SheetColumn = {
  head: string
  /** In letters. */
  width: number
  /** `money` has the currency's two places; `day` is YYYY-MM-DD here and a date in the spreadsheet. */
  kind: 'text' | 'whole' | 'decimal' | 'money' | 'day'
}

/** A sheet for people: what stands in its cells, and as what. */
export type Sheet = {
  title: string
  columns: readonly SheetColumn[]
  rows: readonly (readonly (string | number | null)[])[]
}

type Column<Row> = SheetColumn & { of: (row: Row) => string | number | null }

export function sheetFrom<Row>(title: string, columns: readonly Column<Row>[], rows: readonly Row[]): Sheet {
  return {
    title,
    columns: columns.map(({ head, width, kind }) => ({ head, width, kind })),
    rows: rows.map((row) => columns.map(({ of }) => of(row))),
  }
}

/** The column of a sheet that holds text: codes too, so that no zero is lost. */
export const textColumn = <Row>(head: string, width: number, of: (row: Row) => string | null): Column<Row> => ({
  ...{ head, width, kind: 'text', of },
})

export const numberColumn = <Row>(
  head: string,
  kind: 'whole' | 'decimal' | 'money',
  of: (row: Row) => number | null,
): Column<Row> => ({ head, width: Math.max(9, head.length + 2), kind, of })

export const dayColumn = <Row>(head: string, of: (row: Row) => string | null): Column<Row> => ({
  head,
  width: 12,
  kind: 'day',
  of,
})
