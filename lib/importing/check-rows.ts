import { checkChart } from './check-charts'
import { checkCloth } from './check-cloth'
import { checkListLine, listGroupOf, usualListName } from './check-lists'
import { checkNotion } from './check-notions'
import { checkPlace } from './check-places'
import { checkProject } from './check-projects'
import { checkThread } from './check-threads'
import type { CheckedRows, DraftOf, DraftRow } from './drafts'
import { fieldsOf, type ImportKind, listFields } from './fields'
import type { Mapping } from './mapping'
import type { Table, TableWarning } from './read-table'
import type { RowError, RowWarning } from './row-error'
import { keyOfRow } from './row-key'
import { RowReader } from './row-reader'
import { finish, rowsAStep, type Steps } from './steps'

const checks: { [K in ImportKind]: (row: RowReader) => DraftOf[K] } = {
  places: checkPlace,
  threads: checkThread,
  cloth: checkCloth,
  charts: checkChart,
  lists: checkListLine,
  projects: checkProject,
  notions: checkNotion,
}

/**
 * Read every row of a table as the mapping says: each becomes a draft or is refused with what is wrong in it, and rows that could not even
 * be read stand among the refused. One bad row keeps out no other.
 *
 * @throws {RangeError} if the mapping names a column the table does not have.
 */
export const checkRows = (table: Table, mapping: Mapping): CheckedRows => finish(checkRowsInSteps(table, mapping))

/** `checkRows` in steps. */
export const checkRowsInSteps = (table: Table, mapping: Mapping): Steps<CheckedRows> =>
  checkRowsOf(table, mapping, mapping.kind) as Steps<CheckedRows>

function* checkRowsOf<K extends ImportKind>(table: Table, mapping: Mapping, kind: K) {
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
  const warnings: RowReader['warnings'] = [...table.warnings.map(warningOfTable), ...formulasTaken(table, columnOf)]
  if (kind === 'threads' && !columnOf.skeins && !columnOf.part) {
    warnings.push({ rowNumber: table.headerRowNumber, field: 'skeins', column: null, kind: 'amount-not-said', raw: '' })
  }
  const rows: DraftRow<K>[] = []
  const keepsNotes = 'note' in fieldsOf[kind]
  const turns = new Map<string, number>()
  let at = 0
  for (const tableRow of table.rows) {
    if (++at % rowsAStep === 0) yield
    const row = new RowReader(tableRow, mapping, table.headers)
    const draft = checks[kind](row)
    if (row.errors.length === 0) {
      if (tableRow.marks) row.warnOfMarks(keepsNotes)
      warnings.push(...row.warnings)
      rows.push({ rowNumber: tableRow.rowNumber, rowKey: keyOfRow(kind, draft, turns), draft })
    } else {
      errors.push(...row.errors)
      refusedRows.push({ rowNumber: tableRow.rowNumber, listGroup: kind === 'lists' ? groupOfRefused(row) : null })
    }
  }
  errors.sort((left, right) => left.rowNumber - right.rowNumber)
  refusedRows.sort((left, right) => left.rowNumber - right.rowNumber)
  return { kind, rows, errors, warnings, refusedRows, columnOf }
}

function warningOfTable({ kind, rowNumber, raw, count }: TableWarning): RowWarning {
  return { rowNumber, field: null, column: null, kind, raw, ...(count !== undefined && { accepted: [String(count)] }) }
}

/** Of each column that is read, how many of its cells a formula works out. */
function formulasTaken(table: Table, columnOf: Record<string, string>): RowWarning[] {
  const tally = new Map<number, { rowNumber: number; count: number }>()
  for (const { rowNumber, marks } of table.rows) {
    for (const mark of marks ?? []) {
      if (mark.kind !== 'formula') continue
      const known = tally.get(mark.column)
      if (known) known.count++
      else tally.set(mark.column, { rowNumber, count: 1 })
    }
  }
  return [...tally].flatMap(([column, { rowNumber, count }]): RowWarning[] => {
    const header = table.headers[column]
    const field = Object.keys(columnOf).find((name) => columnOf[name] === header)
    if (header === undefined || field === undefined) return []
    return [{ rowNumber, field, column: header, kind: 'formulas-taken', raw: '', accepted: [String(count)] }]
  })
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
