import { threadRef } from '#api/describe-design'
import { describeSwap } from '#api/describe-swap'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getThreadSwaps } from '#api/swaps'
import { hexToLab } from '#lib/colour/convert'
import { getAnswers } from '#lib/db/answers/get-answers'
import { listThreadSwaps } from '#lib/db/swap/list-thread-swaps'

const get = serve(getThreadSwaps, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const unknown = query.apart?.find((id) => !answers.world.threads.has(id))
  if (unknown !== undefined) return notFound('thread', unknown)
  const found = await listThreadSwaps(answers, path.threadId, {
    ownerIds,
    apartThreadIds: query.apart ?? [],
    cloth: query.cloth === undefined ? null : hexToLab(query.cloth),
    among: query.among,
  })
  if (!found) return notFound('thread', path.threadId)
  const threadOf = (threadId: string) => threadRef(answers, threadId)
  return {
    ownerIds,
    thread: threadOf(path.threadId),
    swaps: found.swaps.map(({ thread, stock, verdict, opinions, isAcceptedStandIn }) => ({
      judged: describeSwap(thread, stock, verdict, threadOf),
      isAcceptedStandIn,
      opinions: opinions.map(({ sourceName }) => sourceName),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
