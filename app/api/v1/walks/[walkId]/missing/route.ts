import { describeWalk, describeWalkProblem } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { reportLineMissingOperation } from '#api/walks'
import { reportLineMissing } from '#lib/db/walk/report-line-missing'

const report = serve(reportLineMissingOperation, async ({ path, body }) => {
  const reported = await reportLineMissing({ ...path, lineIds: body.lineIds, who: body.by })
  return reported.ok ? describeWalk(path.walkId) : describeWalkProblem(reported.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: report })
