import { listOwners } from '#lib/db/owner/owners'
import { endpoint, serve } from '../../../_api/serve'
import { listOwnersOperation } from '../../../_api/stock'

const list = serve(listOwnersOperation, async () => ({
  owners: (await listOwners()).map(({ id, name, kind }) => ({ id, name, kind })),
}))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
