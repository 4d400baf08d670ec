import { closeBuyListOperation } from '#api/buy-lists'
import { answerBuyList } from '#api/describe-buy-list'
import { endpoint, serve } from '#api/serve'
import { closeBuyList, reopenBuyList } from '#lib/db/buying/close-list'

const close = serve(closeBuyListOperation, async ({ path, body: { status, by } }) =>
  answerBuyList(await (status === 'open' ? reopenBuyList(path) : closeBuyList({ ...path, status, who: by })), path.listId),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: close })
