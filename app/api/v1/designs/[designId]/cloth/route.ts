import { describePiece, describeStitches } from '#api/describe-design'
import { describeFit } from '#api/describe-fit'
import { getDesignCloth } from '#api/designs'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { describeSize } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { clothAnswer } from '#lib/coverage/cloth-answer'
import { clothSettings } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'

const mostRanked = 50

const get = serve(getDesignCloth, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { world } = answers
  const facts = world.designs.get(path.designId)
  if (!facts) return notFound('design', path.designId)
  const pieces = world.pieces.filter((piece) => ownerIds.includes(piece.ownerId))
  const answer = clothAnswer(facts.design, pieces, clothSettings(world.settings))
  const common = { ownerIds, designId: path.designId, stitches: describeStitches(facts.design) }
  if (answer.kind === 'unknown-size') return { ...common, ranked: [], bestPieceId: null, toBuy: null, kinds: [] }
  const { ranked, best, toBuy } = answer.choice
  return {
    ...common,
    ranked: ranked
      .slice(0, mostRanked)
      .map(({ piece, fit }) => ({ piece: describePiece(answers, piece), fit: describeFit(fit) })),
    bestPieceId: best?.piece.id ?? null,
    toBuy: toBuy && describeSize(toBuy),
    kinds: answer.kinds.map(({ best: piece, fit, ...kind }) => ({
      ...kind,
      best: { piece: describePiece(answers, piece), fit: describeFit(fit) },
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
