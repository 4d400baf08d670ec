import { describeKit } from '#api/describe-kit'
import { getWritten } from '#api/describe-project'
import { kitOperations } from '#api/kit-items'
import { notFound } from '#api/problem'
import { describeProjectRefusal } from '#api/project-refusal'
import { kitProjectOperation } from '#api/projects'
import { endpoint, serve } from '#api/serve'
import { readKit } from '#lib/db/kit/read-kit'
import { kitProject } from '#lib/db/project/kit-project'

const get = serve(kitOperations.get, async ({ path }) => {
  const kit = await readKit(path.projectId)
  return kit ? describeKit(kit) : notFound('project', path.projectId)
})

const kit = serve(kitProjectOperation, async ({ path, body }) => {
  const done = await kitProject({ ...path, ...body })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: kit })
