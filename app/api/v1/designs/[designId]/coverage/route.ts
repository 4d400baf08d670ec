import { describeCover, listAnswer } from '#api/cover'
import { threadRef } from '#api/describe-design'
import { getDesignCoverage } from '#api/designs'
import { findCoveredList } from '#api/find-covered-list'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { beadsOf } from '#lib/coverage/need'
import { allowanceOf } from '#lib/thread/allowance'

const get = serve(getDesignCoverage, async ({ path, query }) => {
  const found = await findCoveredList(path.designId, query)
  if (found instanceof Problem) return found
  const { ownerIds, answers, detail, coverage, covered } = found
  return {
    ownerIds,
    designId: path.designId,
    list: { id: covered.list.id, name: covered.list.name },
    otherLists: coverage.comparison
      .filter((other) => other.listId !== covered.list.id)
      .map((other) => ({ id: other.listId, name: other.name, threads: listAnswer(other.cover) })),
    allowance: allowanceOf(detail.design, answers.world.settings),
    beadCount: beadsOf(covered.list),
    workedOn: coverage.workedOn,
    cover: describeCover(covered.cover, covered.needs, {
      threadOf: (threadId) => threadRef(answers, threadId),
      placeLabelOf: (placeId) => answers.world.places.get(placeId)?.label ?? null,
    }),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
