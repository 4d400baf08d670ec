import { washClothPiece } from '#api/cloth-pieces'
import { answerPiece, findHeldPiece, refuseComing } from '#api/describe-cloth'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { washCloth } from '#lib/db/cloth/wash-cloth'

const wash = serve(washClothPiece, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldPiece(path.clothPieceId, version)
  if (held instanceof Problem) return held
  const coming = refuseComing('washedOn', said.washedOn)
  return coming ?? answerPiece(path.clothPieceId, await washCloth({ ...said, ...held.claim }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: wash })
