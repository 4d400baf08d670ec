import type { ImportListed, ImportPreview, ImportRefused } from '#lib/db/importing/import-service'
import type { Mapping } from '#lib/importing/mapping'
import { cellName, leastCellNumber } from '#lib/importing/row-names'
import { describeImportRefusal } from '../bring-in/refusal-words'
import { describeFault } from '../bring-in/row-words'
import { describeWarning } from '../bring-in/warning-words'
import { fieldLabel } from '../bring-in/words'
import { notFound, Problem, type ProblemError } from './problem'

export const describeImport = (row: ImportListed) => ({
  importId: row.id,
  kind: row.kind,
  fileName: row.fileName,
  at: row.at.toISOString(),
  status: row.status,
  counts: { added: row.addedCount, changed: row.changedCount, same: row.sameCount, refused: row.refusedCount },
})

/** Of a sheet whose cells are drawers a row number stands for a cell. */
const atCell = (
  { rowNumber, column }: { rowNumber: number; column: string | null },
  { found: { layout } }: Pick<ImportPreview, 'found'>,
): Pick<ProblemError, 'row' | 'column'> => {
  if (layout !== 'rows' && rowNumber >= leastCellNumber) {
    const [, letters, row] = /^([A-Z]+)(\d+)$/.exec(cellName(rowNumber)) ?? []
    return { row: Number(row), ...(letters !== undefined && { column: letters }) }
  }
  return rowAndColumn(rowNumber, column)
}

const rowAndColumn = (rowNumber: number, column: string | null): Pick<ProblemError, 'row' | 'column'> => ({
  row: rowNumber,
  ...(column !== null && { column }),
})

const accepted = (words: string[] | undefined) => (words && words.length > 0 ? { accepted: words.join(', ') } : {})

export const describeErrors = (preview: Pick<ImportPreview, 'errors' | 'kind' | 'found'>): ProblemError[] =>
  preview.errors.map((error) => ({
    ...atCell(error, preview),
    message: describeFault(error, preview.kind),
    ...accepted(error.accepted),
  }))

export const describeWarnings = (preview: Pick<ImportPreview, 'warnings' | 'kind' | 'found'>): ProblemError[] =>
  preview.warnings.map((warning) => ({
    ...atCell(warning, preview),
    message: describeWarning(warning, preview.kind),
    ...accepted(warning.accepted),
  }))

export const describeMapping = (mapping: Mapping, headers: readonly string[]) =>
  Object.entries(mapping.columns).flatMap(([field, column]) =>
    column === null ? [] : [{ field: fieldLabel(mapping.kind, field), column: headers[column] ?? '' }],
  )

/** Why a file was not brought in or taken back, in words. */
export function describeImportProblem(refusal: ImportRefused): Problem {
  const detail = describeImportRefusal(refusal)
  switch (refusal.kind) {
    case 'no-such-import':
      return notFound('import', refusal.importId)
    case 'too-large':
    case 'workbook-swells':
    case 'workbook-too-many':
      return new Problem('too-large', detail)
    case 'looks-like-xlsx':
    case 'binary':
    case 'workbook-broken':
    case 'workbook-declares-entities':
      return new Problem('unsupported-media-type', detail)
    case 'already-undone':
    case 'too-big-a-change':
    case 'no-such-file':
      return new Problem('refused', detail)
    case 'no-such-sheet':
      return new Problem('invalid', detail, {
        errors: [{ parameter: 'sheet', message: 'There is no such sheet.', accepted: refusal.sheets.join(', ') }],
      })
    case 'unknown-kind':
      return new Problem('invalid', detail, {
        errors: [{ parameter: 'kind', message: 'The headings do not say it.', accepted: 'the kind of the rows' }],
      })
    case 'mapping-incomplete':
      return new Problem('invalid', detail, {
        errors: refusal.missing.map((field) => ({ field: '/mapping', column: field, message: 'No column is read as this.' })),
      })
    case 'header-row-broken':
      return new Problem('invalid', detail, { errors: [{ row: refusal.rowNumber, message: detail }] })
    case 'empty':
    case 'no-rows':
    case 'workbook-blank':
    case 'too-many-rows':
    case 'too-many-columns':
      return new Problem('invalid', detail)
  }
}
