import { describePiece, describeStitches } from '#api/describe-design'
import { describeFrame, describeSizedOn } from '#api/describe-design-cloth'
import { describeFit } from '#api/describe-fit'
import { getDesignFrame } from '#api/design-cloth'
import { chosenOwners } from '#api/owners'
import { badParameter, notFound, Problem } from '#api/problem'
import { describeSize, toNanometre } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { answerDesignFrame } from '#lib/coverage/design-frame'
import { getAnswers } from '#lib/db/answers/get-answers'
import { formatCount } from '#lib/quantity/count'

const mostPieces = 5

const get = serve(getDesignFrame, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const facts = answers.world.designs.get(path.designId)
  if (!facts) return notFound('design', path.designId)
  const { widthUm, heightUm, over, piece: pieceId } = query
  if ((widthUm === undefined) !== (heightUm === undefined))
    return badParameter(
      widthUm === undefined ? 'widthUm' : 'heightUm',
      'an opening has two sides.',
      'both widthUm and heightUm, or neither',
    )
  const pieces = answers.world.pieces.filter((piece) => ownerIds.includes(piece.ownerId))
  if (pieceId !== undefined && !pieces.some(({ id }) => id === pieceId)) return notFound('piece of cloth', pieceId)
  const { settings } = answers.world
  const seenUm = query.seenUm ?? settings.framing.seenUm
  const choices = {
    opening: widthUm !== undefined && heightUm !== undefined ? { widthUm, heightUm } : null,
    seenUm,
    over: over === undefined ? null : (Number(over) as 1 | 2),
    pieceId: pieceId ?? null,
  }
  const answer = answerDesignFrame(facts.design, pieces, choices, settings)
  return {
    ...{ ownerIds, designId: path.designId, stitches: describeStitches(facts.design), seenUm },
    own: answer?.own
      ? {
          piece: answer.own.piece && describePiece(answers, answer.own.piece),
          on: describeSizedOn(answer.own.on),
          frame: describeFrame(answer.own.finished, answer.own.frame),
        }
      : null,
    counts:
      answer?.counts?.map(({ weave, ends, picks, over: worked, pieceCount, way, pieces: found }) => ({
        ...{ weave, ends, picks, countText: formatCount(ends, picks), over: worked, pieceCount, kind: way.kind },
        ...{ finished: describeSize(way.finished), opening: describeSize(way.opening), cut: describeSize(way.cut) },
        ...{ seenAcrossUm: toNanometre(way.seenAcrossUm), seenUpUm: toNanometre(way.seenUpUm) },
        pieces: found.slice(0, mostPieces).map(({ piece, fit, turnBackUm }) => ({
          ...{ piece: describePiece(answers, piece), fit: describeFit(fit), turnBackUm },
        })),
      })) ?? null,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
