/** A row of a sample file by canonical column name; a column left out is an empty cell. */
export type SampleRow<Column extends string> = Partial<Record<Column, string | number>>

const cellText = (value: string | number | undefined): string => {
  const text = value === undefined ? '' : String(value)
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}

/** Comma-separated text (RFC 4180 quoting, line feeds, UTF-8 without a mark), one header row first. */
export function csvText<Column extends string>(columns: readonly Column[], rows: readonly SampleRow<Column>[]): string {
  return [columns.join(','), ...rows.map((row) => columns.map((column) => cellText(row[column])).join(','))]
    .join('\n')
    .concat('\n')
}
