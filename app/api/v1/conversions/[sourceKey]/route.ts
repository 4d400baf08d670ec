import { threadRef } from '#api/describe-design'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getConversionList } from '#api/swaps'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listConversionLists, listConversions } from '#lib/db/thread/conversions'

const get = serve(getConversionList, async ({ path, query }) => {
  const { limit, after } = query
  const list = (await listConversionLists()).find(({ sourceKey }) => sourceKey === path.sourceKey)
  if (!list) return notFound('conversion list', path.sourceKey)
  const pairs = await listConversions(list.sourceKey, { limit: limit + 1, after })
  const shown = pairs.slice(0, limit)
  const answers = await getAnswers()
  return {
    sourceName: list.sourceName,
    pairs: shown.map(({ threadId, otherThreadId }) => ({
      thread: threadRef(answers, threadId),
      other: threadRef(answers, otherThreadId),
    })),
    next: pairs.length > limit ? (shown.at(-1)?.id ?? null) : null,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
