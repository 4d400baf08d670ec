import { type AuditLine, readAudit } from '#lib/db/access/list-audit'
import { requireRight } from '#lib/db/access/right'
import { toCsv } from '#lib/importing/escape-csv'
import { auditKindWords, auditWords } from '#words/audit'
import { auditFilterOf } from '../filter'
import { logQuerySchema } from '../schema'

const heads = ['When', 'Who', 'From', 'Kind', 'What', 'Change', 'Detail']

const cellsOf = (line: AuditLine) => [
  line.at.toISOString(),
  line.accountName,
  line.address,
  auditKindWords[line.kind],
  auditWords(line),
  line.revision,
  Object.keys(line.detail).length > 0 ? JSON.stringify(line.detail) : '',
]

/** The log, or as much of it as is asked for, as a file for spreadsheets; sent lot by lot, however long it is. */
export async function GET(request: Request): Promise<Response> {
  requireRight('keep')
  const query = logQuerySchema.parse(Object.fromEntries(new URL(request.url).searchParams))
  const lots = readAudit(auditFilterOf(query))
  const encoder = new TextEncoder()
  const body = new ReadableStream<Uint8Array>({
    start: (controller) => controller.enqueue(encoder.encode(`\uFEFF${toCsv([heads])}`)),
    pull: async (controller) => {
      const { done, value } = await lots.next()
      if (done) controller.close()
      else controller.enqueue(encoder.encode(toCsv(value.map(cellsOf))))
    },
    cancel: async () => {
      await lots.return(undefined)
    },
  })
  return new Response(body, {
    headers: {
      'x-content-type-options': 'nosniff',
      'cache-control': 'private, no-store',
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="who-did-what${query.day ? `-${query.day}` : ''}.csv"`,
    },
  })
}
