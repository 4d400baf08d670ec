import { answerParts, describeParts } from '#api/describe-calendar'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { partOperations } from '#api/stitch-along-parts'
import { savePart } from '#lib/db/planning/days/save-part'
import { findProject } from '#lib/db/project/queries'

const list = serve(partOperations.parts, async ({ path: { projectId } }) =>
  (await findProject(projectId)) ? describeParts(projectId) : notFound('project', projectId),
)

const add = serve(partOperations.addPart, async ({ path: { projectId }, body }) =>
  answerParts(projectId, await savePart({ ...body, projectId })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: add })
