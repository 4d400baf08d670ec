import { checkChart } from './check-charts'
import { checkCloth } from './check-cloth'
import { checkListLine, listGroupOf, usualListName } from './check-lists'
import { checkPlace } from './check-places'
import { checkProject } from './check-projects'
import { checkThread } from './check-threads'
import type { CheckedRows, DraftOf } from './drafts'
import { type ImportKind, listFields } from './fields'
import type { Mapping } from './mapping'
import type { Table } from './read-table'
import type { RowError } from './row-error'
import { rowKeys } from './row-key'
import { RowReader } from './row-reader'

const checks: { [K in ImportKind]: (row: RowReader) => DraftOf[K] } = {
  places: checkPlace,
  threads: checkThread,
  cloth: checkCloth,
  charts: checkChart,
  lists: checkListLine,
  projects: checkProject,
}

/**
 * Read every row of a table as the mapping says: each becomes a draft or is refused with what is wrong in it, and rows that could not even
 * be read stand among the refused. One bad row keeps out no other.
 *
 * @throws {RangeError} if the mapping names a column the table does not have.
 */
export function checkRows(table: Table, mapping: Mapping): CheckedRows {
  return checkRowsOf(table, mapping, mapping.kind) as CheckedRows
}

function checkRowsOf<K extends ImportKind>(table: Table, mapping: Mapping, kind: K) {
  const columnOf = headersByField(table, mapping)
  const errors: RowError[] = table.problems.map(({ rowNumber, kind: problem, raw }) => ({
    rowNumber,
    field: null,
    column: null,
    kind: problem,
    raw,
  }))
  const refusedRows: { rowNumber: number; listGroup: string | null }[] = table.problems.map(({ rowNumber }) => ({
    rowNumber,
    listGroup: null,
  }))
  const warnings: RowReader['warnings'] = []
  if (kind === 'threads' && !columnOf.skeins && !columnOf.part) {
    warnings.push({ rowNumber: table.headerRowNumber, field: 'skeins', column: null, kind: 'amount-not-said', raw: '' })
  }
  const read: { rowNumber: number; draft: DraftOf[K] }[] = []
  for (const tableRow of table.rows) {
    const row = new RowReader(tableRow, mapping, table.headers)
    const draft = checks[kind](row)
    if (row.errors.length === 0) {
      warnings.push(...row.warnings)
      read.push({ rowNumber: tableRow.rowNumber, draft })
    } else {
      errors.push(...row.errors)
      refusedRows.push({ rowNumber: tableRow.rowNumber, listGroup: kind === 'lists' ? groupOfRefused(row) : null })
    }
  }
  const keys = rowKeys(
    kind,
    read.map((row) => row.draft),
  )
  const rows = read.map((row, index) => ({ ...row, rowKey: keys[index] as string }))
  errors.sort((left, right) => left.rowNumber - right.rowNumber)
  refusedRows.sort((left, right) => left.rowNumber - right.rowNumber)
  return { kind, rows, errors, warnings, refusedRows, columnOf }
}

function headersByField(table: Table, mapping: Mapping): Record<string, string> {
  const columnOf: Record<string, string> = {}
  for (const { name } of listFields(mapping.kind)) {
    const index = mapping.columns[name] ?? null
    if (index === null) continue
    const header = table.headers[index]
    if (header === undefined) throw new RangeError(`checkRows: no column ${index} for ${name}`)
    columnOf[name] = header
  }
  return columnOf
}

function groupOfRefused(row: RowReader): string | null {
  const chart = row.text('chart')
  return chart === null ? null : listGroupOf({ chart, design: row.text('design'), list: row.text('list') ?? usualListName })
}
