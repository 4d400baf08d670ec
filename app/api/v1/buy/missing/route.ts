import { listMissing } from '#api/buying'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readMissing } from '#lib/db/reorder/missing-threads'

const list = serve(listMissing, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  if (!answers.world.lines.has(query.line)) return notFound('line', query.line)
  const { missing, threadCount } = await readMissing(answers, { lineId: query.line, ownerIds })
  return { ownerIds, threadCount, missing: missing.map(({ thread, ...rest }) => ({ ...rest, thread: namedThread(thread) })) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
