import { findImport } from '#lib/db/importing/imports'
import { describeImport } from '../../../../_api/describe-import'
import { getImport } from '../../../../_api/imports'
import { notFound } from '../../../../_api/problem'
import { endpoint, serve } from '../../../../_api/serve'

const get = serve(getImport, async ({ path }) => {
  const found = await findImport(path.importId)
  return found ? describeImport(found) : notFound('import', path.importId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
