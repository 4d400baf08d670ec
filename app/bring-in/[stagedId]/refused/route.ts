import { refusedRowsCsv } from '#lib/db/importing/preview-import'
import { parseErrand } from '../../choices'
import { csvResponse, textResponse } from '../../csv-response'
import { describeImportRefusal } from '../../refusal-words'

/** The rows that cannot be brought in, as a file to mend and bring in again. */
export async function GET(request: Request, { params }: { params: Promise<{ stagedId: string }> }): Promise<Response> {
  const { choices } = parseErrand(Object.fromEntries(new URL(request.url).searchParams))
  const result = await refusedRowsCsv((await params).stagedId, choices)
  return result.ok
    ? csvResponse(result.value, 'rows-to-mend.csv')
    : textResponse(describeImportRefusal(result.error), result.error.kind === 'no-such-file' ? 404 : 422)
}
