import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { undoSavedReading } from '#lib/db/reading/undo-saved-reading'
import { describeUndoRefusal } from '../../../../../../_reading/words'

const undo = serve(readingOperations.undoSaved, async ({ path: { changeId } }) => {
  const undone = await undoSavedReading({ changeId })
  if (undone.ok) return undone.value
  if (undone.error.kind === 'no-such-change') return notFound('saved reading', changeId)
  return new Problem('refused', describeUndoRefusal(undone.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
