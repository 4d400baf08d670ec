import { keepersOnly } from '#api/keepers-only'
import { say } from '#language/say'
import { mayDo } from '#lib/access/who'
import { who } from '#lib/db/access/asking'
import { collectionWorkbook, peopleSheets } from '#lib/db/archive/collection-workbook'
import { database } from '#lib/db/client'
import { getSettings } from '#lib/db/settings/settings'
import { tooManyRowsWords } from '#words/archive'

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

const refusal = (sentence: string, status: number): Response =>
  new Response(sentence, { status, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } })

/** One sheet, or all in one workbook, for people. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }): Promise<Response> {
  if (!mayDo(who(), 'keep')) return keepersOnly()
  const { file } = await params
  const sheets = file === 'everything.xlsx' ? peopleSheets : peopleSheets.filter((sheet) => file === `${sheet}.xlsx`)
  if (sheets.length === 0) return refusal(say('There is no such sheet.'), 404)
  const workbook = await collectionWorkbook(database(), sheets, await getSettings())
  if (!workbook.ok) return refusal(tooManyRowsWords(workbook.error), 422)
  return new Response(new Uint8Array(workbook.value), {
    headers: {
      ...headers,
      'content-type': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
      'content-disposition': `attachment; filename="${file}"`,
    },
  })
}
