import { describeProject, getWritten } from '#api/describe-project'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { describeProjectRefusal } from '#api/project-refusal'
import { addProject, listProjects } from '#api/projects'
import { readThreadRefs } from '#api/read-thread-refs'
import { endpoint, serve } from '#api/serve'
import { listFinishes, listProjectsUnderWay } from '#lib/db/project/queries'
import { startProject } from '#lib/db/project/start-project'
import { calendarDay } from '#lib/quantity/day'

const list = serve(listProjects, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { state, limit, after = 0 } = query
  if (after % limit !== 0) {
    const errors = [
      { parameter: 'after', message: 'It is not a whole number of pages.', accepted: 'the next of the page before' },
    ]
    return new Problem('bad-parameter', 'after: it is not a whole number of pages of this limit.', { errors })
  }
  const asked = { ownerIds, page: after / limit + 1, perPage: limit }
  const filter = { status: query.status ?? null, due: query.due ?? null, words: query.q ?? '' }
  const { rows, total } =
    state === 'finished'
      ? await listFinishes(asked)
      : await listProjectsUnderWay({ ...asked, filter, today: calendarDay(new Date()) })
  return { ownerIds, total, projects: rows.map(describeProject), next: nextAfter(after + rows.length, total) }
})

const start = serve(addProject, async ({ body }) => {
  const started = await startProject(body)
  if (!started.ok) return describeProjectRefusal(started.error)
  const { projectId, promised, short } = started.value
  const refOf = await readThreadRefs()
  return {
    project: await getWritten(projectId),
    promised: promised.map(({ threadId, batchId, strandTenths }) => ({ thread: refOf(threadId), batchId, strandTenths })),
    short: short.map(({ threadId, ...figures }) => ({ thread: refOf(threadId), ...figures })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: start })
