import { answerNotion, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { moveNotion } from '#lib/db/notion/move-notion'

const move = serve(notionOperations.move, async ({ path, body }) => {
  const held = await findHeldNotion(path.notionId, { version: body.version, isGone: false })
  if (held instanceof Problem) return held
  return answerNotion(
    path.notionId,
    await moveNotion({ toPlaceLabel: body.placeLabel, becomesHome: body.becomesHome, ...held.claim }),
  )
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: move })
