import { describeCover, listAnswer } from '#api/cover'
import { threadRef } from '#api/describe-design'
import { getDesignCoverage } from '#api/designs'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { beadsOf } from '#lib/coverage/need'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { coverageOfDesign } from '#lib/db/coverage/design-coverage'
import { allowanceOf } from '#lib/thread/allowance'

const get = serve(getDesignCoverage, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const detail = await findDesign(path.designId)
  if (!detail) return notFound('design', path.designId)
  const answers = await getAnswers()
  const over = (query.over ?? null) as 1 | 2 | null
  const coverage = coverageOfDesign(answers, detail, { ownerIds, pieceId: query.piece, over })
  if (!coverage) return notFound('piece of cloth of these owners', query.piece ?? '')
  const listId = query.list ?? coverage.comparison[0]?.listId
  const chosen = coverage.lists.find(({ list }) => list.id === listId)
  if (!chosen) {
    return query.list === undefined
      ? new Problem('not-found', 'The design has no thread list yet.')
      : notFound('thread list of this design', query.list)
  }
  return {
    ownerIds,
    designId: path.designId,
    list: { id: chosen.list.id, name: chosen.list.name },
    otherLists: coverage.comparison
      .filter((other) => other.listId !== chosen.list.id)
      .map((other) => ({ id: other.listId, name: other.name, threads: listAnswer(other.cover) })),
    allowance: allowanceOf(detail.design, answers.world.settings),
    beadCount: beadsOf(chosen.list),
    workedOn: coverage.workedOn,
    cover: describeCover(chosen.cover, chosen.needs, {
      threadOf: (threadId) => threadRef(answers, threadId),
      placeLabelOf: (placeId) => answers.world.places.get(placeId)?.label ?? null,
    }),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
