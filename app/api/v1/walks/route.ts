import { describeListedWalk, describeWalk, describeWalkProblem } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { listWalksOperation, startWalkOperation } from '#api/walks'
import { listClosedWalks, listOpenWalks } from '#lib/db/walk/queries'
import { startPull } from '#lib/db/walk/start-pull'

const list = serve(listWalksOperation, async () => {
  const [open, closed] = await Promise.all([listOpenWalks(), listClosedWalks({ offset: 0, limit: 100 })])
  return { walks: [...open, ...closed.walks].map(describeListedWalk) }
})

const start = serve(startWalkOperation, async ({ body }) => {
  const started = await startPull({ projectIds: body.projectIds, title: body.title, who: body.by })
  return started.ok ? describeWalk(started.value.walkId) : describeWalkProblem(started.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: start })
