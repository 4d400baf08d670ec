import { countClothPiece } from '#api/cloth-pieces'
import { answerPiece, describeClothRefusal, findHeldPiece, noCount } from '#api/describe-cloth'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { countCloth } from '#lib/db/cloth/count-cloth'

const count = serve(countClothPiece, async ({ path, body }) => {
  const { version, isTurnable = null, ...readings } = body
  const held = await findHeldPiece(path.clothPieceId, version)
  if (held instanceof Problem) return held
  const result = await countCloth({ ...readings, ...held.claim, isTurnable })
  if (result.ok) return answerPiece(path.clothPieceId, result)
  return result.error.kind === 'changed-meanwhile' ? describeClothRefusal(result.error) : noCount(result.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: count })
