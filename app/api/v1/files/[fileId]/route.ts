import { describeFile } from '#api/describe-file'
import { fileOperations } from '#api/files'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findFileOf } from '#lib/db/file/queries'

const get = serve(fileOperations.get, async ({ path: { fileId }, query }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  const file = await findFileOf(fileId, owners)
  return file ? describeFile(file) : notFound('file', fileId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
