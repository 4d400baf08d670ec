import { describeMissing, describeQuestion, missingProblem } from '#api/describe-missing'
import { listMissingOperation, reportMissingOperation } from '#api/missing'
import { chosenOwners } from '#api/owners'
import { nextAfter } from '#api/paging'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listMissing } from '#lib/db/missing/queries'
import { reportNow, reportThingNow } from '#lib/db/missing/report-now'

const list = serve(listMissingOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { limit, after: offset = 0, status } = query
  const { questions, total } = await listMissing({ ownerIds, isOpen: status === 'open' }, { offset, limit })
  return { ownerIds, total, questions: questions.map(describeQuestion), next: nextAfter(offset + questions.length, total) }
})

const report = serve(reportMissingOperation, async ({ body }) => {
  const { noun, id, wholePutUps, takesPart, version, ...said } = body
  const seen = version === undefined ? {} : { version }
  const result =
    noun === 'thread'
      ? await reportNow({ ...said, ...seen, batchId: id, wholePutUps, takesPart, lastSeenPlaceId: null })
      : await reportThingNow({ ...said, ...seen, noun, id })
  return result.ok ? describeMissing(result.value.missingId) : missingProblem(result.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: report })
