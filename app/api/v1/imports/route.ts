import { describeErrors, describeImport, describeImportProblem, describeMapping, describeWarnings } from '#api/describe-import'
import { describeIssues } from '#api/describe-issues'
import { bringFileIn, listImportsOperation } from '#api/imports'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { bringIn } from '#lib/db/importing/bring-in'
import { findImport, listImports } from '#lib/db/importing/imports'
import { previewImport } from '#lib/db/importing/preview-import'
import { stageFile } from '#lib/db/importing/stage-file'
import { type Mapping, mappingSchema, type Reading } from '#lib/importing/mapping'

const list = serve(listImportsOperation, async ({ query }) => ({
  imports: (await listImports(query.limit)).map(describeImport),
}))

/** The form's part `mapping`, when there is one. */
function readMapping(text: string | undefined): Mapping | undefined | Problem {
  if (text === undefined || text.trim() === '') return undefined
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return new Problem('bad-json', 'The part mapping is not JSON.')
  }
  const read = mappingSchema.safeParse(value, { reportInput: true })
  if (read.success) return read.data
  const errors = describeIssues(read.error.issues, 'body').map((error) => ({ ...error, field: `/mapping${error.field ?? ''}` }))
  return new Problem('invalid', 'The mapping is not one for this kind of file.', { errors })
}

const bring = serve(bringFileIn, async ({ query, file }) => {
  const mapping = readMapping(file.fields.mapping)
  if (mapping instanceof Problem) return mapping
  const { 'dry-run': isDryRun, sheet, layout, 'header-row': headerRowNumber, 'header-rows': headerRows, ...chosen } = query
  const reading: Reading = {
    ...(sheet !== undefined && { sheet }),
    ...(layout && { layout }),
    ...(headerRowNumber !== undefined && { headerRowNumber }),
    ...(headerRows !== undefined && { headerRows: headerRows === 2 ? 2 : 1 }),
  }
  const choices = { ...chosen, ...(Object.keys(reading).length > 0 && { reading }), ...(mapping && { mapping }) }
  const { stagedId } = await stageFile(file.name, file.bytes)
  const previewed = await previewImport(stagedId, choices)
  if (!previewed.ok) return describeImportProblem(previewed.error)
  const preview = previewed.value
  const { found } = preview
  const brought = isDryRun ? null : await bringIn(stagedId, { ...choices, mapping: preview.mapping })
  if (brought && !brought.ok) return describeImportProblem(brought.error)
  const done = brought && (await findImport(brought.value.importId))
  return {
    isDryRun,
    import: done && describeImport(done),
    kind: preview.kind,
    fileName: preview.fileName,
    encoding: found.encoding,
    separator: found.separator,
    sheets: found.sheets,
    sheet: found.sheetName,
    layout: found.layout,
    headerRow: found.headerRowNumber,
    headerRows: found.headerRows,
    headers: preview.headers,
    rowCount: preview.rowCount,
    mapping: preview.mapping,
    mappingText: describeMapping(preview.mapping, preview.headers),
    counts: brought?.value.counts ?? preview.counts,
    errors: describeErrors(preview),
    errorCount: preview.errorCount,
    warnings: describeWarnings(preview),
    warningCount: preview.warningCount,
    alsoMade: preview.alsoMade,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: bring })
