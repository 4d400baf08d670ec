import { answerNotion, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { removeNotion } from '#lib/db/notion/remove-notion'

const remove = serve(notionOperations.remove, async ({ path, body }) => {
  const held = await findHeldNotion(path.notionId, { version: body.version, isGone: false })
  if (held instanceof Problem) return held
  return answerNotion(path.notionId, await removeNotion({ reason: body.reason, ...held.claim }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
