import { measureClothPiece } from '#api/cloth-pieces'
import { answerPiece, findHeldPiece } from '#api/describe-cloth'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { measureCloth } from '#lib/db/cloth/edit-cloth'

const measure = serve(measureClothPiece, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldPiece(path.clothPieceId, version)
  if (held instanceof Problem) return held
  const result = await measureCloth({ ...said, ...held.claim, sizeCertainty: 'measured' })
  return answerPiece(path.clothPieceId, result)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: measure })
