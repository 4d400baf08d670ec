import { getBuyTicks, tickBuyListOperation } from '#api/buy-lists'
import { describeBuyingProblem, describeBuyNews } from '#api/describe-buy-list'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readBuyListNews } from '#lib/db/buying/queries'
import { tickBuyLines } from '#lib/db/buying/tick-lines'
import { heldBackWords } from '#words/buying'

const news = serve(getBuyTicks, async ({ path, query }) => {
  const found = await readBuyListNews(path.listId, query.since)
  return found ? describeBuyNews(found) : notFound('list', path.listId)
})

const tick = serve(tickBuyListOperation, async ({ path: { listId }, body }) => {
  const ticks = body.ticks.map(({ tickedAt, ...line }) => ({ ...line, tickedAt: new Date(tickedAt) }))
  const ticked = await tickBuyLines({ listId, ticks, ...(body.sentAt && { sentAt: new Date(body.sentAt) }) })
  if (!ticked.ok) return describeBuyingProblem(ticked.error)
  const found = await readBuyListNews(listId, body.since)
  if (!found) return notFound('list', listId)
  const held = ticked.value.held.map(({ lineId, why }) => ({ lineId, why: heldBackWords(why) }))
  return { ...describeBuyNews(found), ...ticked.value, held }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: news, POST: tick })
