import { describeReading } from '#api/describe-reading'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { undoCorrection } from '#lib/db/reading/correct-reading'
import { describeCorrectRefusal } from '../../../../../_reading/words'

const undo = serve(readingOperations.undo, async ({ path: { readingId }, query, body }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  const undone = await undoCorrection({ id: readingId, ownerIds: owners, ...body })
  if (undone.ok) return describeReading(undone.value.staged)
  if (undone.error.kind === 'no-such-reading') return notFound('reading', readingId)
  return new Problem('refused', describeCorrectRefusal(undone.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
