import { z } from 'zod'
import { say } from '#language/say'
import { type SharedListName, sharedLists } from '#lib/db/list/shared-thing'
import { listQuerySchema } from '../../_lists/list-query'
import { type ListRow, listWords } from '../../_lists/list-rows'
import { readRows, saysPlaces } from '../../_lists/read-rows'

type Context = { params: Promise<{ list: string }> }
type Handler = (request: Request, context: Context) => Promise<Response>
type Asked = { list: SharedListName; rows: ListRow[]; withPlaces: boolean; search: URLSearchParams }

const pathSchema = z.enum(sharedLists)
/** More ticks than any page has. */
const mostTicks = 50_000

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

export const refusal = (sentence: string, status: number): Response =>
  new Response(sentence, { status, headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' } })

/** A list as a file to keep. */
export const fileOf = (body: BodyInit, list: SharedListName, ending: string, mime: string): Response =>
  new Response(body, {
    headers: {
      ...headers,
      'content-type': mime,
      'content-disposition': `attachment; filename="${listWords()[list].file}.${ending}"`,
    },
  })

/** A list as a file: all of it when it is got, what is ticked when the page's form is sent. Nothing is written either way. */
export function listRoute(answer: (asked: Asked) => Promise<Response>): { GET: Handler; POST: Handler } {
  const read = async (request: Request, { params }: Context, ticked: ReadonlySet<string> | null) => {
    const list = pathSchema.safeParse((await params).list)
    if (!list.success) return refusal(say('There is no such list.'), 404)
    const search = new URL(request.url).searchParams
    const choices = listQuerySchema.parse(Object.fromEntries(search))
    const rows = (await readRows(list.data, choices)).filter(({ key }) => ticked === null || ticked.has(key))
    return answer({ list: list.data, rows, withPlaces: saysPlaces(list.data, choices), search })
  }
  return {
    GET: (request, context) => read(request, context, null),
    POST: async (request, context) => {
      const form = await request.formData()
      return read(request, context, new Set(form.getAll('row').slice(0, mostTicks).map(String)))
    },
  }
}
