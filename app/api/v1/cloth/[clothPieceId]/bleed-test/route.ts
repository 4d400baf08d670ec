import { testClothBleeding } from '#api/cloth-pieces'
import { answerPiece, findHeldPiece, refuseComing } from '#api/describe-cloth'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { recordBleedTest } from '#lib/db/cloth/test-bleeding'

const test = serve(testClothBleeding, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldPiece(path.clothPieceId, version)
  if (held instanceof Problem) return held
  const coming = refuseComing('testedOn', said.testedOn)
  return coming ?? answerPiece(path.clothPieceId, await recordBleedTest({ ...said, ...held.claim }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: test })
