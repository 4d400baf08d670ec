import { changeClothPiece, getClothPiece } from '#api/cloth-pieces'
import { answerPiece, describePiece, findHeldPiece, refuseComing, wantsTurning } from '#api/describe-cloth'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { turningQuestion } from '#lib/cloth/care'
import { editCloth } from '#lib/db/cloth/edit-cloth'
import { findClothCard, findClothPiece } from '#lib/db/cloth/queries'

const get = serve(getClothPiece, async ({ path }) => {
  const piece = await findClothPiece(path.clothPieceId)
  return piece ? describePiece(piece) : notFound('piece of cloth', path.clothPieceId)
})

const change = serve(changeClothPiece, async ({ path, body }) => {
  const { version, ...said } = body
  const held = await findHeldPiece(path.clothPieceId, version)
  if (held instanceof Problem) return held
  const card = await findClothCard(path.clothPieceId)
  if (!card) return notFound('piece of cloth', path.clothPieceId)
  const coming = refuseComing('washedOn', said.washedOn ?? null)
  if (coming) return coming
  const oneWay = said.oneWayBecause ? { isTurnable: false } : {}
  const after = { ...card, ...said, ...oneWay }
  // What makes it a question has to come with its answer.
  const why = turningQuestion(after)
  const isAnswered = said.isTurnable !== undefined || !after.isTurnable || why === turningQuestion(card)
  if (why !== null && !isAnswered) return wantsTurning(why)
  return answerPiece(path.clothPieceId, await editCloth({ ...after, ...held.claim }))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: change })
