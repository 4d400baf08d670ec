import { listKitPairsOperation } from '#api/choose-designs'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readKitPairs } from '#lib/db/planning/together/read-kit-pairs'
import { namesIn } from '#words/names'

const get = serve(listKitPairsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const answers = await getAnswers()
  const { pairs, passedOver } = await readKitPairs(answers, ownerIds)
  const { names } = namesIn(answers)
  return {
    ...{ ownerIds, total: pairs.length, passedOver },
    pairs: pairs.slice(0, query.limit).map(({ projects, ...pair }) => ({
      ...pair,
      projects: projects.map((project) => ({ ...project, title: names.design(project.designId) })),
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
