import { answerNotion, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { takeNotion } from '#lib/db/notion/take-notion'

const take = serve(notionOperations.take, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldNotion(path.notionId, { version, isGone: false })
  if (held instanceof Problem) return held
  const result = await takeNotion({ ...said, ...held.claim })
  return answerNotion(result.ok ? result.value.id : path.notionId, result)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: take })
