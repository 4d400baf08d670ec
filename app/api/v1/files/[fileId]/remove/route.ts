import { changedFile } from '#api/describe-file'
import { fileOperations } from '#api/files'
import { endpoint, serve } from '#api/serve'
import { removeFile } from '#lib/db/file/remove-file'

const remove = serve(fileOperations.remove, ({ path, query, body }) =>
  changedFile({ ...path, asked: query.owner, version: body.version }, removeFile),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
