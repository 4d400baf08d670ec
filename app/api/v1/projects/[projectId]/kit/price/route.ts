import { answerKit } from '#api/describe-kit'
import { kitOperations } from '#api/kit-items'
import { endpoint, serve } from '#api/serve'
import { setKitPrice } from '#lib/db/kit/set-kit-price'

const price = serve(kitOperations.setPrice, async ({ path, body }) =>
  answerKit(path.projectId, await setKitPrice({ ...path, ...body })),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: price })
