import { nameUnsortedOperation } from '#api/buy-lists'
import { endpoint, serve } from '#api/serve'
import { nameUnsorted } from '#lib/db/buying/name-unsorted'

const name = serve(nameUnsortedOperation, async ({ body }) => {
  await nameUnsorted(body.label)
  return { ok: true as const }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: name })
