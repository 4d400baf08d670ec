import { answerNotion, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { restoreNotion } from '#lib/db/notion/restore-notion'

const restore = serve(notionOperations.restore, async ({ path, body }) => {
  const held = await findHeldNotion(path.notionId, { version: body.version, isGone: true })
  if (held instanceof Problem) return held
  return answerNotion(path.notionId, await restoreNotion(held.claim))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: restore })
