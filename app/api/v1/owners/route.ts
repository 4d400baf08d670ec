import { endpoint, serve } from '#api/serve'
import { listOwnersOperation } from '#api/stock'
import { listOwners } from '#lib/db/owner/owners'

const list = serve(listOwnersOperation, async () => ({
  owners: (await listOwners()).map(({ id, name, kind }) => ({ id, name, kind })),
}))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
