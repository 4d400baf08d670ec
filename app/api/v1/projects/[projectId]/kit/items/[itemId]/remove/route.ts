import { answerKit } from '#api/describe-kit'
import { kitOperations } from '#api/kit-items'
import { endpoint, serve } from '#api/serve'
import { removeKitItem } from '#lib/db/kit/remove-kit-item'

const remove = serve(kitOperations.removeItem, async ({ path, body }) =>
  answerKit(path.projectId, await removeKitItem({ ...path, ...body })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
