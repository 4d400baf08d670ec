import { answerNotion, describeNotionDetail, findHeldNotion } from '#api/describe-notion'
import { notionOperations } from '#api/notions'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { editNotion } from '#lib/db/notion/edit-notion'
import { findNotion } from '#lib/db/notion/queries'

const get = serve(notionOperations.get, async ({ path }) => {
  const notion = await findNotion(path.notionId)
  return notion ? describeNotionDetail(notion) : notFound('notion', path.notionId)
})

const change = serve(notionOperations.change, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldNotion(path.notionId, { version, isGone: false })
  if (held instanceof Problem) return held
  const { kind, name, size, minimum, packOf, priceMinor, note } = held.notion
  return answerNotion(
    path.notionId,
    await editNotion({ kind, name, size, minimum, packOf, priceMinor, note, ...said, ...held.claim }),
  )
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: change })
