import { answerNotion, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { countNotion } from '#lib/db/notion/count-notion'

const count = serve(notionOperations.count, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldNotion(path.notionId, { version, isGone: false })
  if (held instanceof Problem) return held
  return answerNotion(path.notionId, await countNotion({ ...said, ...held.claim }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: count })
