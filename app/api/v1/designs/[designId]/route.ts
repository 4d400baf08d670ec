import { describeDesign } from '#api/describe-design'
import { getDesign } from '#api/designs'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { findDesign } from '#lib/db/chart/find-design'
import { formatCount } from '#lib/quantity/count'

const get = serve(getDesign, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const detail = await findDesign(path.designId)
  const answers = await getAnswers()
  const facts = answers.world.designs.get(path.designId)
  if (!detail || !facts) return notFound('design', path.designId)
  const { advised, coverKind } = detail.design
  return {
    ...describeDesign(answers, facts, ownerIds),
    ownerIds,
    advised: advised && { ...advised, countText: formatCount(advised.count, advised.count) },
    coverKind,
    lists: detail.lists.map((list) => ({ listId: list.id, name: list.name, keyLineCount: list.keyLines.length })),
    projects: detail.projects.map(({ id, status, finishedOn }) => ({ projectId: id, status, finishedOn })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
