import { say } from '#language/say'
import { findBuyList, type ListDetail } from '#lib/db/buying/queries'
import { getViewer } from '#viewer/viewer'
import { listQuerySchema } from '../schema'

const headers = { 'x-content-type-options': 'nosniff', 'cache-control': 'private, no-store' }

type Asked = ListDetail & {
  search: URLSearchParams
  said: {
    by: 'supplier' | 'maker'
    unit: Awaited<ReturnType<typeof getViewer>>['settings']['threadUnit']
    currency: string
    withPrices: boolean
  }
}
type Context = { params: Promise<{ listId: string }> }

/** A list as a file to keep; nothing is written. */
export const listFile =
  (ending: string, mime: string, bodyOf: (asked: Asked) => Promise<BodyInit> | BodyInit) =>
  async (request: Request, { params }: Context): Promise<Response> => {
    const [{ listId }, { settings }] = await Promise.all([params, getViewer()])
    const found = await findBuyList(listId)
    if (!found)
      return new Response(say('There is no such list.'), {
        status: 404,
        headers: { ...headers, 'content-type': 'text/plain; charset=utf-8' },
      })
    const search = new URL(request.url).searchParams
    const { by, prices } = listQuerySchema.parse(Object.fromEntries(search))
    const said = { by, unit: settings.threadUnit, currency: settings.currency, withPrices: prices }
    const body = await bodyOf({ ...found, search, said })
    return new Response(body, {
      headers: { ...headers, 'content-type': mime, 'content-disposition': `attachment; filename="to-buy.${ending}"` },
    })
  }
