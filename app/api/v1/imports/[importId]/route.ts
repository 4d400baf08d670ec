import { describeImport } from '#api/describe-import'
import { getImport } from '#api/imports'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findImport } from '#lib/db/importing/imports'

const get = serve(getImport, async ({ path }) => {
  const found = await findImport(path.importId)
  return found ? describeImport(found) : notFound('import', path.importId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
