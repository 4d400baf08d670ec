import { listLeaving } from '#api/buying'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readLeaving } from '#lib/db/reorder/leaving-threads'

const list = serve(listLeaving, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { after: offset = 0, limit } = query
  const { rows, total } = await readLeaving(await getAnswers(), ownerIds, { offset, limit })
  return {
    ownerIds,
    total,
    threads: rows.map(({ thread, designCount, uses, forProjects, forAll }) => ({
      thread: namedThread(thread),
      designCount,
      uses: uses.map(({ wanted, needStrandTenths }) => ({
        designId: wanted.designId,
        title: wanted.title,
        projectId: wanted.project?.id ?? null,
        status: wanted.project?.status ?? null,
        needStrandTenths,
      })),
      shortPutUpsForProjects: forProjects?.line.putUps ?? 0,
      shortPutUpsForAll: forAll?.line.putUps ?? 0,
    })),
    next: nextAfter(offset + rows.length, total),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
