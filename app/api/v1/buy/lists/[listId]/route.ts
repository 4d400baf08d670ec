import { changeBuyListOperation, getBuyListKept } from '#api/buy-lists'
import { answerBuyList, describeBuyList } from '#api/describe-buy-list'
import { endpoint, serve } from '#api/serve'
import { changeBuyList } from '#lib/db/buying/change-list'

const get = serve(getBuyListKept, ({ path }) => describeBuyList(path.listId))

const change = serve(changeBuyListOperation, async ({ path, body: { version, ...named } }) =>
  answerBuyList(await changeBuyList({ ...path, ...named, ...(version !== undefined && { version }) }), path.listId),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: change })
