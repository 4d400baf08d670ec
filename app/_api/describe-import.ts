import type { ImportListed, ImportPreview, ImportRefused } from '#lib/db/importing/import-service'
import type { Mapping } from '#lib/importing/mapping'
import { describeFault, describeImportRefusal, describeWarning, fieldLabel } from '../bring-in/words'
import { notFound, Problem, type ProblemError } from './problem'

export const describeImport = (row: ImportListed) => ({
  importId: row.id,
  kind: row.kind,
  fileName: row.fileName,
  at: row.at.toISOString(),
  status: row.status,
  counts: { added: row.addedCount, changed: row.changedCount, same: row.sameCount, refused: row.refusedCount },
})

const atCell = ({ rowNumber, column }: { rowNumber: number; column: string | null }): Pick<ProblemError, 'row' | 'column'> => ({
  row: rowNumber,
  ...(column !== null && { column }),
})

const accepted = (words: string[] | undefined) => (words && words.length > 0 ? { accepted: words.join(', ') } : {})

export const describeErrors = ({ errors, kind }: Pick<ImportPreview, 'errors' | 'kind'>): ProblemError[] =>
  errors.map((error) => ({ ...atCell(error), message: describeFault(error, kind), ...accepted(error.accepted) }))

export const describeWarnings = ({ warnings, kind }: Pick<ImportPreview, 'warnings' | 'kind'>): ProblemError[] =>
  warnings.map((warning) => ({ ...atCell(warning), message: describeWarning(warning, kind), ...accepted(warning.accepted) }))

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
      return new Problem('too-large', detail)
    case 'looks-like-xlsx':
    case 'binary':
      return new Problem('unsupported-media-type', detail)
    case 'already-undone':
    case 'too-big-a-change':
    case 'no-such-file':
      return new Problem('refused', detail)
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
    case 'too-many-rows':
    case 'too-many-columns':
      return new Problem('invalid', detail)
  }
}
