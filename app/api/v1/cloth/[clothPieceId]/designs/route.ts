import { describeFit } from '#api/describe-fit'
import { chosenOwners } from '#api/owners'
import { pageOf } from '#api/paging'
import { listPieceDesigns } from '#api/piece-designs'
import { notFound, Problem } from '#api/problem'
import { describeSize } from '#api/quantities'
import { endpoint, serve } from '#api/serve'
import { anyOwner } from '#lib/chart/design-query'
import { leftOfPiece } from '#lib/cloth/left-of-piece'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findPieceDesigns } from '#lib/db/answers/piece-designs'

const list = serve(listPieceDesigns, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { world } = answers
  const piece = world.pieces.find(({ id }) => id === path.clothPieceId)
  if (!piece) return notFound('piece of cloth', path.clothPieceId)
  const { over, asAsked, stitchableNow, season, subject, form, chartOwner } = query
  const found = findPieceDesigns(
    answers,
    piece,
    {
      ...{ season, subject, form },
      owner: chartOwner?.includes(anyOwner) ? [] : (chartOwner ?? ownerIds),
      stitchableNow: stitchableNow ?? false,
      over: over ?? null,
      onlyAsAsked: asAsked ?? false,
    },
    ownerIds,
  )
  const page = pageOf(found.uses, query, ({ designId }) => designId)
  if (page instanceof Problem) return page
  return {
    ownerIds,
    clothPieceId: piece.id,
    isReserved: piece.isReserved,
    total: found.uses.length,
    designs: page.shown.map((use) => {
      const { facts, isWanted, isReady, designId, isUsualOver, isAdvised, fit } = found.describe(use)
      return {
        designId,
        title: facts.design.title,
        ...{ over: use.over, isUsualOver, isAdvised, isWanted, isStitchableNow: isReady },
        fit: describeFit(fit),
        left: leftOfPiece(piece, fit, world.settings.leastOffcutUm).map(describeSize),
      }
    }),
    next: page.next,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
