import { Problem } from '#api/problem'
import type { Handler } from '#api/serve'

/** Every address that is none of the API's. */
const unknown: Handler = async () =>
  new Problem('not-found', 'There is no such address. GET /api/v1/openapi.json lists those there are.').toResponse()

export { unknown as GET, unknown as POST, unknown as PUT, unknown as PATCH, unknown as DELETE, unknown as OPTIONS }
