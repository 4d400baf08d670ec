import { describeKitBagProblem, describeTag } from '#api/describe-kit-bags'
import { cutKitsOperation, planKitCutsOperation } from '#api/kit-bags'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { cutKits, readKitCutting } from '#lib/db/kit-bag/cut-kits'
import { readThreadTags } from '#lib/db/thread/thread-tag'

const plan = serve(planKitCutsOperation, async ({ path }) => {
  const cutting = await readKitCutting(path.projectId)
  if (!cutting) return notFound('project', path.projectId)
  const tags = await readThreadTags(cutting.threads.map(({ threadId }) => threadId))
  return {
    seen: cutting.key,
    threads: cutting.threads.flatMap(({ threadId, ...cuts }) => {
      const tag = tags.get(threadId)
      return tag ? [{ thread: describeTag(tag), ...cuts }] : []
    }),
  }
})

const cut = serve(cutKitsOperation, async ({ path, body }) => {
  const done = await cutKits({ ...path, ...body })
  return done.ok ? done.value : describeKitBagProblem(done.error, path.projectId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: plan, POST: cut })
