import { answerKit } from '#api/describe-kit'
import { kitOperations } from '#api/kit-items'
import { endpoint, serve } from '#api/serve'
import { addKitItem } from '#lib/db/kit/add-kit-item'

const add = serve(kitOperations.addItem, async ({ path, body }) =>
  answerKit(path.projectId, await addKitItem({ ...path, ...body })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: add })
