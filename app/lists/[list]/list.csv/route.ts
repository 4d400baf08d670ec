import { z } from 'zod'
import { sharedLists } from '#lib/db/list/shared-thing'
import { listQuerySchema } from '../../../_lists/list-query'
import { listCsv, listWords } from '../../../_lists/list-rows'
import { readRows } from '../../../_lists/read-rows'

type Context = { params: Promise<{ list: string }> }

const pathSchema = z.enum(sharedLists)
/** More ticks than any page has. */
const mostTicks = 50_000

async function answer(request: Request, { params }: Context, ticked: ReadonlySet<string> | null): Promise<Response> {
  const list = pathSchema.safeParse((await params).list)
  if (!list.success) return new Response('There is no such list.', { status: 404, headers })
  const choices = listQuerySchema.parse(Object.fromEntries(new URL(request.url).searchParams))
  const rows = (await readRows(list.data, choices)).filter(({ key }) => ticked === null || ticked.has(key))
  const withPlaces = list.data === 'stash' && choices.places === '1'
  return new Response(`\uFEFF${listCsv(rows, { withPlaces })}`, {
    headers: {
      ...headers,
      'content-type': 'text/csv; charset=utf-8',
      'content-disposition': `attachment; filename="${listWords[list.data].file}"`,
    },
  })
}

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

/** All of the list as a file. */
export const GET = (request: Request, context: Context): Promise<Response> => answer(request, context, null)

/** What is ticked of it. Nothing is written. */
export async function POST(request: Request, context: Context): Promise<Response> {
  const form = await request.formData()
  return answer(request, context, new Set(form.getAll('row').slice(0, mostTicks).map(String)))
}
