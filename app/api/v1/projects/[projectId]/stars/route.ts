import { setStarsOperation } from '#api/choose-designs'
import { getWritten } from '#api/describe-project'
import { describeProjectRefusal } from '#api/project-refusal'
import { endpoint, serve } from '#api/serve'
import { setStars } from '#lib/db/project/set-stars'

const set = serve(setStarsOperation, async ({ path, body }) => {
  const done = await setStars({ projectIds: [path.projectId], stars: body.stars })
  return done.ok ? getWritten(path.projectId) : describeProjectRefusal(done.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: set })
