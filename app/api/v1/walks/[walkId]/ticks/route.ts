import { describeNews, describeWalkProblem } from '#api/describe-walk'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getWalkNews, tickWalkOperation } from '#api/walks'
import { readNews } from '#lib/db/walk/queries'
import { tickLines } from '#lib/db/walk/tick-lines'

const news = serve(getWalkNews, async ({ path, query }) => {
  const found = await readNews(path.walkId, query.since)
  return found ? describeNews(found) : notFound('walk', path.walkId)
})

const tick = serve(tickWalkOperation, async ({ path, body }) => {
  const { walkId } = path
  const ticks = body.ticks.map(({ tickedAt, ...line }) => ({ ...line, tickedAt: new Date(tickedAt) }))
  const ticked = await tickLines({ walkId, ticks, ...(body.sentAt && { sentAt: new Date(body.sentAt) }) })
  if (!ticked.ok) return describeWalkProblem(ticked.error)
  const found = await readNews(walkId, body.since)
  return found ? { ...describeNews(found), ...ticked.value } : notFound('walk', walkId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: news, POST: tick })
