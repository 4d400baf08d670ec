import { describeReading } from '#api/describe-reading'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { correctReading } from '#lib/db/reading/correct-reading'
import { describeCorrectRefusal } from '../../../../../_reading/words'

const correct = serve(readingOperations.correct, async ({ path: { readingId }, query, body }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  const corrected = await correctReading({ id: readingId, ownerIds: owners, ...body })
  if (corrected.ok) return { reading: await describeReading(corrected.value.staged), changed: corrected.value.changed }
  if (corrected.error.kind === 'no-such-reading') return notFound('reading', readingId)
  return new Problem('refused', describeCorrectRefusal(corrected.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: correct })
