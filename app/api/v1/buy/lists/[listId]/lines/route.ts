import { addBuyLinesOperation } from '#api/buy-lists'
import { answerBuyList, newLineOf } from '#api/describe-buy-list'
import { endpoint, serve } from '#api/serve'
import { addBuyLines } from '#lib/db/buying/add-lines'

const add = serve(addBuyLinesOperation, async ({ path, body }) =>
  answerBuyList(await addBuyLines({ ...path, isOnceEach: body.isOnceEach, lines: body.lines.map(newLineOf) }), path.listId),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: add })
