import { answerKit } from '#api/describe-kit'
import { kitOperations } from '#api/kit-items'
import { endpoint, serve } from '#api/serve'
import { moveKitItem } from '#lib/db/kit/move-kit-item'

const move = serve(kitOperations.moveItem, async ({ path, body }) =>
  answerKit(path.projectId, await moveKitItem({ ...path, ...body })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: move })
