import { removeBuyLineOperation } from '#api/buy-lists'
import { answerBuyList } from '#api/describe-buy-list'
import { endpoint, serve } from '#api/serve'
import { removeBuyLine } from '#lib/db/buying/remove-line'

const remove = serve(removeBuyLineOperation, async ({ path }) => answerBuyList(await removeBuyLine(path), path.listId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
