import { todayHere } from '#api/describe-loan'
import { readProject } from '#api/describe-project'
import { listProjectClashesOperation } from '#api/loans'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { clashesOfPlan } from '#lib/db/loan/clashes'

const list = serve(listProjectClashesOperation, async ({ path: { projectId } }) => {
  const project = await readProject(projectId)
  if (!project) return notFound('project', projectId)
  const { plannedOn, design } = project
  const asked = { designId: design.designId, exceptProjectId: projectId }
  const clashes = plannedOn === null ? [] : await clashesOfPlan({ ...asked, plannedOn }, todayHere())
  return {
    plannedOn,
    clashes: clashes.map(({ loanId, placeId, placeLabel, dueOn, clash }) => ({
      ...{ loanId, with: { placeId, label: placeLabel }, dueOn },
      ...clash,
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
