import { repairFaultOperation } from '#api/checks'
import { describeOutcome } from '#api/describe-check'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { repairFrom } from '#lib/db/checking/check-jobs'

const repair = serve(repairFaultOperation, async ({ path, body }) => {
  const asked = 'faultId' in body ? body : { repair: body.repair, faultKind: body.kind }
  const done = await repairFrom(path.jobId, asked)
  if (done === null) return 'faultId' in body ? notFound('fault', body.faultId) : notFound('check', path.jobId)
  return { outcomes: done.map(({ fault, outcome }) => ({ faultId: fault.id, outcome: describeOutcome(outcome) })) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: repair })
