import { answerNotion, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { putBackNotion } from '#lib/db/notion/put-back-notion'

const putBack = serve(notionOperations.putBack, async ({ path, body }) => {
  const held = await findHeldNotion(path.notionId, { version: body.version, isGone: false })
  if (held instanceof Problem) return held
  const result = await putBackNotion(held.claim)
  return answerNotion(result.ok ? result.value.id : path.notionId, result)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: putBack })
