import { describeImportProblem } from '#api/describe-import'
import { undoImportOperation } from '#api/imports'
import { endpoint, serve } from '#api/serve'
import { undoImport } from '#lib/db/importing/undo-import'

const undo = serve(undoImportOperation, async ({ path }) => {
  const undone = await undoImport(path.importId)
  if (!undone.ok) return describeImportProblem(undone.error)
  const { takenBack, left } = undone.value
  return { takenBack, left: left.map(({ noun, nounId, why }) => ({ noun, id: nounId, why })) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: undo })
